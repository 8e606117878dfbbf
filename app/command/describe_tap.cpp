#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_tap(CLI::App& app, Request& r) {
  auto* tap = app.add_subcommand(
      "tap", "the pull of the cloth in a bay from the tone of a tap, or from the sag under a weight");
  add_case(*tap, r);
  const auto several = [&](const char* name, std::vector<std::string>& into, const char* type, const char* what) {
    tap->add_option(name, into, what)->type_name(type)->allow_extra_args(false);
  };
  several("--tone", r.tap.tones, "TEXT",
          "lowest tone that a bay rings with, once a bay: --tone \"bay 2 top = 84 Hz\", or a note: \"bay 2 top = E2 "
          "+10 cents\"");
  several("--wav", r.tap.recordings, "FILE",
          "a recording of taps on one bay, one to a dozen, a second apart; --bay says which");
  several("--bay", r.tap.bays, "TEXT",
          "the bay of a recording: \"bay 2 top\"; as many as there are --wav, in their order");
  several("--sag", r.tap.sags, "TEXT",
          "sag under a weight on a rigid lid of 4 in (101.6 mm): --sag \"bay 2 top: 1 kg = 3.1 mm\"");
  tap->add_option("--behind", r.tap.behind,
                  "what lies behind the cloth that was tapped: open (nothing), skin (the other skin, free), held (the "
                  "other skin "
                  "lies on something). Without it open and skin are both allowed for")
      ->type_name("WORD");
  tap->add_option("--stage", r.tap.stage,
                  "the stage after which it was read, like \"300 degF\": the pull is set beside what was expected")
      ->type_name("TEXT");
  tap->add_option("--plan", r.tap.plan, "plan.json of the plan that was followed: what it expects, with --stage")
      ->type_name("FILE");
  add_paper(*tap, r, "paper of the slip, which takes half a sheet: letter or a4; letter if not said");
  add_common(*tap, r);
}

}  // namespace evenpull
