#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_attach(CLI::App& app, Request& r) {
  auto* attach = app.add_subcommand("attach",
                                    "when the cloth is fastened to inner ribs: what before ironing, between two stages "
                                    "or after it does to the limits, "
                                    "side by side in a first look");
  add_case(*attach, r);
  add_paper(*attach, r, "paper of the page: letter or a4; letter if not said");
  add_threads(*attach, r);
  add_common(*attach, r);
}

}  // namespace evenpull
