#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_old(CLI::App& app, Request& r) {
  auto* old = app.add_subcommand(
      "old",
      "cloth that was ironed before: what more can come out at which stage, and how hot a patch is ironed to match it");
  add_case(*old, r);
  old->add_option("--coats", r.old.coats, "what is on the cloth: none, on (any coat at all), or not known")
      ->type_name("WORD")
      ->required();
  add_each(*old, "--sag", r.old.sags,
           "sag under a weight on a rigid lid of 4 in (101.6 mm), once a bay: --sag \"top, bay 2: 1 kg = 3.1 mm\"");
  old->add_option("--pull", r.old.pull, "or its pull, where that is known: \"2.1 lb/in\"")->type_name("TEXT");
  old->add_option("--seen", r.old.seen,
                  "the hottest that it has been ironed at, by thermometer; without it nobody knows: \"300 degF\"")
      ->type_name("TEMPERATURE");
  old->add_flag("--patch", r.old.patch, "a new piece is let in: how hot it is ironed to pull like the cloth round it");
  add_slip(*old, r);
}

}  // namespace evenpull
