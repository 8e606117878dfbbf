// Unrolled skins against figures whose development is known: cylinder, cone, plane trapezoid. Geometry derived here.
#include "shop/cloth_piece.hpp"
#include "shop/unrolled.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

double distance(const Unrolled& u, int row_a, int column_a, int row_b, int column_b) {
  return (u.at(row_a, column_a) - u.at(row_b, column_b)).norm();
}

Case bare() {
  Case c = sample::aileron();
  c.pockets.clear(), c.hinge_gaps.clear();
  c.blanket.kind = BlanketKind::full_wrap;
  c.blanket.seam_chord_fraction = 0;
  c.tip_bow.reset();
  c.outline.tip_bow_depth = 0;
  return c;
}

void straight_outline(Case& c, double span, double root, double tip, double nose_back) {
  c.outline.leading_edge = {{0, 0}, {nose_back, span}};
  c.outline.trailing_edge = {{root, 0}, {nose_back + tip, span}};
  for (std::size_t r = 0; r < c.ribs.size(); ++r)
    c.ribs[r].station = span * static_cast<double>(r) / static_cast<double>(c.ribs.size() - 1);
}

void flat_profile(Case& c, double half) { c.profile = {{0, half, half}, {1, half, half}}; }

}  // namespace

TEST_CASE("a plate of even thickness unrolls to both its faces and half a circle between them", "[unrolled]") {
  Case c = bare();
  straight_outline(c, 2, 0.4, 0.4, 0);
  flat_profile(c, 0.02);  // of the chord: 8 mm
  const Unrolled u = unroll(c, PieceOf::whole_panel);
  const int last = u.row_count() - 1, tip = u.column_count() - 1;
  // The half circle is a polygon of eight sides: 0.6 % short.
  CHECK(distance(u, 0, 0, last, 0) == Approx(2 * 0.4 + M_PI * 0.008).margin(0.0003));
  CHECK(distance(u, 0, 0, 0, tip) == Approx(2).epsilon(1e-9));
  CHECK(u.off < 1e-9);
  CHECK(round_the_trailing_edge(c) == Approx(M_PI * 0.008));
  CHECK(round_the_nose(c) == Approx(M_PI * 0.008));
}

TEST_CASE("a tapered plate unrolls to its own trapezoid: sides, diagonals and area", "[unrolled]") {
  Case c = bare();
  straight_outline(c, 1.5, 0.5, 0.3, 0.05);
  flat_profile(c, 1e-9);
  const Unrolled u = unroll(c, PieceOf::top);
  const int back = u.row_count() - 1, tip = u.column_count() - 1;
  CHECK(distance(u, 0, 0, back, 0) == Approx(0.5).epsilon(1e-7));
  CHECK(distance(u, 0, tip, back, tip) == Approx(0.3).epsilon(1e-7));
  CHECK(distance(u, 0, 0, 0, tip) == Approx(std::hypot(1.5, 0.05)).epsilon(1e-7));
  CHECK(distance(u, back, 0, back, tip) == Approx(std::hypot(1.5, 0.15)).epsilon(1e-7));
  CHECK(distance(u, 0, 0, back, tip) == Approx(std::hypot(1.5, 0.35)).epsilon(1e-7));
  CHECK(distance(u, back, 0, 0, tip) == Approx(std::hypot(1.5, 0.45)).epsilon(1e-7));
}

TEST_CASE("a round skin of even chord unrolls to the arc of its circle", "[unrolled]") {
  // An arc through (0, 0), (1/2, h), (1, 0) of the chord: radius (1/4 + h^2)/(2h), length 2 R asin(1/(2R)).
  Case c = bare();
  straight_outline(c, 1, 0.5, 0.5, 0);
  const double h = 0.1, radius = (0.25 + h * h) / (2 * h);
  c.profile.clear();
  constexpr int points = 60;
  for (int i = 0; i <= points; ++i) {
    const double x = static_cast<double>(i) / points;
    const double z = std::sqrt(radius * radius - (x - 0.5) * (x - 0.5)) - (radius - h);
    c.profile.push_back({x, z, z});
  }
  const Unrolled u = unroll(c, PieceOf::top);
  CHECK(distance(u, 0, 0, u.row_count() - 1, 0) == Approx(0.5 * 2 * radius * std::asin(0.5 / radius)).epsilon(1e-3));
  CHECK(u.off < 1e-9);
}

