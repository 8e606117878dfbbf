// A tap and a weight on a tight rectangle: closed forms. The conformal radius of a rectangle is classical (Polya and Szego,
// Isoperimetric Inequalities, from memory); the numbers below were computed two other ways that agree to six digits,
// series of sines and sums of images (derived here). The frequencies are those of the single sine mode with the air of
// Rayleigh's integral (derived here).
#include "solver/sound/tight_bay.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {
constexpr book::Chapter air_and_vibration{"Air and vibration"};
}

TEST_CASE("a weight on a tight rectangle sags as the conformal radius says") {
  struct Row {
    double aspect, radius, published;
    const char* quantity;
  };
  for (const Row& r :
       {Row{1, 0.05, 0.37853, "a/b = 1, c/b = 0.05: w N/P"}, Row{1, 0.1, 0.26821, "a/b = 1, c/b = 0.1: w N/P"},
        Row{1.5, 0.05, 0.39925, "a/b = 1.5, c/b = 0.05: w N/P"}, Row{2, 0.1, 0.29341, "a/b = 2, c/b = 0.1: w N/P"},
        Row{3, 0.05, 0.40486, "a/b = 3, c/b = 0.05: w N/P"}}) {
    constexpr double b = 0.3, pull = 600, force = 5;
    const double w = sag_under_disc({r.aspect * b, b, pull, pull}, force, r.radius * b);
    air_and_vibration.number("Weight on a disc in the middle of a rectangle", r.quantity,
                             "conformal radius; series and images agree, derived here", r.published, w * pull / force,
                             2e-5);
    // Turned by a right angle it is the same bay.
    CHECK(sag_under_disc({b, r.aspect * b, pull, pull}, force, r.radius * b) == Approx(w).epsilon(1e-12));
  }
}

TEST_CASE("a weight on cloth pulled harder one way sags between the two equal pulls") {
  const double hard = sag_under_disc({0.35, 0.3, 900, 900}, 5, 0.02),
               soft = sag_under_disc({0.35, 0.3, 400, 400}, 5, 0.02);
  const double mixed = sag_under_disc({0.35, 0.3, 900, 400}, 5, 0.02);
  CHECK(mixed > hard);
  CHECK(mixed < soft);
  CHECK(mixed == Approx(sag_under_disc({0.3, 0.35, 400, 900}, 5, 0.02)).epsilon(1e-12));
}

TEST_CASE("a tap on a tight rectangle sounds as the sine mode with the air on it") {
  struct Row {
    double nx, ny, air_sides, published;
    const char* quantity;
  };
  for (const Row& r :
       {Row{350, 350, 0, 105.33, "350 N/m, no air [Hz]"}, Row{350, 350, 2, 59.90, "350 N/m, air on both sides [Hz]"},
        Row{600, 600, 2, 78.43, "600 N/m, air on both sides [Hz]"},
        Row{900, 600, 2, 86.34, "900 and 600 N/m, air on both sides [Hz]"}})
    air_and_vibration.number("Tap on a rectangle 350 x 300 mm, 0.152 kg/m2", r.quantity,
                             "sine mode, air by Rayleigh's integral, derived here", r.published,
                             tap_frequency({0.35, 0.3, r.nx, r.ny}, 0.152, 1.2, r.air_sides), 1e-3);
}
