// The closed nose: a D of sheet from the leading edge to its member, closed by a web or by the spar there.
#pragma once

#include "solver/geometry/surface.hpp"
#include "solver/statement/member_section.hpp"

#include <vector>

namespace evenpull::inline solver {

/// Top out and bottom back from the leading edge to a chord fraction, x from the leading edge [m]; half of the points
/// each, so that the wall in the middle of the list is the web.
std::vector<SectionPoint> nose_outline(const Surface& surface, double chord_fraction, SpanPlace place);

/// Section of the D; its web is `web` thick, or as the skin where none is stated, and of the ratios' web material.
Section nose_section(const SectionShape& shape, const SectionRatios& ratios, const std::vector<SectionPoint>& outline);

}  // namespace evenpull::inline solver
