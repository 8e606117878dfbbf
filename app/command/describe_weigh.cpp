#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_weigh(CLI::App& app, Request& r) {
  auto* weigh = app.add_subcommand(
      "weigh", "what the covering weighs and its moment about the hinge line, beside the old one if that was weighed");
  add_case(*weigh, r);
  weigh->add_option("--old", r.weigh.old_mass, "what the old covering weighs, off the frame: \"310 g\"")
      ->type_name("MASS");
  weigh
      ->add_option("--old-at", r.weigh.old_at,
                   "where its centre lies behind the hinge line, below 0 ahead of it: \"4.5 in\"")
      ->type_name("LENGTH");
  weigh
      ->add_option(
          "--about", r.weigh.about,
          "the member along which the hinges lie; without it the one that the case says or holds by two hinges")
      ->type_name("MEMBER");
  add_paper(*weigh, r, "paper of the page: letter or a4; letter if not said");
  add_common(*weigh, r);
}

}  // namespace evenpull
