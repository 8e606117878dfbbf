#include "sequencer/plan/plan.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {

std::optional<int> opened_by_reading(const Plan& plan) {
  for (const StageWindow& w : plan.windows)
    if (w.needed && w.opens()) return w.next;
  return {};
}

const StageWindow* window_after(const Plan& plan, int stage) {
  for (const StageWindow& w : plan.windows)
    if (w.stage == stage && w.opens()) return &w;
  return nullptr;
}

std::vector<LimitReading> worst_readings(const Plan& plan) {
  const int last = plan.ceiling.value_or(0);
  // By the end that the ceiling looks at.
  const auto end = [](const LimitReading& r) { return std::max(r.use, r.use_of_worse_joints) + r.use_plus_minus; };
  std::vector<LimitReading> worst;
  for (const auto& r : plan.limits) {
    if (r.limit == Limit::waves) continue;  // they have a sentence of their own, with their depth
    // Unevenness is asked for at the end of the job alone: a hotter stage evens out what a cooler one left.
    if (r.stage > last || (r.limit == Limit::unevenness && r.stage != last)) continue;
    const auto same =
        std::find_if(worst.begin(), worst.end(), [&](const LimitReading& w) { return w.limit == r.limit; });
    if (same == worst.end()) worst.push_back(r);
    else if (end(r) > end(*same)) *same = r;
  }
  std::stable_sort(worst.begin(), worst.end(),
                   [&](const LimitReading& a, const LimitReading& b) { return end(a) > end(b); });
  return worst;
}

}  // namespace evenpull::inline sequencer
