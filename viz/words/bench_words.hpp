// The weight and the tap before going on, in words for the bench.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// "Weigh: 1.1 lb (500 g) on a lid 4.0 in (102 mm) across ... should sag ..." and "Tap: ..."; empty: no bay is fit for it.
std::vector<std::string> bench_sentences(const Plan& plan, int stage);

}  // namespace evenpull::viz
