#include "sequencer/planner/meter.hpp"

namespace evenpull::inline sequencer {

Span span_of(PlanPart part, Accuracy accuracy) {
  const bool quick = accuracy == Accuracy::quick;
  switch (part) {
    case PlanPart::passes: return quick ? Span{0, 0.08} : Span{0, 0.05};
    case PlanPart::search: return quick ? Span{0.08, 0.35} : Span{0.05, 0.14};
    case PlanPart::ranking: return quick ? Span{0.35, 0.82} : Span{0.14, 0.21};
    case PlanPart::finalists: return quick ? Span{0.82, 0.82} : Span{0.21, 0.28};
    case PlanPart::in_full: return quick ? Span{0.82, 0.98} : Span{0.28, 0.69};
    case PlanPart::given_order: return {0, 0.4};
    case PlanPart::error_bars: return quick ? Span{1, 1} : Span{0.4, 0.69};
    case PlanPart::setting: return quick ? Span{0.98, 1} : Span{0.97, 1};
    case PlanPart::another_order: return {0.97, 0.97};
    case PlanPart::chances: return quick ? Span{0.98, 0.98} : Span{0.69, 0.97};
  }
  return {};
}

}  // namespace evenpull::inline sequencer
