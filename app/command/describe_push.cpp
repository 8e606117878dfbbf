#include "app/command/option_parts.hpp"
#include "app/text/quoted.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_push(CLI::App& app, Request& r) {
  auto* push = app.add_subcommand(
      "push",
      "weights on the bare frame before it is covered: which to hang where, and what the movements say of members and "
      "joints");
  add_case(*push, r);
  add_each(*push, "--push", r.push.pushes,
           "one weight and what moved, once for each; further places after a semicolon: \"2 kg at rib 4, trailing "
           "edge: 3.2 mm; rib 1, trailing edge: 0.4 mm\". Down counts; write \"0.4 mm up\" for what rose. A place is "
           "a member and a rib, a member and how far from the inboard end (\"spar, 450 mm\"), or a rib and how far "
           "from its front (\"rib 3, 120 mm\"). Without any it says what to hang where");
  push->add_option(
          "--gauge", r.push.gauge,
          "what a reading may be off by, one sigma: \"0.05 mm\" for a dial gauge; 0.25 mm (a ruler) if not said")
      ->type_name("LENGTH");
  const auto read_held = [&r](const std::string& word) {
    if (word != "ironed" && word != "use")
      throw CLI::ValidationError("--held", in_quotes(word) + " is not known; say ironed or use");
    r.push.in_use = word == "use";
  };
  push->add_option_function<std::string>(
          "--held", read_held,
          "how the frame is held while it is pushed: ironed (if not said) as the case states for ironing, or use")
      ->type_name("WORD");
  push->add_flag(
      "--each-kind", r.push.each_kind,
      "asks for the stiffness of edges, spars and ribs apart, instead of one factor for all; needs more weights");
  push->add_option("--into", r.push.into,
                   "writes what was found into this case file, the same as CASE; the file as it was is kept beside it")
      ->type_name("FILE");
  add_slip(*push, r);
}

}  // namespace evenpull
