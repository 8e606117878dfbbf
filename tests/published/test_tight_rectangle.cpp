// A tight rectangular membrane a x b, b the short side, under small loads across its plane: N laplacian w = -p.
// Uniform pressure, middle: w N/(p b^2) = 4/pi^3 sum_{odd m} (-1)^((m-1)/2) (1 - 1/cosh(m pi a/(2 b)))/m^3, the same
// series as that of a bar in torsion (Prandtl's analogy; Timoshenko, Theory of Elasticity, from memory: 0.0737 for the
// square). A point load in the middle: sine/sinh series and image product of Green's function, derived here; read 0.1 b
// away along x, since it is infinite at its own place.
#include "tests/support/book.hpp"
#include "tests/support/tight_cloth.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double b = 0.3, pull = 600;

// Only a quarter is solved; node 0 is the middle.
TightRectangle quarter(double aspect, int n) {
  return {.a = aspect * b,
          .b = b,
          .pull_x = pull,
          .pull_y = pull,
          .along_x = static_cast<int>(std::lround(aspect * n)),
          .along_y = n,
          .quarter = true};
}

double rise_under_pressure(double aspect, int n) {
  const double pressure = 1e-2;  // Pa: rise about 1e-7 m
  const TightRectangle r = quarter(aspect, n);
  PatchSolver s = lay_tight(r);
  for (int q = 0; q < r.along_x * r.along_y; ++q)
    for (int k : s.model().panel.quads[q].nodes)
      s.load_node(k, {0, 0, 0.25 * pressure * s.model().panel.quads[q].area});
  s.solve();
  return s.displacement(0).z() * pull / (pressure * b * b);
}

double green(double aspect, int n) {
  const double load = 1e-3;
  const TightRectangle r = quarter(aspect, n);
  PatchSolver s = lay_tight(r);
  s.load_node(0, {0, 0, 0.25 * load});
  s.solve();
  const int i = n / 5;  // 0.1 b of the 0.5 b that n quads span
  return s.displacement(i * (r.along_y + 1)).z() * pull / load;
}

std::string aspect_name(double a) { return ", a/b = " + std::to_string(a).substr(0, 3); }

constexpr book::Chapter cloth{"Cloth"};

}  // namespace

TEST_CASE("a tight rectangle under pressure rises as the sine series says") {
  struct Row {
    double aspect, rise;
  };
  for (const Row& r : {Row{1, 0.073671}, Row{1.5, 0.100771}, Row{2, 0.113872}, Row{3, 0.122682}}) {
    std::vector<MeshLevel> levels;
    for (int n : {4, 8, 16}) levels.push_back({1.0 / n, rise_under_pressure(r.aspect, n)});
    cloth.study("Tight rectangle under pressure" + aspect_name(r.aspect), "rise in the middle w N/(p b^2)",
                "sine series (Prandtl's analogy), derived here", r.rise, 1e-3, levels);
  }
}

TEST_CASE("a point load on a tight rectangle is felt beside it as Green's function says") {
  struct Row {
    double aspect, give;
  };
  for (const Row& r : {Row{1, 0.268189}, Row{2, 0.294652}}) {
    std::vector<MeshLevel> levels;
    for (int n : {10, 20, 40}) levels.push_back({1.0 / n, green(r.aspect, n)});
    cloth.study("Green's function of a tight rectangle" + aspect_name(r.aspect), "w N/P at 0.1 b along x from the load",
                "sine and image series, derived here", r.give, 1e-3, levels);
  }
}
