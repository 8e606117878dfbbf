// Air shut in behind a piston or a skin, and what two skins do to it.
#include "solver/sound/bay_tone.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

constexpr book::Chapter air_and_vibration{"Air and vibration"};
constexpr double pi = 3.14159265358979323846;

// A skin over a flat box, its mode the single sine of a square of 0.3 m, pull N.
BayTone square_skin(double pull, double depth) {
  constexpr double b = 0.3;
  BayTone t;
  t.area = b * b / 4;
  t.stiffness = pull * 2 * pi * pi / 4;
  t.swept = 4 / (pi * pi) * b * b;
  t.enclosed = b * b * depth;
  t.wall_air = 0.4095 * b * t.area;
  t.free_air = 1.4 * t.wall_air;
  t.behind = depth * t.area;
  return t;
}

}  // namespace

// Helmholtz: a neck of area S, effective length L, on a volume V sounds at c/(2 pi) sqrt(S/(L V)) (Rayleigh, Theory of
// Sound, section 303 and 304, from memory); c^2 = 1.4 x 101325/rho for the density taken.
TEST_CASE("a piston of air on a closed box sounds as Helmholtz's resonator") {
  constexpr double area = 1e-3, length = 0.05, volume = 2e-3, density = 1.2;
  const double sound = std::sqrt(1.4 * 101325 / density);
  const double closed = sound / (2 * pi) * std::sqrt(area / (length * volume));
  const double ours = std::sqrt(shut_in_stiffness(area, volume) / (density * area * length)) / (2 * pi);
  air_and_vibration.number("Air shut into a box of 2 litres, neck 10 cm2 x 50 mm", "frequency [Hz]",
                           "Helmholtz; Rayleigh, Theory of Sound, section 303, from memory", closed, ours, 1e-9);
}

// Two skins alike over one box: the same way the air between is not squeezed; against each other it is by both. The
// upper of the two tones has the stiffness of one skin and twice the air's (derived here).
TEST_CASE(
    "between two skins alike the shut-in air has no part in their lowest tone, against a wall it has nearly all") {
  const BayTone skin = square_skin(600, 0.03);
  CHECK(share_of_shut_in_air(skin, &skin, 0.092, 1.2) == Approx(0).margin(1e-9));
  const double air = 1.4 * 101325 * std::pow(4 / (pi * pi) * 0.09, 2) / (0.09 * 0.03);
  air_and_vibration.number("A skin of 0.3 m square, 600 N/m, on a closed box 30 mm deep",
                           "share of the air in its stiffness", "closed form of the single sine, derived here",
                           air / (air + 600 * pi * pi / 2), share_of_shut_in_air(skin, nullptr, 0.092, 1.2), 1e-9);
}

TEST_CASE("the stiffer the skin behind, the more of the tone is the air's") {
  const BayTone skin = square_skin(600, 0.03);
  double before = -1e-9;
  for (const double times : {1.0, 2.0, 8.0, 64.0, 1e4}) {
    const BayTone behind = square_skin(600 * times, 0.03);
    const double share = share_of_shut_in_air(skin, &behind, 0.092, 1.2);
    CHECK(share > before);
    before = share;
  }
  CHECK(before > 0.9);
}
