// A round membrane clamped flat and loaded by pressure on its undeformed plane: w0 = C a (p a/Et)^(1/3),
// N = n (Et p^2 a^2)^(1/3). Hencky, Z. Math. Phys. 63 (1915) 311-317, with the series as corrected later. Fichter, NASA
// TP-3658 (1997) gives b0 = 4 n_c = 1.6827, 1.7244 and 1.7769 for nu = 0.2, 0.3 and 0.4 (seen quoted, with equation
// numbers, not in the report itself); the other coefficients were computed again by shooting Hencky's equations.
#include "tests/published/inflated_disc.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <string>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr double low_load = 1.25e-4, high_load = 1e-3;  // q = p a/Et: w0/a = 0.033 and 0.065 at nu = 0.3

std::string check_of(double nu) {
  return "Round membrane under pressure, nu = " + (nu == 0 ? "0" : std::to_string(nu).substr(0, 3));
}

struct Row {
  double nu, rise, centre, rim;
};
constexpr std::array<Row, 4> hencky = {{{0, 0.71832, 0.40510, 0.28937},
                                        {0.2, 0.67744, 0.42068, 0.31611},
                                        {0.3, 0.65344, 0.43110, 0.33296},
                                        {0.4, 0.62626, 0.44422, 0.35323}}};

}  // namespace

TEST_CASE("a round membrane under pressure rises and pulls as Hencky's corrected series says") {
  // (w0/a)^2 is 0.0013 at most and the rest is about as large: twice that.
  constexpr double finite_slope = 0.0026;
  const std::string source =
      "Hencky (1915) as corrected; b0 in Fichter, NASA TP-3658 (1997), seen quoted; computed again here";
  const std::string note =
      "at p a/Et = 1.25e-4; the rest is the finite slope, (w0/a)^2 = 0.001, which Hencky leaves out";
  for (const Row& r : hencky) {
    enter_disc(check_of(r.nu), source, {r.rise, r.centre, r.rim}, finite_slope,
               study_disc(r.nu, low_load, Pressure::on_undeformed_plane), note);
  }
}

TEST_CASE("what a round membrane leaves between itself and Hencky is the finite slope, not the mesh") {
  const double nu = 0.3;
  const Row& table = hencky[2];
  const std::string source =
      "derived here: the same equations with Green-Lagrange strain and finite slope, by shooting";
  const std::string note = "p a/Et = 1e-3; the same strain on both sides, so nothing but the mesh is left";
  double rest[2][2];
  for (int i = 0; i < 2; ++i) {
    const double q = i == 0 ? high_load : low_load;
    const DiscStudy s = study_disc(nu, q, Pressure::on_undeformed_plane);
    rest[i][0] = study_meshes(s.centre, 2).value - table.centre;
    rest[i][1] = study_meshes(s.rim, 2).value - table.rim;
    if (i == 1) continue;
    const RoundMembrane exact = RoundMembraneEquation(nu, q, Pressure::on_undeformed_plane).solve();
    enter_disc_at_finite_slope(check_of(nu), source, exact, s, note);
  }
  // An eighth of the pressure is half the slope: a quarter of the rest. The table's last digit alone is 1 % of the
  // smaller rest, the extrapolated mesh error about 4 %.
  CHECK(rest[0][0] / rest[1][0] == Approx(4).epsilon(0.08));
  CHECK(rest[0][1] / rest[1][1] == Approx(4).epsilon(0.08));
}

TEST_CASE("the membrane's equation at vanishing slope gives Hencky's coefficients") {
  for (const Row& r : hencky) {
    const RoundMembrane e = RoundMembraneEquation(r.nu, 1e-7, Pressure::on_undeformed_plane).solve();
    // (w0/a)^2 = 1e-5, and five digits in the table.
    CHECK(e.rise == Approx(r.rise).margin(1.5e-5));
    CHECK(e.centre_pull == Approx(r.centre).margin(1.5e-5));
    CHECK(e.rim_pull == Approx(r.rim).margin(1.5e-5));
  }
}
