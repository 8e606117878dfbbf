// A whole sheet in complete tension field (docs/model.md, section 2), between rails pushed along against each other. No
// pull before; the local law is checked in test_tension_field.cpp. With E1 along the rails, E2 across, C = compliance:
// N = sigma n(x)n is uniform, n at theta from the rails, tan(theta) = (E2/E1)^(1/4),
//   tau = gamma/(2/sqrt(E1 E2) - 2 nu12/E1 + 1/G),  pull across the rails tau tan(theta), along them tau/tan(theta);
// isotropic: 45 degrees, tau = E gamma/4, sigma = 2 tau whatever nu is.
// Kuhn, Peterson & Levin, NACA TN 2661 (1952), "Theory of pure diagonal tension" (contents seen; formulas from memory,
// after Wagner, 1929); orthotropic: derived here (sigma^2 nn:C:nn/2 is least at fixed tau for that theta).
//
// A free edge carries nothing across it, and cloth that cannot push would gather there into a rope. So the ends of the
// sheet are held to posts. Posts that lean with the rails leave the field uniform, exactly so on any mesh (no order of
// convergence to observe). Posts that bow disturb it, the less the farther from them, and the force of a length of
// sheet in the middle is had from two sheets that differ by it.
#include "tests/solver/chance.hpp"
#include "tests/support/book.hpp"
#include "tests/support/cloth_patch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double height = 0.3;  // m, between the rails
// Small, and the cloth stiff to match, so that the closed form's small strains hold to 1e-5 (Green's strain adds
// gamma^2/2 across: 1.5e-5 of the stiffness of the isotropic sheet).
constexpr double gamma_shear = 1e-5;
const char* const source =
    "Kuhn, Peterson & Levin, NACA TN 2661 (1952), pure diagonal tension, formulas from memory; orthotropic derived "
    "here";

struct SheetCloth {
  std::string name;
  double e1, e2, nu, g;  // N/m; 1 along the rails
  double angle() const { return std::atan(std::pow(e2 / e1, 0.25)); }
  double shear() const { return gamma_shear / (2 / std::sqrt(e1 * e2) - 2 * nu / e1 + 1 / g); }
};

const SheetCloth sheets[] = {{"isotropic, nu = 0", 1e8, 1e8, 0, 0.5e8},
                             {"isotropic, nu = 0.3", 1e8, 1e8, 0.3, 1e8 / 2.6},
                             {"soft in shear", 1e8, 1e8, 0.1, 5e6},
                             {"orthotropic, soft in shear", 1.2e8, 8e7, 0.1, 5e6}};

struct Sheared {
  double rail_force = 0;            // N along the upper rail
  std::vector<Principal> pull;      // of each quad
  std::vector<Eigen::Vector3d> at;  // its middle
};

// Rails along x at y = 0 and y = height, each a body; posts at both ends whose nodes go along by
// gamma (y + bow y (height - y)/height). `throw_about` moves the inner nodes by that share of a cell.
Sheared shear(const SheetCloth& c, double length, int across, double bow, double throw_about) {
  Patch p({c.e1, c.e2, c.nu, c.g, pi / 2});  // warp along x
  const int along = static_cast<int>(std::lround(across * length / height));
  Chance chance(11);
  p.add_grid(along, across, [&](double u, double v) {
    const double du = chance.between(-throw_about, throw_about) / along,
                 dv = chance.between(-throw_about, throw_about) / across;
    const bool inside = u > 1e-9 && u < 1 - 1e-9 && v > 1e-9 && v < 1 - 1e-9;
    return Eigen::Vector3d((inside ? u + du : u) * length, (inside ? v + dv : v) * height, 0);
  });
  const int lower = p.add_body({length / 2, 0, 0}), upper = p.add_body({length / 2, height, 0});
  for (int k = 0; k < 6; ++k) {
    p.hold_body(lower, k);
    p.hold_body(upper, k);
  }
  const auto node = [&](int i, int j) { return i * (across + 1) + j; };
  for (int i = 0; i <= along; ++i) {
    p.glue(node(i, 0), lower);
    p.glue(node(i, across), upper);
  }
  for (int i : {0, along})
    for (int j = 1; j < across; ++j)
      for (int k = 0; k < 3; ++k) p.hold_node(node(i, j), k);
  SolveOptions a = PatchSolver::accurate();
  a.smoothing = 1e-9;  // N/m; leaves beta/strain = 1e-3 N/m across the folds, of 100 N/m along them
  PatchSolver s(p, a);
  s.move_body(upper, 0, gamma_shear * height);
  for (int i : {0, along})
    for (int j = 1; j < across; ++j) {
      const double y = p.nodes()[node(i, j)].y();
      s.move_node(node(i, j), 0, gamma_shear * (y + bow * y * (height - y) / height));
    }
  s.solve();
  Sheared r;
  r.rail_force = -s.body_force(upper)[0];
  for (std::size_t q = 0; q < p.quads().size(); ++q) {
    r.pull.push_back(s.principal_pull(static_cast<int>(q)));
    Eigen::Vector3d middle = Eigen::Vector3d::Zero();
    for (int n : p.quads()[q]) middle += 0.25 * p.nodes()[n];
    r.at.push_back(middle);
  }
  return r;
}

}  // namespace

