// A temperature as a reader of the plan sees it.
#pragma once

#include <string>

namespace evenpull {

/// "300 F (149 C)" with degree signs.
std::string temperature_text(double kelvin);

}  // namespace evenpull
