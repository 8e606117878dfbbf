// Tight, puckered and loose cloth against what can be worked out on paper (docs/model.md, section 2).
#include "tests/solver/chance.hpp"
#include "tests/solver/cloth_pieces.hpp"

#include <Eigen/LU>
#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double fine = 1e-6;  // N/m: smoothing far below every number looked at

// Largest of (n:e)^2/(2 n:C:n) over directions, n = n x n: the energy of puckered cloth, by looking everywhere.
struct Pucker {
  double energy = 0, pull = 0, angle = 0;
};
Pucker best_direction(const Eigen::Matrix3d& c, const Mandel& e) {
  Pucker best;
  for (int i = 0; i < 180000; ++i) {
    const double angle = (i - 90000) * 0.001 * degree;
    const Mandel n = along(angle);
    const double pull = std::max(0.0, n.dot(e) / n.dot(c * n)), w = 0.5 * pull * n.dot(e);
    if (w > best.energy) best = {w, pull, angle};
  }
  return best;
}

}  // namespace

TEST_CASE("cloth stretched along the warp and free across pulls like a tape") {
  const Eigen::Matrix3d c = uneven_compliance();
  const Mandel n = law(cold_point(c), {3e-3, -5e-2, 0}, fine).pull;
  CHECK(n[0] == Approx(130e3 * 3e-3).epsilon(1e-5));
  CHECK(std::abs(n[1]) < 1e-3);
  CHECK(std::abs(n[2]) < 1e-3);
}

TEST_CASE("cloth stretched along the fill and free across pulls like a tape") {
  const Eigen::Matrix3d c = uneven_compliance();
  const Mandel n = law(cold_point(c), {-5e-2, 3e-3, 0}, fine).pull;
  CHECK(n[1] == Approx(80e3 * 3e-3).epsilon(1e-5));
  CHECK(std::abs(n[0]) < 1e-3);
}

TEST_CASE("cloth tight both ways follows its compliance") {
  const Eigen::Matrix3d c = uneven_compliance();
  for (const Mandel& pull : {Mandel(500, 300, 0), Mandel(200, 600, 250), Mandel(1000, 1000, -900)}) {
    const Mandel n = law(cold_point(c), c * pull, fine).pull;
    CHECK((n - pull).norm() < 1e-5 * pull.norm());
  }
}

TEST_CASE("sheared cloth puckers along the direction that stores the most energy") {
  Chance chance(11);
  for (const Eigen::Matrix3d& c : {sample_compliance(), uneven_compliance()}) {
    const ClothPoint p = cold_point(c);
    for (int i = 0; i < 6; ++i) {
      const double stretch = chance.between(1e-3, 5e-3), angle = chance.between(-1.5, 1.5);
      // Long along one direction, short across: one principal pull only.
      const Mandel e = stretch * along(angle) - 0.05 * along(angle + 90 * degree);
      const Pucker best = best_direction(c, e);
      const Mandel n = law(p, e, fine).pull;
      const Principal got = principal(n);
      CAPTURE(angle, best.angle, got.angle);
      CHECK(energy(p, e, n) == Approx(best.energy).epsilon(1e-6).margin(2 * fine));  // the smoothing's share
      CHECK(got.major == Approx(best.pull).epsilon(1e-4));
      CHECK(got.minor < 1e-3);
      CHECK(std::abs(std::sin(got.angle - best.angle)) < 1e-4);
    }
  }
}

TEST_CASE("pure shear of cloth that is alike in all directions pulls at 45 degrees") {
  const double e = 1e5, nu = 0.3;
  const Eigen::Matrix3d c = compliance(e, e, nu, e / (2 * (1 + nu)));
  const Principal p = principal(law(cold_point(c), {0, 0, root2 * 4e-3}, fine).pull);
  CHECK(p.angle == Approx(45 * degree).epsilon(1e-6));
  CHECK(p.major == Approx(e * 4e-3).epsilon(1e-5));
  CHECK(p.minor < 1e-3);
}

TEST_CASE("the law does not care in which axes it is written") {
  Chance chance(12);
  const Eigen::Matrix3d c = uneven_compliance();
  for (int i = 0; i < 60; ++i) {
    const Eigen::Matrix3d q = turn(chance.between(-3, 3));
    const Eigen::Matrix3d turned = q * c * q.transpose();
    const Mandel e = chance.vector<3>(0.01);
    const Mandel n = law(cold_point(c), e, 1e-3).pull, m = law(cold_point(turned), q * e, 1e-3).pull;
    CHECK((q * n - m).norm() < 1e-6 * (1 + n.norm()));
  }
}

TEST_CASE("loose cloth keeps a whisper: smoothing over looseness") {
  const Eigen::Matrix3d c = sample_compliance();
  for (double looseness : {0.003, 0.01, 0.03})
    for (double beta : {1e-3, 1e-5}) {
      const Mandel n = law(cold_point(c), {-looseness, -looseness, 0}, beta).pull;
      CHECK(n[0] == Approx(beta / looseness).epsilon(0.02));
      CHECK(n[1] == Approx(n[0]).epsilon(1e-9));
      CHECK(std::abs(n[2]) < 1e-9);
    }
}

TEST_CASE("smoothing never moves the pull by more than its stated bound") {
  Chance chance(13);
  const Eigen::Matrix3d c = uneven_compliance();
  const double softest = smallest_eigenvalue(c);
  for (int i = 0; i < 200; ++i) {
    const Mandel e = chance.vector<3>(0.01);
    const Mandel exact = law(cold_point(c), e, 1e-7).pull;
    for (double beta : {1e-3, 1e-5}) {
      const double bound = std::sqrt(4 * beta / softest);  // docs/model.md, section 2
      CHECK((law(cold_point(c), e, beta).pull - exact).norm() <= bound + std::sqrt(4e-7 / softest));
    }
  }
}

TEST_CASE("principal pulls rebuild the pull they came from") {
  Chance chance(14);
  for (int i = 0; i < 50; ++i) {
    const Mandel n = chance.vector<3>(500);
    const Principal p = principal(n);
    CHECK((p.major * along(p.angle) + p.minor * along(p.angle + 90 * degree) - n).norm() < 1e-9);
    CHECK(p.major >= p.minor);
  }
}
