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

std::vector<std::string> preparations(const Plan& plan) {
  if (!plan.ceiling || (!plan.steps.empty() && plan.steps.front().done)) return {};
  std::vector<std::string> list;
  const Blanket& b = plan.the_case.blanket;
  if (b.kind == BlanketKind::full_wrap && !b.edge_glued)
    list.push_back(
        "Pencil marks across cloth and trailing edge, in the middle of every bay: they show how far the cloth slips.");
  list.push_back(
      "Bare frame first: read bow of trailing edge and end ribs and the twist, and write them down. The checks are "
      "less these.");
  return list;
}

}  // namespace evenpull::viz
