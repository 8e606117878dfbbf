// The weight and the tap before going on, in words for the bench.
#pragma once

#include "sequencer/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// "Lay 1.1 lb (500 g) on a lid 4 in (100 mm) across in the middle of bay 3 ..."; empty: nowhere is a bay fit for it.
std::vector<std::string> bench_sentences(const Plan& plan, int stage);

}  // namespace evenpull::viz
