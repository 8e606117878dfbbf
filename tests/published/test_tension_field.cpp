// Complete tension field of a sheet sheared by gamma between rigid edges, no pull before (docs/model.md, section 2).
// Isotropic: 45 degrees, tau = E t gamma/4, pull 2 tau along the folds, tau on both edges, whatever nu is.
// Orthotropic, axes along the edges: tau = gamma/(2/sqrt(E1 E2) - 2 nu12/E1 + 1/G), tan(theta) = (E2/E1)^(1/4).
// Attributed to Wagner (1929) and to Kuhn, NACA TN 2661, from memory; derived here.
#include "solver/cloth/fabric_law.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;

namespace {

constexpr double root2 = 1.41421356237309504880, pi = 3.14159265358979323846;
constexpr double gamma_shear = 0.004;
// Small enough that loose-direction pull (about beta/strain, 5e-5 N/m) is nothing beside 20-100 N/m.
constexpr double beta = 1e-7;

struct Sheet {
  double e1, e2, nu, g;  // N/m
};

Mandel pure_shear() { return {0, 0, gamma_shear / root2}; }

Tension sheared(const Sheet& s, const Mandel& strain, double* energy_out = nullptr) {
  const Eigen::Matrix3d c = compliance(s.e1, s.e2, s.nu, s.g);
  ClothPoint p;
  p.cold = &c;
  Tension t;
  REQUIRE(solve_law(p, strain, beta, t) > 0);
  if (energy_out) *energy_out = energy(p, strain, t.pull);
  return t;
}

const std::string source = "Wagner (1929); Kuhn, NACA TN 2661, from memory; derived here";

std::string print(double value, int decimals) {
  const std::string s = std::to_string(value);
  return s.substr(0, s.find('.') + (decimals > 0 ? 1 + static_cast<std::size_t>(decimals) : 0));
}

}  // namespace

TEST_CASE("an isotropic sheet in complete tension field carries a quarter of E in shear") {
  for (double nu : {0.0, 0.3, 0.5}) {
    CAPTURE(nu);
    const double e = 1e5;
    const Tension t = sheared({e, e, nu, e / (2 * (1 + nu))}, pure_shear());
    const double tau = t.pull[2] / root2;
    book::enter({.chapter = "Cloth",
                 .check = "Complete tension field, isotropic sheet, law at a point",
                 .quantity = "nu = " + print(nu, 1) + ": shear over (Et/4) gamma [1]",
                 .source = source,
                 .published = 1,
                 .ours = tau / (e / 4 * gamma_shear),
                 .tolerance = 1e-5});
    CHECK(t.pull[0] == Approx(tau).epsilon(1e-5));
    CHECK(t.pull[1] == Approx(tau).epsilon(1e-5));
    const Principal main = principal(t.pull);
    CHECK(main.major == Approx(2 * tau).epsilon(1e-5));
    CHECK(main.minor == Approx(0).margin(1e-3));
    CHECK(main.angle == Approx(pi / 4).epsilon(1e-6));
  }
}

TEST_CASE("orthotropic cloth folds along the fourth root of its stiffness ratio") {
  struct Row {
    Sheet sheet;
    double effective, angle_deg, pull_ratio;
  };
  for (const Row& r : {Row{{1e5, 1e5, 0.3, 38461.538}, 25000, 45, 2}, Row{{1e5, 1e5, 0.1, 5000}, 4587.2, 45, 2},
                       Row{{1.2e5, 8e4, 0.1, 5000}, 4571.5, 42.101, 2.0103}}) {
    CAPTURE(r.sheet.e1, r.sheet.e2);
    const Tension t = sheared(r.sheet, pure_shear());
    const double tau = t.pull[2] / root2, theta = r.angle_deg * pi / 180;
    const Principal main = principal(t.pull);
    const std::string sheet = print(r.sheet.e1 / 1e3, 0) + "/" + print(r.sheet.e2 / 1e3, 0) + " kN/m, G " +
                              print(r.sheet.g / 1e3, 1) + " kN/m: ";
    const auto enter = [&](const std::string& quantity, double published, double ours, double tolerance) {
      book::enter({.chapter = "Cloth",
                   .check = "Complete tension field, orthotropic sheet, law at a point",
                   .quantity = sheet + quantity,
                   .source = source,
                   .published = published,
                   .ours = ours,
                   .tolerance = tolerance});
    };
    enter("shear stiffness [N/m]", r.effective, tau / gamma_shear, 2e-5);  // the table has five digits
    enter("angle of the folds [deg]", r.angle_deg, main.angle * 180 / pi, 2e-5);
    enter("pull along the folds over shear [1]", r.pull_ratio, main.major / tau, 5e-5);
    CHECK(t.pull[0] == Approx(tau / std::tan(theta)).epsilon(5e-5));
    CHECK(t.pull[1] == Approx(tau * std::tan(theta)).epsilon(5e-5));
  }
}

TEST_CASE("no direction of folds would store more energy than the one the law picks") {
  // One-directional pull sigma n(x)n: W = max over n of (n.e.n)^2 / (2 nn:C:nn), by brute force over the angle.
  const Sheet s{1.2e5, 8e4, 0.1, 5000};
  const Eigen::Matrix3d c = compliance(s.e1, s.e2, s.nu, s.g);
  const Mandel strain(0.0005, -0.001, gamma_shear / root2);
  double best = 0;
  for (int i = 0; i <= 20000; ++i) {
    const double a = pi * i / 20000, x = std::cos(a), y = std::sin(a);
    const Mandel nn(x * x, y * y, root2 * x * y);
    const double stretch = nn.dot(strain);
    if (stretch > 0) best = std::max(best, 0.5 * stretch * stretch / nn.dot(c * nn));
  }
  double found = 0;
  sheared(s, strain, &found);
  book::enter({.chapter = "Cloth",
               .check = "Best direction of folds by brute force, law at a point",
               .quantity = "energy [N/m]",
               .source = "maximum over 20001 angles, computed here",
               .published = best,
               .ours = found,
               .tolerance = 1e-5});
}

TEST_CASE("pull before the shear keeps the sheet tight until the shear beats it") {
  // Principal pulls N +- tau: tight while tau < N, and then plain elastic shear G gamma.
  const double e = 1e5, nu = 0.3, g = e / (2 * (1 + nu)), before = 300;
  const double stretch = before * (1 - nu) / e;
  const double shear = 0.5 * before / g;
  const Tension t = sheared({e, e, nu, g}, Mandel(stretch, stretch, shear / root2));
  CHECK(t.pull[2] / root2 == Approx(0.5 * before).epsilon(1e-5));
  CHECK(principal(t.pull).minor == Approx(0.5 * before).epsilon(1e-5));
}
