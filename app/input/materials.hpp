// Structural materials known by name. A case may override any number, or describe a material of its own.
#pragma once

#include "solver/statement/case.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct KnownMaterial {
  Material values;
  const char* why;  ///< where the numbers come from
};

const std::vector<KnownMaterial>& known_materials();

}  // namespace evenpull
