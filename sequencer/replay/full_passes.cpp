#include "sequencer/replay/full_passes.hpp"

#include <algorithm>
#include <map>

namespace evenpull::inline sequencer {

int FullPasses::with(const Step& s) {
  if (s.stage != stage_) met_.assign(met_.size(), 0);
  stage_ = s.stage;
  return is_full_pass(s.dose) ? ++met_[s.zone] : 0;
}

std::vector<int> FullPasses::in_stage(int stage) const {
  return stage == stage_ ? met_ : std::vector<int>(met_.size(), 0);
}

int most_full_passes(const std::vector<Step>& steps, int stage) {
  std::map<int, int> met;
  int most = 0;
  for (const Step& s : steps)
    if (s.stage == stage && is_full_pass(s.dose)) most = std::max(most, ++met[s.zone]);
  return most;
}

int full_passes_of(const std::vector<double>& doses, int passes) {
  const auto count = std::min(doses.size(), static_cast<std::size_t>(std::max(0, passes)));
  if (count == 0 || !is_full_pass(doses[count - 1])) return 0;
  return static_cast<int>(
      std::count_if(doses.begin(), doses.begin() + static_cast<std::ptrdiff_t>(count), is_full_pass));
}

}  // namespace evenpull::inline sequencer
