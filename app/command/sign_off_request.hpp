// What `evenpull signoff` is asked for.
#pragma once

#include <string>

namespace evenpull {

struct SignOffRequest {
  std::string from;  ///< folder of a plan or its plan.json; empty: named after the case, if it is there
  std::string log;   ///< empty: named after the case, if it is there
};

}  // namespace evenpull
