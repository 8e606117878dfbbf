#include "solver/statement/section_shapes.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull::inline solver {
namespace {

using Kind = SectionShape::Kind;

// Of the height: what a lightening hole takes of a web at most, and a lip of half a rib. Judgement: more is not built,
// but a rib that thins out gets there on paper.
constexpr double largest_hole = 0.75, largest_lip = 0.45;

double middle_radius(const SectionShape& s) { return s.fold_radius > 0 ? s.fold_radius + s.wall / 2 : 0; }

WallSection sheet_rib(const SectionShape& s, double height) {
  const double half = height / 2, lip = std::min(s.lip, largest_lip * height);
  std::vector<SectionPoint> line;
  if (lip > 0) line.push_back({s.width, half - lip});
  if (s.width > 0) line.push_back({s.width, half});
  line.push_back({0, half});
  line.push_back({0, -half});
  if (s.width > 0) line.push_back({s.width, -half});
  if (lip > 0) line.push_back({s.width, lip - half});
  return one_line(rounded(line, middle_radius(s)), s.wall);
}

WallSection channel(const SectionShape& s, double height) {
  const double half = std::max(height - s.wall, s.wall) / 2, flange = s.width - s.wall / 2;
  return one_line(rounded({{flange, half}, {0, half}, {0, -half}, {flange, -half}}, middle_radius(s)), s.wall);
}

WallSection angle(const SectionShape& s, double height) {
  const double up = height - s.wall / 2, back = s.width - s.wall / 2;
  return one_line(rounded({{0, up}, {0, 0}, {back, 0}}, middle_radius(s)), s.wall);
}

WallSection hat(const SectionShape& s, double height) {
  const double half = (s.width - s.wall) / 2, high = height - s.wall, out = s.width / 2 + s.flange;
  return one_line(rounded({{-out, 0}, {-half, 0}, {-half, high}, {half, high}, {half, 0}, {out, 0}}, middle_radius(s)),
                  s.wall);
}

WallSection sharp_edge(const SectionShape& s, double opening) {
  const double half = std::min(opening / 2, s.width), back = std::sqrt(s.width * s.width - half * half);
  return one_line({{0, half}, {back, 0}, {0, -half}}, s.wall);
}

// The straight part of a leg begins where the bend ends, a radius and a thickness from the outside of the fold. With
// the middle radius R and the half angle b between a leg and the chord line, half the opening is R cos b + straight sin
// b.
WallSection folded_edge(const SectionShape& s, double opening) {
  const double radius = middle_radius(s);
  if (radius == 0) return sharp_edge(s, opening);
  const double straight = std::max(s.width - s.fold_radius - s.wall, s.wall);
  const double reach = std::hypot(radius, straight);
  const double half_angle = std::asin(std::min(1.0, opening / 2 / reach)) - std::atan2(radius, straight);
  const double c = std::cos(half_angle), n = std::sin(half_angle);
  // The centre of the bend at 0; it opens to the front.
  std::vector<SectionPoint> line = {{radius * n - straight * c, radius * c + straight * n}};
  constexpr double quarter = 1.5707963267948966;
  constexpr int pieces = 16;
  const double from = quarter - half_angle;
  for (int i = 0; i <= pieces; ++i) {
    const double a = from * (1 - 2.0 * i / pieces);
    line.push_back({radius * std::cos(a), radius * std::sin(a)});
  }
  line.push_back({line.front().x, -line.front().z});
  return one_line(line, s.wall);
}

}  // namespace

bool is_of_sheet(Kind kind) {
  return kind == Kind::sheet_rib || kind == Kind::folded_edge || kind == Kind::channel || kind == Kind::angle ||
         kind == Kind::hat;
}

WallSection walls_of(const SectionShape& shape, double height) {
  switch (shape.kind) {
    case Kind::sheet_rib: return sheet_rib(shape, height);
    case Kind::folded_edge: return folded_edge(shape, height);
    case Kind::channel: return channel(shape, height);
    case Kind::angle: return angle(shape, height);
    case Kind::hat: return hat(shape, height);
    case Kind::tube:
    case Kind::bar:
    case Kind::closed_nose:
    case Kind::properties:
    case Kind::i_section:
    case Kind::triangle:
    case Kind::capstrip_rib:
    case Kind::truss_rib: break;
  }
  assert(false && "not made of sheet");
  return {};
}

double hole_at(const SectionShape& shape, double height) { return std::min(shape.hole, largest_hole * height); }

double between_caps(const SectionShape& shape, double height) { return std::max(0.0, height - 2 * shape.wall); }

}  // namespace evenpull::inline solver
