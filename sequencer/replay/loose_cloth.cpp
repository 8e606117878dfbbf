#include "sequencer/replay/loose_cloth.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
void add_zones(std::vector<int>& zones, const std::vector<int>& more) {
  zones.insert(zones.end(), more.begin(), more.end());
  std::sort(zones.begin(), zones.end());
  zones.erase(std::unique(zones.begin(), zones.end()), zones.end());
}

bool is_loose(const StageVerdict& v) { return !v.summary.loose_zones.empty(); }

}  // namespace evenpull::inline sequencer
