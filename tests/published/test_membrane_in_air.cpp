// A tight rectangular membrane a x b in a plane wall with air on both sides, b the short side:
//   f = 1/2 sqrt((Nx/a^2 + Ny/b^2)/(m + m_air)),  m_air = 2 beta rho b
// for the sine mode, with beta(a/b) of one side from Rayleigh's integral at low frequency. The betas were computed
// three ways that agree to five digits: autocorrelation of the mode in the plane, two-dimensional Fourier integral, and
// Gauss quadrature of the correlation in polar coordinates (derived here).
// The air also couples the modes, so the true frequency is a little lower: Ritz with 64 sine modes (odd numbers of half
// waves up to 15 each way), their mutual air masses by the same quadrature (derived here), ends at 78.171 Hz for 600
// N/m and 86.052 Hz for 900 and 600 N/m where the single mode has 78.433 and 86.339.
#include "solver/sound/vibration.hpp"
#include "tests/support/book.hpp"
#include "tests/support/tight_cloth.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double areal_mass = 0.152, air = 1.2;  // kg/m^2, kg/m^3

Vibration lowest(const TightRectangle& r, double air_density) {
  PatchSolver s = lay_tight(r);
  s.solve();
  return natural_vibrations(s.equilibrium(), s.state(),
                            {.areal_mass = areal_mass, .modes = 1, .air_density = air_density})
      .front();
}

std::string number(double x, int digits) { return std::to_string(x).substr(0, digits); }

constexpr book::Chapter air_and_vibration{"Air and vibration"};

}  // namespace

TEST_CASE("the air on both sides of a tight rectangle weighs what Rayleigh's integral says") {
  struct Row {
    double aspect, beta;
  };
  for (const Row& r : {Row{1, 0.40950}, Row{1.5, 0.49634}, Row{2, 0.56191}, Row{3, 0.65846}}) {
    std::vector<MeshLevel> levels;
    for (int n : {8, 16, 32}) {
      const Vibration v = lowest(
          {.a = 0.3 * r.aspect, .b = 0.3, .along_x = static_cast<int>(std::lround(r.aspect * n)), .along_y = n}, 0);
      // Over the mean square of the mode, which x' M x/m is the integral of.
      levels.push_back({1.0 / n, v.air_volume / (v.cloth_mass / areal_mass) / 0.3});
    }
    air_and_vibration.study("Air on a tight rectangle, a/b = " + number(r.aspect, 3),
                            "beta: mass of one side per area/(rho b)",
                            "Rayleigh's integral for the sine mode, derived here", r.beta, 2e-3, levels);
  }
}

TEST_CASE("a tight rectangle in air sounds as low as the air on it says") {
  struct Row {
    double pull_x, pull_y, vacuum, in_air, coupled;
  };
  for (const Row& r : {Row{350, 350, 105.33, 59.90, 0}, Row{600, 600, 137.92, 78.43, 78.171},
                       Row{900, 900, 168.91, 96.06, 0}, Row{900, 600, 151.82, 86.34, 86.052}}) {
    std::vector<MeshLevel> by_mode, coupled;
    for (int n : {8, 16, 32}) {
      const TightRectangle sheet{
          .a = 0.35, .b = 0.30, .pull_x = r.pull_x, .pull_y = r.pull_y, .along_x = n, .along_y = n};
      const Vibration v = lowest(sheet, 0);
      by_mode.push_back({1.0 / n, frequency_with_air(v, air, 2)});
      if (r.coupled > 0) coupled.push_back({1.0 / n, lowest(sheet, air).frequency});
      if (n == 32) CHECK(v.frequency == Approx(r.vacuum).epsilon(2e-3));
    }
    const std::string check =
        "Tight rectangle 0.35 x 0.30 m in air, Nx " + number(r.pull_x, 3) + ", Ny " + number(r.pull_y, 3) + " N/m";
    air_and_vibration.study(check, "frequency, sine mode [Hz]",
                            "closed form with beta of Rayleigh's integral, derived here", r.in_air, 1e-3, by_mode);
    if (r.coupled == 0) continue;
    air_and_vibration.study(check, "frequency, shape bent by the air [Hz]", "Ritz with 64 sine modes, derived here",
                            r.coupled, 1e-3, coupled, {}, "What the solver says in air; 0.3 % below the sine mode's.");
  }
}
