// A strip of depth h pulled by P in its middle and bent by M, which cannot push: how the moment grows once part of it
// is loose. X = kappa Et h^2/(2P): M/(Ph) = X/6 up to X = 1, then 1/2 - 1/(3 sqrt(X)); loose share b/h = 1 - 1/sqrt(X).
// Attributed to Stein & Hedgepeth, NASA TN D-813 (1961), from memory; derived here.
#include "solver/cloth/fabric_law.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;

namespace {

constexpr double stiffness = 1e5, depth = 0.3, curvature = 0.05;  // N/m, m, 1/m
constexpr double beta = 1e-8;
constexpr int slices = 400;

// Pull along the strip at a stretch, free to pucker across: the law at any across strain below what it would contract
// to.
double pull_along(const Eigen::Matrix3d& c, double stretch) {
  ClothPoint p;
  p.cold = &c;
  Tension t;
  REQUIRE(solve_law(p, Mandel(stretch, -std::abs(stretch) - 0.01, 0), beta, t) > 0);
  return t.pull[0];
}

struct Section {
  double force = 0, moment = 0;  // N, N m about mid-depth
  double loose = 0;              // share of the depth
};

// Middle stretch e0 and curvature: midpoint rule over the depth.
Section integrate(const Eigen::Matrix3d& c, double e0) {
  Section s;
  const double step = depth / slices;
  for (int i = 0; i < slices; ++i) {
    const double z = (i + 0.5) * step - depth / 2;
    const double n = pull_along(c, e0 + curvature * z);
    s.force += n * step;
    s.moment += n * z * step;
    if (n < 0.5) s.loose += 1.0 / slices;  // N/m: well above the whisper of loose cloth, far below the pull
  }
  return s;
}

Section at_load(const Eigen::Matrix3d& c, double force) {
  double low = -curvature * depth, high = curvature * depth * 3;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    (integrate(c, middle).force < force ? low : high) = middle;
  }
  return integrate(c, high);
}

}  // namespace

TEST_CASE("a partly loose strip resists bending as the closed form says") {
  struct Row {
    double x, moment, loose;
  };
  for (double nu : {0.0, 0.3})
    for (const Row& r : {Row{0.5, 0.083333, 0}, Row{1, 0.166667, 0}, Row{1.5, 0.227834, 0.183503},
                         Row{2, 0.264298, 0.292893}, Row{4, 0.333333, 0.5}, Row{9, 0.388889, 0.666667}}) {
      const std::string at = "X = " + std::to_string(r.x).substr(0, 3) + (nu > 0 ? ", nu = 0.3" : ", nu = 0");
      const auto enter = [&](const std::string& quantity, double published, double ours, double tolerance, double scale,
                             const std::string& note = "") {
        book::enter({.chapter = "Cloth",
                     .check = "Partly loose strip in bending, law over the depth",
                     .quantity = at + ": " + quantity,
                     .source = "Stein & Hedgepeth, NASA TN D-813 (1961), from memory; derived here",
                     .published = published,
                     .ours = ours,
                     .tolerance = tolerance,
                     .scale = scale,
                     .note = note});
      };
      const Eigen::Matrix3d c = compliance(stiffness, 0.8 * stiffness, nu, 0.05 * stiffness);
      const double force = curvature * stiffness * depth * depth / (2 * r.x);
      const Section s = at_load(c, force);
      // Midpoint rule over the taut part: (1/200)^2 at worst. Loose share: one slice.
      enter("moment M/(Ph) [1]", r.moment, s.moment / (force * depth), 2e-4, 0);
      enter("loose share of the depth [1]", r.loose, s.loose, 2.0 / slices, 1,
            "counted in slices of 1/400 of the depth");
    }
}
