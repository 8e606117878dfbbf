#include "sequencer/planner/meter.hpp"

namespace evenpull::inline sequencer {

Span span_of(PlanPart part, Accuracy accuracy) {
  const bool quick = accuracy == Accuracy::quick;
  switch (part) {
    case PlanPart::passes: return quick ? Span{0, 0} : Span{0, 0.035};
    case PlanPart::search: return quick ? Span{0, 0.44} : Span{0.035, 0.11};
    case PlanPart::ranking: return quick ? Span{0.44, 0.87} : Span{0.11, 0.28};
    case PlanPart::finalists: return quick ? Span{0.87, 0.87} : Span{0.28, 0.31};
    case PlanPart::in_full: return quick ? Span{0.87, 1} : Span{0.31, 0.67};
    case PlanPart::given_order: return {0, 0.4};
    case PlanPart::error_bars: return quick ? Span{1, 1} : Span{0.4, 0.67};
    case PlanPart::setting: return quick ? Span{1, 1} : Span{0.67, 0.72};
    case PlanPart::chances: return quick ? Span{1, 1} : Span{0.72, 1};
  }
  return {};
}

}  // namespace evenpull::inline sequencer
