#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_tap(CLI::App& app, Request& r) {
  auto* tap = app.add_subcommand(
      "tap", "the pull of the cloth in a bay from the tone of a tap, or from the sag under a weight");
  add_case(*tap, r);
  add_each(*tap, "--tone", r.tap.tones,
           "lowest tone that a bay rings with, once a bay: --tone \"top, bay 2 = 84 Hz\", or a note: \"top, bay 2 = E2 "
           "+10 cents\"");
  add_each(*tap, "--wav", r.tap.recordings,
           "a recording of taps on one bay, one to a dozen, a second apart; --bay says which", "FILE");
  add_each(*tap, "--bay", r.tap.bays,
           "the bay of a recording: \"top, bay 2\"; as many as there are --wav, in their order");
  add_each(*tap, "--sag", r.tap.sags,
           "sag under a weight on a rigid lid of 4 in (101.6 mm): --sag \"top, bay 2: 1 kg = 3.1 mm\"");
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
  add_slip(*tap, r);
}

}  // namespace evenpull
