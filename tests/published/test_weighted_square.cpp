// Cloth on a square frame with a weight on a disc in its middle. Small sags: P = 2 pi N w/ln(rho/c) with the conformal
// radius rho = 0.5394 b of a square (classical, Polya and Szego, from memory; images and collocation of the rigid disc
// agree to six digits, derived here). Larger ones pull the cloth tighter: N + k w^2. An energy bound with nothing
// giving way in the plane has k = (E/4) (1/c^2 - 1/rho^2)/ln^3(rho/c) (derived here); the solver's membrane takes less.
#include "solver/sound/weighted_square.hpp"
#include "tests/support/book.hpp"
#include "tests/support/weighted_square_mesh.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {
constexpr book::Chapter cloth{"Cloth"};
constexpr double gravity = 9.80665, stiffness = 100e3;
constexpr WeightedSquare square{0.4, 0.05};
}  // namespace

TEST_CASE("the sag of a square under a weight tells its pull") {
  CHECK(square.side * 0.539353 == Approx(square.radius * std::exp(disc_reach(square))).epsilon(2e-6));
  struct Row {
    double pull, mass, sag;
  };
  for (const Row& r : {Row{420, 0.5, 2.72e-3}, Row{420, 1, 5.44e-3}, Row{620, 0.5, 1.84e-3}, Row{620, 1, 3.68e-3},
                       Row{850, 0.5, 1.34e-3}, Row{850, 1, 2.69e-3}})
    cloth.number("Weight on a disc in a square of 0.4 m, c = 50 mm",
                 "pull of a sag of " + std::to_string(r.sag * 1e3).substr(0, 4) + " mm under " +
                     std::to_string(r.mass).substr(0, 3) + " kg [N/m]",
                 "N = m g ln(0.5394 b/c)/(2 pi w), derived here", r.pull, pull_of_sag(square, r.mass * gravity, r.sag),
                 4e-3, "The sag is rounded to 0.01 mm.");
}

TEST_CASE("what sagging adds to the pull is what the membrane adds", "[square]") {
  for (const double disc : {0.05, 0.0875, 0.125, 0.2}) {
    const WeightedSquare s{0.4, 0.4 * disc};
    const double pull = 850, force = gravity;
    const auto added = [&](int fineness) {
      constexpr double light = 1e-2;  // so light that nothing is stretched: what the mesh itself is off by
      const double little = sag_on_mesh(s.side, s.radius, pull, woven(stiffness), light * force, fineness);
      const double w = sag_on_mesh(s.side, s.radius, pull, woven(stiffness), force, fineness);
      return (pull_of_sag(s, force, w) - pull_of_sag(s, light * force, little)) / (w * w);
    };
    const double coarse = added(2), fine = added(3);
    cloth.number("Weight on a disc in a square: pull added by the sag",
                 "c/b = " + std::to_string(disc).substr(0, 5) + ": k [N/m3]",
                 "membrane of woven cloth on two meshes (derived here)", fine + (fine - coarse) * 4 / 5,
                 pull_by_sagging(s, stiffness), 0.03,
                 "k is a share of an energy bound, read off such meshes once; it hangs a little on the sag.");
  }
}

TEST_CASE("the sag that was put into the formula comes out of it") {
  const double k = pull_by_sagging(square, stiffness);
  for (const double pull : {50.0, 420.0, 850.0, 3000.0})
    for (const double mass : {0.1, 0.5, 2.0}) {
      const double w = sag_of_square(square, mass * gravity, pull, k);
      CHECK(pull_of_sag(square, mass * gravity, w) - k * w * w == Approx(pull).epsilon(1e-9));
    }
}
