// Does the frame stand by itself? A member that no support holds would move freely before any cloth is tight.
#pragma once

#include "solver/model.hpp"

namespace evenpull {

struct Mechanism {
  bool found = false;
  int joint = -1;       ///< the joint that moves most
  int member = -1;      ///< a member it belongs to
  std::string motion;   ///< "moves along the span", "turns about the span", ...
};

/// Looks for a motion of the bare frame without strain under the given supports.
Mechanism find_mechanism(const Model& m, Held h);

}  // namespace evenpull
