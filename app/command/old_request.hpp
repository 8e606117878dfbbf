// What `evenpull old` is asked for.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct OldRequest {
  std::string pull;               ///< "2.1 lb/in"; or
  std::vector<std::string> sags;  ///< "top, bay 2: 1 kg = 3.1 mm"
  std::string seen;               ///< hottest that it has been: "300 degF"; empty: nobody knows
  std::string coats;              ///< "none", "on", "not known"
  bool patch = false;             ///< a piece let into it
};

}  // namespace evenpull
