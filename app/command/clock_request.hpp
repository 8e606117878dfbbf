// What `evenpull clock` is asked for.
#pragma once

#include <string>

namespace evenpull {

struct ClockRequest {
  std::string from;   ///< folder of a plan or its plan.json; empty: named after the case, if it is there
  std::string start;  ///< "9:00"; empty: counted from the beginning
};

}  // namespace evenpull
