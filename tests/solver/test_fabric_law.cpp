// Properties of the law of cloth (docs/model.md, section 2): derivatives by differences, convexity, monotony. No
// measured data: all follow from the energy.
#include "tests/solver/chance.hpp"
#include "tests/solver/cloth_pieces.hpp"

#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double beta = 1e-3;  // N/m, as on the way

struct Sample {
  std::string what;
  Mandel strain;
};

const std::vector<Sample> samples = {
    {"taut", {4e-3, 3e-3, 1e-4}},
    {"puckered along the warp", {4e-3, -1e-2, 2e-4}},
    {"puckered at an angle", {1e-3, -2e-3, 6e-3}},
    {"loose", {-1e-2, -8e-3, 1e-3}},
    {"barely tight", {1e-4, 5e-5, 0}},
};

std::vector<ClothPoint> points(const Eigen::Matrix3d& c) {
  return {cold_point(c), hot_point(c, fahrenheit(250), 1), hot_point(c, fahrenheit(350), 0.25, 0.01, 0.02),
          hot_point(c, fahrenheit(250), 1, 0.01, 0.005, 0.5)};
}

}  // namespace

TEST_CASE("the pull is the derivative of the cloth's energy") {
  const double h = 1e-6;
  for (const Eigen::Matrix3d& c : {sample_compliance(), uneven_compliance()})
    for (const ClothPoint& p : points(c))
      for (const Sample& s : samples) {
        CAPTURE(s.what, p.hot);
        const Mandel n = law(p, s.strain, beta).pull;
        for (int i = 0; i < 3; ++i) {
          const Mandel step = h * Mandel::Unit(i);
          const double slope =
              (smoothed_energy(p, s.strain + step, beta) - smoothed_energy(p, s.strain - step, beta)) / (2 * h);
          // Error of the difference: h^2 times the third derivative, which is 1/(strain at which the law turns)^2.
          CHECK(slope == Approx(n[i]).epsilon(1e-4).margin(1e-4 * (1 + n.norm())));
        }
      }
}

TEST_CASE("the stiffness is the derivative of the pull") {
  const double h = 1e-6;
  for (const Eigen::Matrix3d& c : {sample_compliance(), uneven_compliance()})
    for (const ClothPoint& p : points(c))
      for (const Sample& s : samples) {
        CAPTURE(s.what, p.hot);
        const Eigen::Matrix3d k = linearise(p, s.strain, law(p, s.strain, beta), beta).stiffness;
        Eigen::Matrix3d differences;
        for (int i = 0; i < 3; ++i) {
          const Mandel step = h * Mandel::Unit(i);
          differences.col(i) = (law(p, s.strain + step, beta).pull - law(p, s.strain - step, beta).pull) / (2 * h);
        }
        CHECK((k - differences).norm() <= 1e-3 * k.norm());
        CHECK((k - k.transpose()).norm() <= 1e-9 * k.norm());
        CHECK(Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(k).eigenvalues()[0] > 0);
      }
}

TEST_CASE("nothing is left to correct where the law is solved") {
  const Eigen::Matrix3d c = uneven_compliance();
  for (const ClothPoint& p : points(c))
    for (const Sample& s : samples) {
      const Tension t = law(p, s.strain, beta);
      const Linearised lin = linearise(p, s.strain, t, beta);
      CHECK(lin.correction.norm() <= 1e-7 * (1 + t.pull.norm()));
      // N S = beta I: same principal axes, product of the principal values beta.
      CHECK(t.pull.dot(t.wrinkle) == Approx(2 * beta).epsilon(1e-6));
    }
}

TEST_CASE("the law is convex: the pull never falls along a straight change of strain") {
  Chance chance(1);
  const Eigen::Matrix3d c = uneven_compliance();
  for (const ClothPoint& p : points(c))
    for (int i = 0; i < 100; ++i) {
      const Mandel a = chance.vector<3>(0.015), b = chance.vector<3>(0.015);
      CHECK((law(p, a, beta).pull - law(p, b, beta).pull).dot(a - b) >= 0);
      const double middle = smoothed_energy(p, 0.5 * (a + b), beta);
      CHECK(middle <= 0.5 * (smoothed_energy(p, a, beta) + smoothed_energy(p, b, beta)) + 1e-9);
    }
}

TEST_CASE("stretching cloth in any direction never lowers its energy") {
  Chance chance(2);
  const Eigen::Matrix3d c = uneven_compliance();
  for (const ClothPoint& p : points(c))
    for (int i = 0; i < 100; ++i) {
      const Mandel e = chance.vector<3>(0.015);
      const Mandel more = e + chance.between(0, 0.01) * along(chance.between(0, 3.2)) +
                          chance.between(0, 0.01) * along(chance.between(0, 3.2));
      CHECK(smoothed_energy(p, more, beta) >= smoothed_energy(p, e, beta));
    }
}

TEST_CASE("cloth never pushes, whatever is done to it") {
  Chance chance(3);
  const Eigen::Matrix3d c = uneven_compliance();
  for (const ClothPoint& p : points(c))
    for (int i = 0; i < 200; ++i) {
      const Tension t = law(p, chance.vector<3>(0.05), beta);
      CHECK(principal(t.pull).minor > 0);
      CHECK(principal(t.wrinkle).minor > 0);
    }
}

TEST_CASE("steps from a bad start stay inside the law's cone") {
  Chance chance(4);
  Tension t;
  for (int i = 0; i < 300; ++i) {
    advance(t, chance.vector<3>(2000), beta);
    REQUIRE(principal(t.pull).minor > 0);
    REQUIRE(principal(t.wrinkle).minor > 0);
  }
}
