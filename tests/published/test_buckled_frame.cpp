// The least buckling factor of frames, and of struts that the cloth's own pull compresses (docs/model.md, section 5),
// through the solver.
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"
#include "tests/support/cloth_patch.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double e = published::tube_modulus, g = 26e9, pi = 3.14159265358979323846;
constexpr double length = 0.4, width = 0.1, stiffness = 100e3;

Section tube() { return published::tube_section(12.7e-3, 0.9e-3); }
double euler_load() { return pi * pi * e * tube().inertia_up / (length * length); }

// A strut of `gaps` x `each` beams along x between two bodies with a strip of cloth beside it, whose cross lines are
// glued to the strut at the ends of the gaps and free between. Everything stays in the plane of x and z but for the
// cloth's width; the strip pulls the ends together.
struct Strut {
  double push, factor;
};

Strut compressed_by_cloth(int gaps, int each) {
  Patch p(PatchCloth{stiffness, stiffness, 0, stiffness / 2, 0});
  const int n = gaps * each;
  for (int i = 0; i <= n; ++i) {
    p.add_body({length * i / n, 0, 0});
    for (int k : {1, 3, 5}) p.hold_body(i, k);
    if (i > 0) p.add_beam(i - 1, i, {tube(), e, g});
  }
  p.hold_body(0, 0);
  p.hold_body(0, 2);
  p.hold_body(n, 2);
  const int columns = 2;
  p.add_grid(n, columns, [](double u, double v) { return Eigen::Vector3d(length * u, width * (v - 0.5), 0); });
  for (int i = 0; i <= n; ++i)
    for (int j = 0; j <= columns; ++j) {
      const int node = i * (columns + 1) + j;
      if (i % each == 0) p.glue(node, i);
      else p.hold_node(node, 1);  // a free edge would fold in; with no Poisson's ratio holding it changes nothing
    }
  PatchSolver s(p);
  s.shrink(0, 0.005);  // the fill lies along x: 500 N/m, 50 N in all
  s.solve();
  return {-s.state().axial[0], s.equilibrium().buckling(s.state()).factor};
}

}  // namespace

TEST_CASE("a strut between two edges of a cloth buckles when the cloth's pull reaches Euler's load") {
  std::vector<MeshLevel> levels;
  for (int n : {2, 4, 8}) {
    const Strut s = compressed_by_cloth(1, n);
    CHECK(s.push == Approx(50).epsilon(0.02));
    levels.push_back({1.0 / n, s.factor * s.push});
  }
  book::enter({.chapter = "Frame",
               .check = "Strut compressed by cloth",
               .quantity = "glued at its ends: pull at buckling [N]",
               .source = "Euler (1757), derived here",
               .published = euler_load(),
               .tolerance = 1e-3,
               .levels = levels,
               .theory = 4,
               .least_order = 3.5});
}

TEST_CASE("cloth glued to a strut at points between guides it: it buckles from point to point") {
  // A tendon in a duct. Between neighbouring points the cloth is straight, so that its pull T and the push T in the
  // strut cancel in every shape that is straight there: (T - T) sum (dw)^2/h = 0. What is left of each gap is a pinned
  // column, whose half-waves fit one another: k gaps, k^2 times Euler's load.
  for (int gaps : {2, 4}) {
    std::vector<MeshLevel> levels;
    for (int each : {2, 4, 8}) {
      const Strut s = compressed_by_cloth(gaps, each);
      levels.push_back({1.0 / each, s.factor * s.push / euler_load()});
    }
    book::enter(
        {.chapter = "Frame",
         .check = "Strut compressed by cloth",
         .quantity = "glued at the ends of " + std::to_string(gaps) + " gaps: pull at buckling over Euler's load [1]",
         .source = "a tendon in a duct, derived here",
         .published = 1.0 * gaps * gaps,
         .tolerance = 1e-3,
         .levels = levels,
         .theory = 4,
         .least_order = 3.5});
  }
}

TEST_CASE("cloth glued all along a strut does not buckle it") {
  // With every joint glued each beam is a gap of its own: Euler's load over that at buckling falls to nothing with the
  // square of the mesh. Counting the strut's softening alone would leave it at 1.
  std::vector<MeshLevel> levels;
  for (int n : {4, 8, 16}) {
    const Strut s = compressed_by_cloth(n, 1);
    levels.push_back({1.0 / n, euler_load() / (s.factor * s.push)});
  }
  book::enter({.chapter = "Frame",
               .check = "Strut compressed by cloth",
               .quantity = "glued all along: Euler's load over the pull at buckling [1]",
               .source = "a tendon in a duct, derived here",
               .published = 0,
               .tolerance = 1e-3,
               .scale = 1,
               .levels = levels,
               .theory = 2,
               .least_order = 1.9});
}

TEST_CASE("a portal frame on hinges sways at the load of its transcendental equation") {
  // Posts of height h push P each, beam of span l. No sideways force: w = A sin kx from the hinge, k^2 = P/EI; the beam
  // bends in an S and resists with 6 EI_b/l: k h tan k h = 6 (I_b/I_p)(h/l). Bleich, Buckling Strength of Metal
  // Structures, from memory; derived here.
  const double h = 0.5, l = 0.7, ratio = 2;
  double low = 0, high = 0.5 * pi;
  for (int i = 0; i < 100; ++i) {
    const double u = 0.5 * (low + high);
    (u * std::tan(u) < 6 * ratio * h / l ? low : high) = u;
  }
  const double load = low * low * e * tube().inertia_up / (h * h), applied = 0.2 * load;
  PatchBeam post{tube(), e, g}, beam = post;
  post.up = Eigen::Vector3d::UnitX();
  beam.section.inertia_up *= ratio;
  beam.section.inertia_flat *= ratio;
  std::vector<MeshLevel> levels;
  for (int n : {1, 2, 4}) {
    Patch p{PatchCloth{}};
    const auto joint = [&](double x, double z) {
      const int body = p.add_body({x, 0, z});
      for (int k : {1, 3, 5}) p.hold_body(body, k);
      return body;
    };
    int tops[2];
    for (int side = 0; side < 2; ++side)
      for (int i = 0; i <= n; ++i) {
        tops[side] = joint(side * l, h * i / n);
        if (i == 0) p.hold_body(tops[side], 0), p.hold_body(tops[side], 2);
        else p.add_beam(tops[side] - 1, tops[side], post);
      }
    p.add_beam(tops[0], tops[1], beam);
    PatchSolver s(p);
    for (int top : tops) s.load_body(top, {0, 0, -applied}, {0, 0, 0});
    s.solve();
    levels.push_back({1.0 / n, s.equilibrium().buckling(s.state()).factor * applied});
  }
  book::enter({.chapter = "Frame",
               .check = "Portal frame on hinges under two loads",
               .quantity = "load at sway [N]",
               .source = "Bleich, Buckling Strength of Metal Structures, from memory; derived here",
               .published = load,
               .tolerance = 1e-3,
               .levels = levels,
               .theory = 4,
               .least_order = 3.5});
}
