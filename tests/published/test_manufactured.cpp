// Manufactured solutions for doubly curved, orthotropic, pre-shrunk cloth with yarns across the mesh: second order in
// displacement and energy, first in the pull of a triangle, which is constant over it. Derived here (manufactured.hpp).
#include "tests/published/manufactured_run.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>
#include <string>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr double pi = 3.14159265358979323846;
using Point = Eigen::Vector2d;
using Pair = std::array<double, 2>;

// 0.4 m x 0.5 m, tapered, 40 mm deep: both curvatures and the slope of the yarns vary.
Eigen::Vector3d bowl(const Point& p) {
  const double a = p[0], b = p[1];
  return {0.4 * (a + 0.05 * std::sin(2 * b)), 0.5 * b * (1 - 0.2 * a),
          0.04 * std::cos(2.2 * (a - 0.45)) * std::cos(1.7 * (b - 0.55)) + 0.01 * a * b};
}

// 12 mm across the cloth, 2 mm in it: it turns by 0.1, and squares of that are a tenth of the strain.
Eigen::Vector3d push(const Point& p) {
  const double a = p[0], b = p[1];
  return {2e-3 * std::sin(2 * a + b), 1.5e-3 * std::cos(1.5 * a - 2 * b),
          12e-3 * std::sin(pi * a) * std::sin(2.5 * b + 0.3)};
}

Manufactured taut_bowl() {
  Manufactured m;
  m.cloth = {120e3, 80e3, 0.25, 9e3, 0.4};
  m.place = bowl;
  m.displacement = push;
  m.shrink = [](const Point& p) -> Pair {
    return {0.035 + 0.006 * std::sin(3 * p[0] + p[1]), 0.03 - 0.005 * std::cos(2 * p[1] - p[0])};
  };
  m.law = taut(m.cloth);
  return m;
}

// The inner side of a torus: a saddle, cloth on the bias.
Manufactured taut_saddle() {
  Manufactured m;
  m.cloth = {90e3, 110e3, 0.1, 5e3, 0.25 * pi};
  m.place = [](const Point& p) -> Eigen::Vector3d {
    const double around = -0.45 + 0.9 * p[0], tube = -0.5 + p[1], r = 0.5 - 0.3 * std::cos(tube);
    return {r * std::sin(around), 0.3 * std::sin(tube), r * std::cos(around)};
  };
  m.displacement = [](const Point& p) -> Eigen::Vector3d {
    return {2e-3 * std::cos(p[0] - 2 * p[1]), 2e-3 * std::sin(2 * p[0] * p[1] + 1),
            8e-3 * std::sin(2 * p[0] + 1.5 * p[1])};
  };
  m.shrink = [](const Point& p) -> Pair {
    return {0.05 + 0.01 * std::sin(2 * p[0]), 0.045 + 0.01 * std::cos(3 * p[1])};
  };
  m.law = taut(m.cloth);
  return m;
}

// The bowl in isotropic cloth whose fill is loose by 3 %, or by 2 % at one end and tight by 2 % at the other.
Manufactured puckered_bowl(double fill_at_start, double fill_at_end) {
  Manufactured m = taut_bowl();
  m.cloth = {100e3, 100e3, 0, 50e3, 0.4};
  m.shrink = [=](const Point& p) -> Pair {
    return {0.035 + 0.006 * std::sin(3 * p[0] + p[1]), fill_at_start + (fill_at_end - fill_at_start) * p[0]};
  };
  m.law = wrinkling(100e3);
  return m;
}

Point smooth_mesh(double u, double v) {
  return {u + 0.06 * std::sin(pi * u) * std::sin(2 * pi * v), v + 0.05 * std::sin(2 * pi * u) * std::sin(pi * v)};
}

// Inner nodes up to a fifth of a quad off their place, at random but always the same: nothing cancels between quads.
MeshMap shaken_mesh(int n) {
  return [n](double u, double v) -> Point {
    const auto i = static_cast<std::uint32_t>(std::lround(u * n)), j = static_cast<std::uint32_t>(std::lround(v * n));
    const auto last = static_cast<std::uint32_t>(n);
    if (i == 0 || j == 0 || i == last || j == last) return {u, v};
    std::uint32_t x = 1 + i * 2654435761u + j * 40503u;  // odd factors, then xorshift (Marsaglia 2003, from memory)
    const auto next = [&x] {
      x ^= x << 13;
      x ^= x >> 17;
      x ^= x << 5;
      return x / 4294967296.0 - 0.5;
    };
    for (int k = 0; k < 4; ++k) next();
    const double du = next(), dv = next();
    return {u + 0.4 / n * du, v + 0.4 / n * dv};
  };
}

struct Study {
  std::vector<MeshLevel> displacement, triangle_pull, quad_pull, energy;
  double least = 0, most = 0;
};

