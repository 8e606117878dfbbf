#include "viz/words/part_words.hpp"

namespace evenpull::viz {

const char* part_text(PlanPart part) {
  switch (part) {
    case PlanPart::passes: return "choosing the passes";
    case PlanPart::search: return "looking for an order";
    case PlanPart::ranking: return "comparing orders";
    case PlanPart::finalists: return "comparing the best orders";
    case PlanPart::in_full: return "the best order, step by step";
    case PlanPart::given_order: return "the order given, step by step";
    case PlanPart::error_bars: return "error bars";
    case PlanPart::setting: return "a setting between two stages";
    case PlanPart::chances: return "chances";
  }
  return "";
}

}  // namespace evenpull::viz
