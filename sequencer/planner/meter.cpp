#include "sequencer/planner/meter.hpp"

namespace evenpull::inline sequencer {

Span span_of(PlanPart part, Accuracy accuracy) {
  const bool quick = accuracy == Accuracy::quick;
  switch (part) {
    case PlanPart::passes: return quick ? Span{0, 0} : Span{0, 0.05};
    case PlanPart::search: return quick ? Span{0, 0.4} : Span{0.05, 0.13};
    case PlanPart::ranking: return quick ? Span{0.4, 0.8} : Span{0.13, 0.28};
    case PlanPart::finalists: return quick ? Span{0.8, 0.8} : Span{0.28, 0.33};
    case PlanPart::in_full: return quick ? Span{0.8, 1} : Span{0.33, 0.65};
    case PlanPart::given_order: return {0, 0.4};
    case PlanPart::error_bars: return quick ? Span{1, 1} : Span{0.4, 0.65};
    case PlanPart::setting: return quick ? Span{1, 1} : Span{0.65, 0.7};
    case PlanPart::chances: return quick ? Span{1, 1} : Span{0.7, 1};
  }
  return {};
}

}  // namespace evenpull::inline sequencer
