// Friction at one point (docs/model.md, section 6): derivative by differences, memory, capstan limit.
#include "solver/equilibrium/friction.hpp"
#include "tests/solver/chance.hpp"

#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double width = 2e-7;  // m

Eigen::Matrix2d by_differences(const Eigen::Vector2d& slip, const Eigen::Vector2d& kept, double threshold) {
  const double h = 1e-6 * (slip.norm() + width);
  Eigen::Matrix2d d;
  for (int i = 0; i < 2; ++i) {
    const Eigen::Vector2d step = h * Eigen::Vector2d::Unit(i);
    d.col(i) = (friction_step(slip + step, kept, {0, 0}, threshold, width).predicted -
                friction_step(slip - step, kept, {0, 0}, threshold, width).predicted) /
               (2 * h);
  }
  return d;
}

}  // namespace

TEST_CASE("the stiffness of friction is its derivative, sticking and sliding") {
  Chance chance(61);
  for (double size : {0.3 * width, 0.6 * width, 5 * width, 1e-4, 3e-3})
    for (int i = 0; i < 10; ++i) {
      const double angle = chance.between(-3, 3);
      const Eigen::Vector2d slip = size * Eigen::Vector2d(std::cos(angle), std::sin(angle));
      const double threshold = chance.between(0.1, 50);
      const FrictionStep law = friction_step(slip, {0, 0}, {0, 0}, threshold, width);
      // At the answer the force of the iterate is the law's own.
      const FrictionStep f = friction_step(slip, {0, 0}, law.predicted, threshold, width);
      CHECK((f.stiffness - by_differences(slip, {0, 0}, threshold)).norm() <= 1e-5 * (threshold / size));
    }
}

TEST_CASE("on the way the stiffness of friction is symmetric and never negative") {
  Chance chance(62);
  for (int i = 0; i < 200; ++i) {
    const FrictionStep f = friction_step(chance.vector<2>(1e-5), chance.vector<2>(20), chance.vector<2>(20), 10, width);
    CHECK(std::abs(f.stiffness(0, 1) - f.stiffness(1, 0)) < 1e-9 * f.stiffness.norm());
    const auto values = Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d>(f.stiffness).eigenvalues();
    CHECK(values[0] >= -1e-9 * values[1]);
  }
}

TEST_CASE("friction is remembered, shortened to a threshold that has fallen") {
  Chance chance(63);
  for (int i = 0; i < 50; ++i) {
    const Eigen::Vector2d kept = chance.vector<2>(20);
    const FrictionStep f = friction_step({0, 0}, kept, kept, 9, width);
    CHECK((f.predicted - clip(kept, 9)).norm() < 1e-9);
    // Further slip in its own direction brings it to the limit, no further.
    const Eigen::Vector2d on = friction_step(1e-5 * kept.normalized(), kept, kept, 9, width).predicted;
    CHECK(on.norm() == Approx(9));
    CHECK(on.dot(kept) > 0);
    // Slip the other way turns it round.
    CHECK(friction_step(-1e-5 * kept.normalized(), kept, kept, 9, width).predicted.dot(kept) < 0);
  }
}

TEST_CASE("a point without threshold has no friction, whatever it remembers") {
  const FrictionStep f = friction_step({1e-3, 0}, {5, 5}, {5, 5}, 0, width);
  CHECK(f.predicted.norm() == 0);
  CHECK(f.stiffness.norm() == 0);
}

TEST_CASE("clipping keeps the direction and never lengthens") {
  CHECK((clip({3, 4}, 10) - Eigen::Vector2d(3, 4)).norm() == 0);
  CHECK((clip({3, 4}, 1) - Eigen::Vector2d(0.6, 0.8)).norm() < 1e-15);
  CHECK(clip({3, 4}, 0).norm() == 0);
}

TEST_CASE("the threshold of a wrapped edge is the capstan law: T_high / T_low = exp(mu theta)") {
  // Euler (1769) and Eytelwein (1808), from memory.
  Chance chance(64);
  for (int i = 0; i < 100; ++i) {
    const double mu = chance.between(0.05, 0.6), theta = chance.between(0.1, 3.14), low = chance.between(0.1, 500);
    const double high = low * std::exp(mu * theta);
    CHECK(wrap_threshold(high, low, mu, theta) == Approx(high - low).epsilon(1e-12));
    // Sticks below the ratio, slides above it.
    CHECK(wrap_threshold(0.99 * high, low, mu, theta) > 0.99 * high - low);
    CHECK(wrap_threshold(1.01 * high, low, mu, theta) < 1.01 * high - low);
  }
}
