// What `tap` was asked for.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct TapRequest {
  std::vector<std::string> tones;       ///< "top, bay 2 = 84 Hz"
  std::vector<std::string> recordings;  ///< files
  std::vector<std::string> bays;        ///< of the recordings, in their order: "top, bay 2"
  std::vector<std::string> sags;        ///< "top, bay 2: 1 kg = 3.1 mm"
  std::string behind;                   ///< "open", "skin", "held"; empty: not said
  std::string stage;                    ///< "300 degF"; empty: not said
  std::string plan;                     ///< plan.json; empty: none
};

}  // namespace evenpull
