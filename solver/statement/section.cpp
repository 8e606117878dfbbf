#include "solver/statement/section.hpp"

#include "solver/statement/member_section.hpp"
#include "solver/statement/section_shapes.hpp"
#include "solver/statement/section_walls.hpp"
#include "solver/statement/solid_section.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull::inline solver {
namespace {

using Kind = SectionShape::Kind;

// What a truss rib has of the inertia of its two caps about the middle: nodes off the lines of the sticks, gussets that
// give. Judgement, the low end of 0.8 to 1.
constexpr double truss_inertia = 0.8;

void take_shear_and_warping(Section& s, const Section& from) {
  s.shear_up = from.shear_up;
  s.shear_flat = from.shear_flat;
  s.warping = from.warping;
}

// Web of the whole depth with two flanges to one side, thin-walled; flanges bend about the web's plane.
Section plain_sheet_rib(double depth, double flange, double sheet) {
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
Section sharp_edge(double leg, double open, double sheet) {
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

// Mean of two stiffnesses of pieces in a row, by what each gives.
double in_a_row(double whole, double pierced, double share) { return 1 / ((1 - share) / whole + share / pierced); }

// Estimate. Holes stand in a row at mid height, each reckoned as wide over its whole length: stiffness is the mean over
// the length by what its pieces give, stress is that of the net section.
void pierce(Section& s, const SectionShape& shape, double height, double centre) {
  const double t = shape.wall, hole = hole_at(shape, height), share = std::min(1.0, hole / shape.hole_spacing);
  if (hole <= 0) return;
  const double cut = hole * t, area = s.area - cut;
  const double up = s.inertia_up - t * hole * hole * hole / 12;
  const double moved = s.area * centre / area;  // centre of the net area, from the web
  const double flat = s.inertia_flat + s.area * centre * centre - area * moved * moved - hole * t * t * t / 12;
  const double flange = std::max(0.0, shape.width - moved);
  const double reach_flat = std::max(moved, flange) + t / 2;
  const double mean_up = in_a_row(s.inertia_up, up, share), mean_flat = in_a_row(s.inertia_flat, flat, share);
  s.warping *= mean_flat / s.inertia_flat;
  s.area = area;
  s.reach_up *= mean_up / up;
  s.reach_flat = reach_flat * mean_flat / flat;
  s.inertia_up = mean_up;
  s.inertia_flat = mean_flat;
  s.torsion -= hole * t * t * t / 3;
  const double left = 1 - hole / height;
  s.shear_up = in_a_row(s.shear_up, s.shear_up * left, share);
  s.shear_flat = in_a_row(s.shear_flat, s.shear_flat * left, share);
}

Section sheet_rib(const SectionShape& shape, double height) {
  const OpenWalls walls = open_section(walls_of(shape, height));
  Section s = walls.section;
  if (shape.lip <= 0 && shape.fold_radius <= 0) {
    s = plain_sheet_rib(height, shape.width, shape.wall);
    take_shear_and_warping(s, walls.section);
  }
  if (shape.hole > 0) pierce(s, shape, height, walls.centre.x);
  return s;
}

Section folded_edge(const SectionShape& shape, double opening) {
  const Section walls = open_section(walls_of(shape, opening)).section;
  if (shape.fold_radius > 0) return walls;
  Section s = sharp_edge(shape.width, opening, shape.wall);
  take_shear_and_warping(s, walls);
  return s;
}

/// Two caps and a web between them. Area and inertia from the three rectangles; shear and warping from their middle
/// lines.
Section capped(const SectionShape& shape, double height, const SectionRatios& r) {
  const double clear = between_caps(shape, height), w = shape.width, c = shape.wall, web = shape.web;
  if (clear <= 0) return bar_section(w, height);
  const Section cap = bar_section(w, c);
  const double off = (clear + c) / 2;
  Section s;
  s.area = 2 * cap.area + r.web_stretch * web * clear;
  s.inertia_up = 2 * (cap.inertia_up + cap.area * off * off) + r.web_stretch * web * clear * clear * clear / 12;
  s.inertia_flat = 2 * cap.inertia_flat + r.web_stretch * clear * web * web * web / 12;
  s.torsion = 2 * cap.torsion + r.web_shear * clear * web * web * web / 3;
  s.reach_up = std::max(height / 2, r.web_demand * clear / 2);
  s.reach_flat = std::max(w / 2, r.web_demand * web / 2);
  s.reach_twist = std::max(cap.reach_twist, r.web_shear * r.web_weakness() * web);
  const WallSection walls{
      {{-w / 2, off}, {0, off}, {w / 2, off}, {0, -off}, {-w / 2, -off}, {w / 2, -off}},
      {{0, 1, c, 1, 1}, {1, 2, c, 1, 1}, {1, 3, web, r.web_stretch, r.web_shear}, {4, 3, c, 1, 1}, {3, 5, c, 1, 1}}};
  take_shear_and_warping(s, open_section(walls).section);
  return s;
}

// A Warren lattice of square sticks: a stick at the angle a to the caps gives V / (E A sin^2 a cos a) of shear
// (Engesser's built-up column, from memory; derived in tests/published/test_section.cpp). It is nothing against twist
// but its caps.
Section truss_rib(const SectionShape& shape, double height, const SectionRatios& r) {
  if (between_caps(shape, height) <= 0) return bar_section(shape.width, height);
  const Section cap = bar_section(shape.width, shape.wall);
  const double off = (height - shape.wall) / 2;
  Section s;
  s.area = 2 * cap.area;
  s.inertia_up = truss_inertia * 2 * (cap.inertia_up + cap.area * off * off);
  s.inertia_flat = 2 * cap.inertia_flat;
  s.torsion = 2 * cap.torsion;
  s.reach_up = height / 2;
  s.reach_flat = shape.width / 2;
  s.reach_twist = cap.reach_twist;
  const double stick = std::hypot(2 * off, shape.hole_spacing), sine = 2 * off / stick;
  s.shear_up = r.e_over_g * shape.web * shape.web * sine * sine * shape.hole_spacing / stick;
  s.shear_flat = 2 * cap.shear_flat;
  return s;
}

}  // namespace

Section section_of(const SectionShape& shape, double local_depth, const SectionRatios& ratios) {
  const double height = shape.height > 0 ? shape.height : local_depth;
  switch (shape.kind) {
    case Kind::tube: return tube_section(shape.outside_diameter, shape.wall);
    case Kind::bar: return bar_section(shape.width, height);
    case Kind::sheet_rib: return sheet_rib(shape, height);
    case Kind::folded_edge: return folded_edge(shape, height);
    case Kind::properties: return shape.given;
    case Kind::channel:
    case Kind::angle:
    case Kind::hat: return open_section(walls_of(shape, height)).section;
    case Kind::i_section:
    case Kind::capstrip_rib: return capped(shape, height, ratios);
    case Kind::triangle: return triangle_section(shape.width, height);
    case Kind::truss_rib: return truss_rib(shape, height, ratios);
    case Kind::closed_nose: break;
  }
  assert(false && "a closed nose needs its outline: use closed_section");
  return {};
}

Section section_of(const SectionShape& shape, double local_depth) { return section_of(shape, local_depth, {}); }

Section closed_section(const std::vector<SectionPoint>& outline, double sheet) {
  return closed_section(outline, std::vector<CellWall>(outline.size(), CellWall{sheet}));
}

}  // namespace evenpull::inline solver