TEST_CASE("a sheet sheared between rails and leaning posts is in a uniform tension field, on an irregular mesh too") {
  constexpr double length = 2 * height;
  for (const SheetCloth& c : sheets) {
    CAPTURE(c.name);
    const Sheared r = shear(c, length, 6, 0, 0.35);
    const double theta = c.angle(), tau = c.shear(), sigma = tau / (std::sin(theta) * std::cos(theta));
    double mean_angle = 0, mean_pull = 0;
    for (std::size_t q = 0; q < r.pull.size(); ++q) {
      // 1e-4: the pull that smoothing leaves across the folds, and strains of 1e-5 against infinitesimal ones.
      CHECK(r.pull[q].major == Approx(sigma).epsilon(1e-4));
      CHECK(std::abs(r.pull[q].minor) < 1e-4 * sigma);
      CHECK(std::abs(r.pull[q].angle) == Approx(theta).epsilon(1e-4));
      mean_angle += std::abs(r.pull[q].angle) / r.pull.size();
      mean_pull += r.pull[q].major / r.pull.size();
    }
    const auto enter = [&](const std::string& quantity, double published, double ours) {
      book::enter({.chapter = "Cloth",
                   .check = "Complete tension field between rails, irregular mesh: " + c.name,
                   .quantity = quantity,
                   .source = source,
                   .published = published,
                   .ours = ours,
                   .tolerance = 1e-4});
    };
    enter("shear stiffness, from the force on the rail [N/m]", tau / gamma_shear,
          r.rail_force / (length * gamma_shear));
    enter("angle of the folds from the rails [degrees]", theta * 180 / pi, mean_angle * 180 / pi);
    enter("pull along the folds / shear", sigma / tau, mean_pull / tau);
  }
}

TEST_CASE("what bowed posts do to a sheared sheet falls away along the rails") {
  constexpr double bow = 0.5;
  for (const SheetCloth& c : sheets) {
    CAPTURE(c.name);
    const double tau = c.shear(), theta = c.angle(), sigma = tau / (std::sin(theta) * std::cos(theta));
    const double shorter = 8 * height, longer = 16 * height;
    const Sheared r = shear(c, longer, 8, bow, 0);
    // Quads nearer to a post than so many rail distances; the last one is the middle of the sheet.
    double last = 1, middle = 0;
    for (double reach : {0.5, 1.0, 2.0, 4.0, 7.0}) {
      double worst = 0;
      for (std::size_t q = 0; q < r.pull.size(); ++q)
        if (std::min(r.at[q].x(), longer - r.at[q].x()) > reach * height)
          worst = std::max(worst, std::abs(r.pull[q].major / sigma - 1));
      CHECK((worst < last || worst < 1e-4));  // down to what small strains are worth
      last = middle = worst;
    }
    CHECK(middle < 1e-3);
    // Two sheets with the same ends: the force that the longer one takes more is that of undisturbed sheet.
    const double added = r.rail_force - shear(c, shorter, 8, bow, 0).rail_force;
    book::enter({.chapter = "Cloth",
                 .check = "Complete tension field between long rails, bowed posts: " + c.name,
                 .quantity = "shear stiffness of a length added to the sheet [N/m]",
                 .source = source,
                 .published = tau / gamma_shear,
                 .ours = added / ((longer - shorter) * gamma_shear),
                 .tolerance = 1e-3});
  }
}
