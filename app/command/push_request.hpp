// What `evenpull push` is asked for.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct PushRequest {
  std::vector<std::string> pushes;  ///< "2 kg at rib 4, trailing edge: 3.2 mm; rib 1, trailing edge: 0.4 mm"
  std::string gauge;                ///< what a reading may be off by, one sigma; empty: as for a ruler
  bool in_use = false;              ///< held as in use instead of as while it is ironed
  bool each_kind = false;           ///< edges, spars and ribs each with a factor of their own
  std::string into;                 ///< the case file that takes what was found; empty: none
};

}  // namespace evenpull