TEST_CASE("a tapered round skin is a cone: distances from its apex keep, and angles add up to its arc", "[unrolled]") {
  // All chords run together at y = 3 where the chord would be 0: generators meet there. A generator's length from the apex
  // is its length on the panel; in the plane all points of one station's chord fraction stay on a ray through the apex.
  Case c = bare();
  straight_outline(c, 1.5, 0.6, 0.3, 0);
  c.profile = {{0, 0.02, 0.02}, {0.3, 0.08, 0.08}, {1, 0.02, 0.02}};
  const Unrolled u = unroll(c, PieceOf::whole_panel);
  CHECK(u.off < 1e-9);
  const int tip = u.column_count() - 1;
  // Half of the chord at the tip: the apex lies as far beyond it.
  const auto apex = [&](int row) { return Eigen::Vector2d(2 * u.at(row, tip) - u.at(row, 0)); };
  for (const int row : {0, 30, 70, u.row_count() - 1}) {
    INFO(row);
    CHECK((apex(row) - apex(u.row_count() / 2)).norm() < 1e-6);
  }
  const Surface s(c);
  const Eigen::Vector3d tip_of_cone(0, 3, 0), root = s.skin(Side::bottom, 0.3, {0, 0});
  const int row = u.row_of(Side::bottom, 0.3);
  CHECK((u.at(row, 0) - apex(row)).norm() == Approx((root - tip_of_cone).norm()).epsilon(1e-7));
}

TEST_CASE("a skin that is curved both ways says by how much it does not lie flat", "[unrolled]") {
  Case c = bare();
  straight_outline(c, 1.5, 0.4, 0.4, 0);
  c.tip_bow = c.ribs.back().make;
  c.outline.tip_bow_depth = 0.15;
  c.tip_thickness = 0.01;
  const Unrolled u = unroll(c, PieceOf::whole_panel);
  CHECK(u.off > 1e-4);
  CHECK(u.spread < 0.2);
}

TEST_CASE("no cut comes nearer to a glue line than what is to be lapped or tucked there", "[unrolled]") {
  Case bow = bare();
  straight_outline(bow, 1.5, 0.4, 0.4, 0);
  bow.tip_bow = bow.ribs.back().make;
  bow.outline.tip_bow_depth = 0.15;
  bow.tip_thickness = 0.01;
  Case tapered = bare(), even = bare(), sheets = bare();
  straight_outline(tapered, 1.5, 0.5, 0.3, 0.05);
  straight_outline(even, 1.5, 0.4, 0.4, 0);
  sheets.blanket.kind = BlanketKind::two_sheets;
  for (const Case* c : {&bow, &tapered, &even, &sheets})
    for (const ClothPiece& p : cloth_pieces(*c, {})) {
      double least = 1;
      for (const PieceEdgePlan& e : p.edges) least = std::min(least, e.whole());
      REQUIRE(p.cut.size() >= 4);
      for (std::size_t i = 0; i < p.cut.size(); ++i) {
        const PlanePoint a = p.cut[i], side = (p.cut[(i + 1) % p.cut.size()] - a).normalized();
        for (const PlanePoint& q : p.line) CHECK(side.x() * (q - a).y() - side.y() * (q - a).x() > least - 1e-6);
      }
    }
}

TEST_CASE("a hull of points on upright lines keeps their ends, whatever their last digits", "[unrolled]") {
  Polygon points;
  for (int i = 0; i <= 100; ++i)
    for (const double x : {0.0, 2.0}) points.push_back({x + 1e-17 * ((i * 37) % 11 - 5), 0.01 * ((i * 53) % 101)});
  const Polygon hull = convex_hull(points);
  CHECK(hull.size() == 4);
  CHECK(area_of(hull) == Approx(2));
}
