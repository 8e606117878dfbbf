// What `evenpull stiffen` is asked for.
#pragma once

#include <optional>
#include <string>

namespace evenpull {

struct StiffenRequest {
  std::string stage;        ///< "300 degF"; empty: the next beyond what a first look bears
  std::optional<int> take;  ///< number of a candidate to be put into a copy of the case
  std::string into;         ///< file of that copy
  bool thorough = false;    ///< the best two are planned in full
};

}  // namespace evenpull
