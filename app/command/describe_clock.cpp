#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_clock(CLI::App& app, Request& r) {
  auto* clock =
      app.add_subcommand("clock", "the whole job as a list to tick, with its waits and the time each part begins");
  add_case(*clock, r);
  clock
      ->add_option(
          "--from", r.clock.from,
          "folder of the plan, or its plan.json; without it the one that evenpull plan writes here, if it is there")
      ->type_name("DIR");
  clock
      ->add_option("--start", r.clock.start,
                   "when the job begins: 9:00 or 14:30; without it counted from its beginning")
      ->type_name("TIME");
  add_paper(*clock, r, "paper of the list: letter or a4; letter if not said");
  add_common(*clock, r);
}

}  // namespace evenpull
