#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_glue(CLI::App& app, Request& r) {
  auto* glue =
      app.add_subcommand("glue", "where the cloth is glued, how much adhesive that takes, and what heat it bears");
  add_case(*glue, r);
  add_paper(*glue, r, "paper of the page: letter or a4; letter if not said");
  add_common(*glue, r);
}

}  // namespace evenpull
