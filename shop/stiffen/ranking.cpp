#include "shop/stiffen/ranking.hpp"

#include <algorithm>
#include <tuple>

namespace evenpull {

double gain_of(const Standing& before, const Trial& t) {
  if (!t.after || t.after->gave_way) return 0;
  return before.gave_way ? std::max(0.0, 1 - t.after->use) + least_gain : before.use - t.after->use;
}

Help help_of(const Standing& before, const Trial& t, int stage) {
  if (!t.after) return Help::unknown;
  const bool gains = gain_of(before, t) >= least_gain;
  const auto bears = [stage](const Standing& s) { return s.bears && *s.bears >= stage; };
  // Where it held before, as stated, more reserve is all there is to gain.
  if (bears(*t.after) && (gains || !bears(before))) return Help::bears;
  return gains ? Help::helps : Help::nothing;
}

void rank(std::vector<Trial>& trials, const Standing& before, int stage) {
  const auto key = [&](const Trial& t) {
    return std::tuple(help_of(before, t, stage), !t.candidate.comes_out,
                      -gain_of(before, t) / cost_of(t.candidate.kind));
  };
  std::stable_sort(trials.begin(), trials.end(), [&](const Trial& a, const Trial& b) { return key(a) < key(b); });
}

}  // namespace evenpull
