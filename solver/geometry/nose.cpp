#include "solver/geometry/nose.hpp"

#include "solver/statement/section_walls.hpp"

#include <cmath>

namespace evenpull::inline solver {

namespace {

constexpr int points = 24;  // a side
constexpr double quarter = 1.5707963267948966;

}  // namespace

std::vector<SectionPoint> nose_outline(const Surface& surface, double chord_fraction, SpanPlace place) {
  std::vector<SectionPoint> wall;
  const double chord = surface.chord(place);
  const auto xi = [&](int i) { return chord_fraction * (1 - std::cos(quarter * i / points)); };
  for (int i = 0; i <= points; ++i) wall.push_back({xi(i) * chord, surface.profile(xi(i)).top * chord});
  for (int i = points; i >= 0; --i) wall.push_back({xi(i) * chord, -surface.profile(xi(i)).bottom * chord});
  return wall;
}

Section nose_section(const SectionShape& shape, const SectionRatios& ratios, const std::vector<SectionPoint>& outline) {
  std::vector<CellWall> walls(outline.size(), CellWall{shape.wall});
  // The wall between the last point of the top and the first of the bottom.
  walls[points] = {shape.web > 0 ? shape.web : shape.wall, ratios.web_stretch, ratios.web_shear, ratios.web_demand};
  return closed_section(outline, walls);
}

}  // namespace evenpull::inline solver