Study study(const Manufactured& m, bool shaken) {
  constexpr double pull_to_start_from = 3000;  // N/m, about the pull of all four
  Study s;
  for (int n : {6, 12, 24, 48}) {
    const ManufacturedErrors e =
        ManufacturedRun(m, n, shaken ? shaken_mesh(n) : MeshMap(smooth_mesh), pull_to_start_from).errors();
    s.displacement.push_back({1.0 / n, e.displacement});
    s.triangle_pull.push_back({1.0 / n, e.triangle_pull});
    s.quad_pull.push_back({1.0 / n, e.quad_pull});
    s.energy.push_back({1.0 / n, e.energy});
    s.least = e.least;
    s.most = e.most;
  }
  return s;
}

// Order between each level and the next.
void falls(const std::vector<MeshLevel>& errors, double order, std::size_t from = 0) {
  for (std::size_t i = from; i + 1 < errors.size(); ++i) {
    CAPTURE(i, errors[i].value, errors[i + 1].value);
    CHECK(std::log2(errors[i].value / errors[i + 1].value) >= order);
  }
}

// Errors go to nothing: what is left after extrapolation is a small part of the finest mesh's.
void enter(const std::string& check, const std::string& quantity, const std::vector<MeshLevel>& errors, double theory,
           double least_order, const std::string& note = "") {
  book::enter({.chapter = "Cloth",
               .check = "Manufactured solution, " + check,
               .quantity = quantity + ", rms error, share of the rms itself",
               .source = "derived here",
               .published = 0,
               .tolerance = 0.25 * errors.back().value,
               .scale = 1,
               .levels = errors,
               .theory = theory,
               .least_order = least_order,
               .note = note});
}

void enter_energy(const std::string& check, const Manufactured& m, const std::vector<MeshLevel>& levels) {
  book::enter({.chapter = "Cloth",
               .check = "Manufactured solution, " + check,
               .quantity = "elastic energy [N m]",
               .source = "derived here",
               .published = m.energy(),
               .tolerance = 5e-5,  // a fifth of what the finest mesh is off
               .levels = levels,
               .theory = 2,
               .least_order = 1.8});
}

}  // namespace

TEST_CASE("curved orthotropic pre-shrunk cloth converges to a made-up solution with second order") {
  struct Row {
    Manufactured m;
    const char* name;
  };
  for (const Row& r : {Row{taut_bowl(), "bowl"}, Row{taut_saddle(), "saddle on the bias"}}) {
    const Study s = study(r.m, false);
    CAPTURE(r.name);
    CHECK(s.least > 1000);  // taut all over, N/m
    falls(s.displacement, 1.8);
    falls(s.triangle_pull, 0.9);
    enter(r.name, "displacement", s.displacement, 2, 1.8);
    enter(r.name, "pull of triangles", s.triangle_pull, 1, 0.9);
    enter(r.name, "mean pull of quads", s.quad_pull, 2, 1.7,
          "theory says 1: on a smooth mesh the errors of the four triangles cancel");
    enter_energy(r.name, r.m, s.energy);
  }
}

TEST_CASE("a shaken mesh does not cost the second order of the displacement") {
  const Manufactured m = taut_bowl();
  const Study s = study(m, true);
  falls(s.displacement, 1.8);
  falls(s.triangle_pull, 0.9);
  falls(s.quad_pull, 0.9);
  enter("bowl, shaken mesh", "displacement", s.displacement, 2, 1.8);
  enter("bowl, shaken mesh", "pull of triangles", s.triangle_pull, 1, 0.9);
  enter_energy("bowl, shaken mesh", m, s.energy);
}

TEST_CASE("curved cloth that is puckered all over or in part converges to a made-up solution") {
  struct Row {
    Manufactured m;
    const char* name;
    bool all_over;
  };
  for (const Row& r : {Row{puckered_bowl(-0.03, -0.03), "bowl puckered all over", true},
                       Row{puckered_bowl(-0.02, 0.02), "bowl puckered in part", false}}) {
    const Study s = study(r.m, false);
    CAPTURE(r.name);
    CHECK(std::abs(s.least) < 1e-6);  // N/m, rounding
    CHECK((r.all_over ? std::abs(s.most) < 1e-6 : s.most > 500));
    falls(s.displacement, 1.8, 2);  // coarser meshes are not yet on the way; no theory is known to promise 2 here
    falls(s.triangle_pull, 0.9);
    enter(r.name, "displacement", s.displacement, 2, 1.6,
          "the error falls with order 1.9 between the two finest meshes");
    enter(r.name, "pull of triangles", s.triangle_pull, 1, 0.9);
    enter_energy(r.name, r.m, s.energy);
  }
}
