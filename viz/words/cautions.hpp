// What is said first and always.
#pragma once

#include <string>
#include <vector>

namespace evenpull::viz {

/// Printed on the first page, always.
std::vector<std::string> cautions();

}  // namespace evenpull::viz
