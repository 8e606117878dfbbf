// A picture of the mesh studies of one check: distance from the published number against size of the elements, both
// axes logarithmic, with a guide for each slope that theory promises.
#pragma once

#include "tests/book/record.hpp"

namespace evenpull::book {

/// SVG of the studies given (all of one check, one series each). Series differ by colour, marker and dashes.
std::string convergence_plot(const std::vector<Record>& studies);

}  // namespace evenpull::book
