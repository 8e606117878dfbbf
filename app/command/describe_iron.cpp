#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_iron(CLI::App& app, Request& r) {
  auto* iron =
      app.add_subcommand("iron", "thermometer readings to a card: which mark of the dial gives which true temperature");
  iron->add_option("CASE", r.case_file, "a case file with [[iron.reading]]; or leave it out and give --reading")
      ->type_name("");
  add_each(*iron, "--reading", r.readings,
           "readings at one mark of the dial, once a mark: --reading \"3 = 255 degF, 268 degF, 262 degF\"");
  iron->add_option("--swing", r.swing, "how far the thermostat swings to each side, like \"25 degF\"")
      ->type_name("TEXT");
  add_paper(*iron, r, "paper of the card, which takes half a sheet: letter or a4; letter if not said");
  add_common(*iron, r);
}

}  // namespace evenpull
