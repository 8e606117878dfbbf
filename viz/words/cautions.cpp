#include "viz/words/cautions.hpp"

namespace evenpull::viz {

std::vector<std::string> cautions() {
  return {
      "The aircraft's approved data, local rules and a licensed mechanic come first. Where they differ from this "
      "sheet, "
      "stop and ask.",
      "Check the sole with a thermometer before each stage. Never trust the dial mark.",
      "Never above 375 °F (190 °C): hotter, polyester loses tension; near 480 to 500 °F (250 to 260 °C) it melts.",
      "Adhesive dry by its maker's instructions first. Ventilate. No solvent vapour near a hot iron.",
      "If anything bows, twists or lets go: stop, let it cool, and ask.",
  };
}

}  // namespace evenpull::viz
