// Pieces on the bolt. No layout is shorter than its area over the width; that is the bound everything is held against.
#include "shop/cloth_nest.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

Polygon rectangle(double length, double width) { return {{0, 0}, {length, 0}, {length, width}, {0, width}}; }
// One edge straight, the other slanted: a skin of a tapered panel.
Polygon tapered(double length, double root, double tip) { return {{0, 0}, {length, 0}, {length, tip}, {0, root}}; }
// Both edges slanted: a full wrap of a tapered panel.
Polygon wrap(double length, double root, double tip) {
  return {{0, 0}, {length, (root - tip) / 2}, {length, (root + tip) / 2}, {0, root}};
}

double overlap_of(const Polygon& a, const Polygon& b) {
  // Clipped by every side of b (Sutherland and Hodgman 1974, from memory).
  Polygon in = a;
  for (std::size_t i = 0; i < b.size() && !in.empty(); ++i) {
    const PlanePoint p = b[i], side = b[(i + 1) % b.size()] - p;
    const auto height = [&](const PlanePoint& q) { return side.x() * (q - p).y() - side.y() * (q - p).x(); };
    Polygon out;
    for (std::size_t k = 0; k < in.size(); ++k) {
      const PlanePoint &q = in[k], &r = in[(k + 1) % in.size()];
      const double hq = height(q), hr = height(r);
      if (hq >= 0) out.push_back(q);
      if ((hq >= 0) != (hr >= 0)) out.push_back(q + hq / (hq - hr) * (r - q));
    }
    in = out;
  }
  return in.size() < 3 ? 0 : area_of(in);
}

void check_lawful(const std::vector<NestPiece>& pieces, double width, const Nest& n) {
  REQUIRE(n.places.size() == pieces.size());
  double area = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    CHECK(n.places[i].piece == static_cast<int>(i));
    CHECK(area_of(n.places[i].shape) == Approx(area_of(pieces[i].shape)));
    area += area_of(pieces[i].shape);
    for (const PlanePoint& q : n.places[i].shape) {
      CHECK(q.x() >= -1e-9);
      CHECK(q.x() <= n.length + 1e-9);
      CHECK(q.y() >= -1e-9);
      CHECK(q.y() <= width + 1e-9);
    }
    for (std::size_t k = 0; k < i; ++k) CHECK(overlap_of(n.places[i].shape, n.places[k].shape) < 1e-7);
  }
  CHECK(n.length >= area / width - 1e-9);
  CHECK(n.length >= n.least - 1e-9);
}

}  // namespace

TEST_CASE("two tapered pieces lie head to tail and waste nothing", "[nest]") {
  const std::vector<NestPiece> two(2, {tapered(2, 0.9, 0.5), 0});
  const Nest n = nest(two, 1.4, false).value();
  check_lawful(two, 1.4, n);
  CHECK(n.length == Approx(2).epsilon(1e-6));
}

TEST_CASE("a stated set of panels comes within a tenth of what its area needs", "[nest]") {
  // Invented: full wraps of two ailerons, the sheets of a rudder and of an elevator; cloth 1.5 m wide.
  const std::vector<NestPiece> set = {{wrap(1.9, 0.75, 0.65), 0},    {wrap(1.9, 0.75, 0.65), 0},
                                      {tapered(1.5, 0.90, 0.50), 1}, {tapered(1.5, 0.90, 0.50), 1},
                                      {tapered(1.4, 0.80, 0.60), 2}, {tapered(1.4, 0.80, 0.60), 2}};
  const Nest n = nest(set, 1.5, false).value();
  check_lawful(set, 1.5, n);
  double area = 0;
  for (const NestPiece& p : set) area += area_of(p.shape);
  CHECK(n.length <= 1.1 * area / 1.5);
}

TEST_CASE("a piece is turned by half a turn and never by a quarter, unless the warp may lie either way", "[nest]") {
  const std::vector<NestPiece> one = {{rectangle(2, 0.5), 0}};
  CHECK(nest(one, 0.6, false)->length == Approx(2));
  CHECK(nest(one, 2.1, false)->length == Approx(2));
  CHECK(nest(one, 2.1, true)->length == Approx(0.5));
  CHECK_FALSE(nest(one, 0.4, false));
  CHECK(width_needed(one[0], false) == Approx(0.5));
  CHECK(width_needed({rectangle(0.5, 2), 0}, true) == Approx(0.5));
}

TEST_CASE("more pieces than can be tried in every order are laid out all the same, the same each time", "[nest]") {
  std::vector<NestPiece> many;
  for (int i = 0; i < 14; ++i) many.push_back({tapered(1 + 0.05 * i, 0.5 - 0.01 * i, 0.3), i});
  const Nest a = nest(many, 1.5, false, 2000).value(), b = nest(many, 1.5, false, 2000).value();
  check_lawful(many, 1.5, a);
  CHECK_FALSE(a.all_tried);
  CHECK(a.length == b.length);
}
