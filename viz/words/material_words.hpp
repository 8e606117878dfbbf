// What is known of a material, in one line.
#pragma once

#include "solver/statement/case.hpp"

#include <string>

namespace evenpull::viz {

/// "E 68.9 GPa, G 25.9 GPa, yield 241 MPa, in compression 234 MPa, beside a weld 105 MPa".
std::string material_values(const Material& m);

}  // namespace evenpull::viz
