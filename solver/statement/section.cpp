#include "solver/statement/section.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr double pi = 3.14159265358979323846;

Section tube(double outside, double wall) {
  const double inside = std::max(0.0, outside - 2 * wall);
  Section s;
  s.area = pi / 4 * (outside * outside - inside * inside);
  s.inertia_up = s.inertia_flat = pi / 64 * (std::pow(outside, 4) - std::pow(inside, 4));
  s.torsion = 2 * s.inertia_up;
  s.reach_up = s.reach_flat = s.reach_twist = outside / 2;
  s.round = true;
  return s;
}

// Torsion of a solid rectangle: Roark's fit to Saint-Venant's series (Roark's Formulas for Stress and Strain, table of
// torsion, from memory); longer side 2a, shorter 2b.
Section bar(double width, double height) {
  Section s;
  s.area = width * height;
  s.inertia_up = width * height * height * height / 12;
  s.inertia_flat = height * width * width * width / 12;
  s.reach_up = height / 2;
  s.reach_flat = width / 2;
  const double a = std::max(width, height) / 2, b = std::min(width, height) / 2;
  const double r = b / a;
  s.torsion = a * b * b * b * (16.0 / 3 - 3.36 * r * (1 - r * r * r * r / 12));
  const double modulus =
      8 * a * b * b / (3 * (1 + 0.6095 * r + 0.8865 * r * r - 1.8023 * r * r * r + 0.91 * r * r * r * r));
  s.reach_twist = s.torsion / modulus;
  return s;
}

// Web of the whole depth with two flanges to one side, thin-walled; flanges bend about the web's plane.
Section sheet_rib(double depth, double flange, double sheet) {
  Section s;
  const double web = depth;
  s.area = sheet * (web + 2 * flange);
  s.inertia_up = sheet * web * web * web / 12 + 2 * flange * sheet * depth * depth / 4;
  const double centre = 2 * flange * sheet * (flange / 2) / s.area;  // of area, from the web
  s.inertia_flat = web * sheet * centre * centre + web * sheet * sheet * sheet / 12 +
                   2 * (sheet * flange * flange * flange / 12 + flange * sheet * std::pow(flange / 2 - centre, 2));
  s.torsion = (web + 2 * flange) * sheet * sheet * sheet / 3;
  s.reach_up = depth / 2;
  s.reach_flat = std::max(centre, flange - centre) + sheet / 2;
  s.reach_twist = sheet;
  return s;
}

// Two legs that meet at the edge and open to `open` over `leg`: bending in the panel's plane is along the legs.
Section folded_edge(double leg, double open, double sheet) {
  Section s;
  const double half = std::asin(std::min(1.0, open / 2 / leg));
  const double depth = leg * std::cos(half);
  s.area = 2 * leg * sheet;
  s.inertia_flat = 2 * sheet * leg * depth * depth / 12;
  s.inertia_up =
      2 * (sheet * leg * open * open / 4 / 12 + leg * sheet * open * open / 16 + leg * sheet * sheet * sheet / 12);
  s.torsion = 2 * leg * sheet * sheet * sheet / 3;
  s.reach_flat = depth / 2;
  s.reach_up = open / 2 + sheet / 2;
  s.reach_twist = sheet;
  return s;
}

}  // namespace

Section section_of(const SectionShape& shape, double local_depth) {
  const double height = shape.height > 0 ? shape.height : local_depth;
  switch (shape.kind) {
    case SectionShape::Kind::tube: return tube(shape.outside_diameter, shape.wall);
    case SectionShape::Kind::bar: return bar(shape.width, height);
    case SectionShape::Kind::sheet_rib: return sheet_rib(height, shape.width, shape.wall);
    case SectionShape::Kind::folded_edge: return folded_edge(shape.width, height, shape.wall);
    case SectionShape::Kind::properties: return shape.given;
    case SectionShape::Kind::channel:
    case SectionShape::Kind::angle:
    case SectionShape::Kind::hat:
    case SectionShape::Kind::i_section:
    case SectionShape::Kind::triangle:
    case SectionShape::Kind::capstrip_rib:
    case SectionShape::Kind::truss_rib: break;
    case SectionShape::Kind::closed_nose: break;
  }
  assert(false && "a closed nose needs its outline: use closed_section");
  return {};
}

Section closed_section(const std::vector<SectionPoint>& outline, double sheet) {
  Section s;
  double perimeter = 0, enclosed = 0, mx = 0, mz = 0;
  const std::size_t n = outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const SectionPoint &a = outline[i], &b = outline[(i + 1) % n];
    const double l = std::hypot(b.x - a.x, b.z - a.z);
    perimeter += l;
    enclosed += 0.5 * (a.x * b.z - b.x * a.z);
    mx += l * 0.5 * (a.x + b.x);
    mz += l * 0.5 * (a.z + b.z);
  }
  enclosed = std::abs(enclosed);
  const double cx = mx / perimeter, cz = mz / perimeter;
  for (std::size_t i = 0; i < n; ++i) {
    const SectionPoint &a = outline[i], &b = outline[(i + 1) % n];
    const double l = std::hypot(b.x - a.x, b.z - a.z);
    const double ax = a.x - cx, bx = b.x - cx, az = a.z - cz, bz = b.z - cz;
    s.inertia_flat += sheet * l * (ax * ax + ax * bx + bx * bx) / 3;
    s.inertia_up += sheet * l * (az * az + az * bz + bz * bz) / 3;
    s.reach_flat = std::max(s.reach_flat, std::abs(ax));
    s.reach_up = std::max(s.reach_up, std::abs(az));
  }
  s.area = perimeter * sheet;
  s.torsion = 4 * enclosed * enclosed * sheet / perimeter;
  s.reach_twist = s.torsion / (2 * enclosed * sheet);
  return s;
}

}  // namespace evenpull::inline solver
