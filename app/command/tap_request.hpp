// What `tap` was asked for.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct TapRequest {
  std::vector<std::string> tones;       ///< "bay 2 top = 84 Hz"
  std::vector<std::string> recordings;  ///< files
  std::vector<std::string> bays;        ///< of the recordings, in their order: "bay 2 top"
  std::vector<std::string> sags;        ///< "bay 2 top: 1 kg = 3.1 mm"
  std::string behind;                   ///< "open", "skin", "held"; empty: not said
  std::string stage;                    ///< "300 degF"; empty: not said
  std::string plan;                     ///< plan.json; empty: none
};

}  // namespace evenpull
