#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_blanket(CLI::App& app, Request& r) {
  constexpr int most_panels = 12;
  auto* blanket = app.add_subcommand(
      "blanket",
      "what to cut from the bolt, where to lap and glue, what the laps bear; drawings to scale and at true size");
  add_case(*blanket, r);
  blanket
      ->add_option("--also", r.blanket.also,
                   "a further case that is cut from the same bolt; once for each. The bolt is that of CASE")
      ->type_name("FILE")
      ->allow_extra_args(false);
  blanket->add_option("--panels", r.blanket.panels, "how many panels of each case are cut; 1 if not said")
      ->check(CLI::Range(1, most_panels))
      ->type_name("N");
  blanket
      ->add_option("--stage", r.blanket.stage,
                   "the hottest that it will be ironed at, which says what the laps see: \"300 degF\"; without it the "
                   "last stage of the case")
      ->type_name("TEMPERATURE");
  blanket->add_option("--from", r.blanket.plan, "or the folder of a plan, whose hottest safe stage counts")
      ->type_name("DIR")
      ->excludes("--stage");
  blanket->add_flag("--tiles", r.blanket.tiles,
                    "draw each piece at true size on as many sheets as it takes, to be laid edge on edge (tiles.pdf)");
  add_paper(*blanket, r, "paper of the pages: letter or a4; letter if not said");
  add_common(*blanket, r);
}

}  // namespace evenpull
