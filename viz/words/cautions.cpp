#include "viz/words/cautions.hpp"

#include "viz/words/after_iron_words.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/frame_kinds.hpp"
#include "viz/words/record_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

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

namespace {

// What the checks ask for, and what the work does.
std::string to_hand(const Plan& plan) {
  std::string text =
      "To hand: iron, thermometer for its sole, taut thread or straightedge, ruler, two straight battens, pencil, this "
      "sheet";
  if (lasting_of_frame(plan.the_case) > 1) text += ", feeler gauge";
  double weight = 0;
  for (const auto& stage : plan.bench_checks)
    for (const BenchCheck& b : stage) weight = std::max(weight, b.weight);
  if (weight > 0) text += fmt::format("; {} on a lid of {} for the sag", weight_both(weight), length_both(check_disc));
  return text + ".";
}

std::string holding(const Plan& plan) {
  const Case& c = plan.the_case;
  std::string text = c.while_ironed.empty() ? "The plan is for a panel held nowhere."
                                            : "Held as planned: " + held_while_ironed(c) + ", and nowhere else.";
  if (!c.both_sides_reachable) text += " After each turn-over fix it the same way, unstrained.";
  return text;
}

}  // namespace

std::vector<std::string> preparations(const Plan& plan) {
  if (!plan.ceiling || (!plan.steps.empty() && plan.steps.front().done)) return {};
  std::vector<std::string> list = {to_hand(plan), holding(plan),
                                   "The iron's card: which dial mark gives which true temperature (evenpull iron)."};
  if (std::string in_step = neighbour_in_step(plan.the_case); !in_step.empty()) list.push_back(std::move(in_step));
  const Blanket& b = plan.the_case.blanket;
  if (b.kind == BlanketKind::full_wrap && !b.edge_glued)
    list.push_back(
        "Pencil marks across cloth and trailing edge, in the middle of every bay: they show how far the cloth slips.");
  list.push_back(
      "Bare frame first: read bow of trailing edge, end ribs and hinge line and the twist, and write them down. The "
      "checks are "
      "less these.");
  for (std::string& s : fasten_now(plan.the_case, -1, false)) list.push_back("Before the iron: " + s);
  if (plan.the_case.finish == FinishKind::unstated)
    list.push_back("Only for coats that do not tauten: the case does not say which are to come.");
  return list;
}

}  // namespace evenpull::viz
