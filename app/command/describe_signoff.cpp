#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_signoff(CLI::App& app, Request& r) {
  auto* signoff = app.add_subcommand(
      "signoff", "a page with what was planned, done and read, what is open, and what a mechanic must still inspect");
  add_case(*signoff, r);
  signoff
      ->add_option(
          "--from", r.sign_off.from,
          "folder of the plan, or its plan.json; without it the one that evenpull plan writes here, if it is there")
      ->type_name("DIR");
  signoff->add_option("--log", r.sign_off.log, "the job's log; without it the one named after the case, if it is there")
      ->type_name("FILE");
  add_paper(*signoff, r, "paper of the page: letter or a4; letter if not said");
  add_common(*signoff, r);
}

}  // namespace evenpull
