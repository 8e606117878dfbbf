// Natural frequencies of a tight rectangular membrane in vacuum, m and n half waves along a and b:
//   f = 1/2 sqrt((m^2 Nx/a^2 + n^2 Ny/b^2)/mass per area)        (Rayleigh, Theory of Sound, section 195, from memory)
#include "solver/sound/vibration.hpp"
#include "tests/support/book.hpp"
#include "tests/support/tight_cloth.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double a = 0.35, b = 0.30, areal_mass = 0.152;

struct Wave {
  int m, n;
};

double closed_form(const Wave& w, double pull_x, double pull_y) {
  return 0.5 * std::sqrt((w.m * w.m * pull_x / (a * a) + w.n * w.n * pull_y / (b * b)) / areal_mass);
}

// `waves` in rising order of their frequency.
void compare(double pull_x, double pull_y, const std::vector<Wave>& waves) {
  std::vector<std::vector<MeshLevel>> levels(waves.size());
  for (int n : {8, 16, 32}) {
    PatchSolver s = lay_tight({.a = a, .b = b, .pull_x = pull_x, .pull_y = pull_y, .along_x = n, .along_y = n});
    s.solve();
    const auto found = natural_vibrations(s.equilibrium(), s.state(),
                                          {.areal_mass = areal_mass, .modes = static_cast<int>(waves.size())});
    REQUIRE(found.size() == waves.size());
    for (std::size_t i = 0; i < waves.size(); ++i) levels[i].push_back({1.0 / n, found[i].frequency});
  }
  for (std::size_t i = 0; i < waves.size(); ++i)
    book::enter(
        {.chapter = "Air and vibration",
         .check = "Tight rectangle in vacuum, Nx/Ny = " + std::to_string(pull_x / pull_y).substr(0, 4),
         .quantity = "frequency of mode (" + std::to_string(waves[i].m) + "," + std::to_string(waves[i].n) + ") [Hz]",
         .source = "closed form; Rayleigh, Theory of Sound, section 195, from memory",
         .published = closed_form(waves[i], pull_x, pull_y),
         .tolerance = 1e-3,
         .levels = levels[i],
         .theory = 2,
         .least_order = 1.8});
}

}  // namespace

TEST_CASE("a tight rectangle vibrates at the frequencies of the closed form") {
  CHECK(closed_form({1, 1}, 600, 600) == Approx(137.92).margin(0.005));
  compare(600, 600, {{1, 1}, {2, 1}, {1, 2}});
}

TEST_CASE("a tight rectangle with unequal pulls vibrates at the frequencies of the closed form") {
  CHECK(closed_form({1, 1}, 900, 600) == Approx(151.82).margin(0.005));
  compare(900, 600, {{1, 1}, {1, 2}, {2, 1}});
  compare(350, 900, {{1, 1}, {2, 1}, {3, 1}});
}
