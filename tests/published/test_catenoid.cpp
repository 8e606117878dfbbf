// Cloth of uniform pull between two coaxial rings of radius R at +-h: the catenoid r = c cosh(z/c), c cosh(h/c) = R,
// the larger root. Waist c, force between the rings 2 pi c N, area 2 pi c (h + c/2 sinh(2h/c)). (Euler 1744, from
// memory; the numbers derived here.)
//
// Elastic cloth does not keep its pull uniform by itself. What does: let it settle, take the shape it settles to as the
// placed shape, give it the same shrink again, until nothing moves (the updated reference strategy of form finding,
// Bletzinger & Ramm, Int. J. Space Structures 14 (1999), from memory). Nothing is strained in the end, so the pull is
// Et s everywhere whatever Et is, and the shape has the least area that the mesh allows.
#include "tests/published/starting_pull.hpp"
#include "tests/support/book.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace evenpull;
using namespace evenpull::check;
using namespace evenpull::published;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double radius = 0.2, pull = 500;  // m, N/m
// Soft cloth far too small for its place: the stiffness that would keep the shape from changing is a tenth of the pull.
constexpr double shrink = 10, stiffness = pull / shrink;

struct Catenoid {
  double waist, force, area;  // shares of R, 2 pi R N and 2 pi R^2
};

Catenoid closed_form(double half_height) {
  // c cosh(h/c) has its least value at h/c = 1.199679: the larger root lies between there and c = R.
  double low = half_height / 1.199679, high = 1;
  for (int i = 0; i < 60; ++i) {
    const double c = 0.5 * (low + high);
    (c * std::cosh(half_height / c) < 1 ? low : high) = c;
  }
  return {low, low, low * (half_height + 0.5 * low * std::sinh(2 * half_height / low))};
}

// An eighth of it between its planes of mirror symmetry: y is the axis, 0 at the waist.
class SoapFilm {
 public:
  SoapFilm(double half_height, int rows) : height_(half_height * radius), rows_(rows), columns_(2 * rows) {}

  Catenoid settle() {
    // Nodes creep along the cloth for ever, since the area hardly changes by that: what must stand still is the shape,
    // and of all readings the force is the last to.
    constexpr double settled = 1e-6;  // a hundredth of what the finest mesh is off
    constexpr int most_rounds = 100;
    Catenoid now = settle_once();
    double change = 1;
    for (int round = 0; round < most_rounds && change > settled; ++round) {
      const Catenoid before = now;
      now = settle_once();
      change = std::abs(now.force - before.force);
    }
    REQUIRE(change <= settled);
    return now;
  }
  /// Largest difference of a quad's principal pulls from the pull given [N/m].
  double unevenness() const { return unevenness_; }

 private:
  Eigen::Vector3d place(double u, double v) const {
    const std::size_t node = std::lround(u * rows_) * (columns_ + 1) + std::lround(v * columns_);
    if (!shape_.empty()) return shape_[node];
    const double angle = 0.5 * pi * v;
    return {radius * std::cos(angle), height_ * u, radius * std::sin(angle)};
  }

  Catenoid settle_once() {
    Patch p(isotropic(stiffness, 0));
    p.add_grid(rows_, columns_, [&](double u, double v) { return place(u, v); });
    const int ring = p.add_body({0, height_, 0});
    for (int k = 0; k < 6; ++k) p.hold_body(ring, k);
    for (int j = 0; j <= columns_; ++j) {
      p.glue(rows_ * (columns_ + 1) + j, ring);
      p.hold_node(j, 1);
    }
    for (int i = 0; i < rows_; ++i) {
      p.hold_node(i * (columns_ + 1), 2);
      p.hold_node(i * (columns_ + 1) + columns_, 0);
    }
    PatchSolver s(p);
    s.shrink(shrink, shrink);
    guess_pull(s, pull);
    s.solve();
    shape_.clear();
    for (int i = 0; i < static_cast<int>(p.nodes().size()); ++i) shape_.push_back(s.position(i));
    unevenness_ = 0;
    for (int q = 0; q < static_cast<int>(p.quads().size()); ++q) {
      const Principal n = s.principal_pull(q);
      unevenness_ = std::max({unevenness_, std::abs(n.major - pull), std::abs(n.minor - pull)});
    }
    const Eigen::Vector3d waist = shape_[rows_];  // of the waist's nodes the one at 45 degrees
    return {std::hypot(waist.x(), waist.z()) / radius, -4 * s.body_force(ring)[1] / (2 * pi * radius * pull),
            8 * s.model().cloth_area / (2 * pi * radius * radius)};
  }

  double height_;
  int rows_, columns_;
  std::vector<Eigen::Vector3d> shape_;
  double unevenness_ = 0;
};

}  // namespace

TEST_CASE("cloth of uniform pull between two rings is a catenoid") {
  struct Row {
    double half_height, waist, area;
    const char* name;
  };
  for (const Row& r : {Row{0.25, 0.967521, 0.494671, "0.25"}, Row{0.4, 0.910738, 0.777280, "0.4"},
                       Row{0.5, 0.848338, 0.953624, "0.5"}, Row{0.6, 0.745071, 1.114028, "0.6"}}) {
    CAPTURE(r.half_height);
    const Catenoid exact = closed_form(r.half_height);
    CHECK(exact.waist == Approx(r.waist).margin(5e-7));
    CHECK(exact.area == Approx(r.area).margin(5e-7));
    std::vector<MeshLevel> waist, force, area;
    for (int rows : {4, 8, 16}) {
      SoapFilm film(r.half_height, rows);
      const Catenoid found = film.settle();
      // Nothing is strained: what is left is the creep along the cloth, at most 1e-4 a round, of the small stiffness.
      CHECK(film.unevenness() < 1e-4 * pull);
      waist.push_back({1.0 / rows, found.waist});
      force.push_back({1.0 / rows, found.force});
      area.push_back({1.0 / rows, found.area});
    }
    const auto enter = [&](const std::string& quantity, double value, const std::vector<MeshLevel>& levels,
                           double least_order, const std::string& note) {
      book::enter(
          {.chapter = "Cloth",
           .check = std::string("Catenoid, uniform pull, half distance of the rings over their radius ") + r.name,
           .quantity = quantity,
           .source = "Euler (1744), from memory; derived here",
           .published = value,
           .tolerance = 0.001,
           .levels = levels,
           .theory = 2,
           .least_order = least_order,
           .note = note});
    };
    enter("radius of the waist, share of the rings'", r.waist, waist, 1.8, "");
    // The mesh error of the force changes its sign near 0.6: no order can be seen where there is no error.
    const bool seen = r.half_height < 0.55;
    enter("force between the rings, share of 2 pi R N", r.waist, force, seen ? 1.8 : 0,
          seen ? "" : "the mesh error changes its sign near here, so its order says nothing");
    enter("area, share of 2 pi R^2", r.area, area, 1.8, "");
  }
}
