// The membrane triangle (docs/model.md, section 2): energy, force and tangent agree, rigid motions cost nothing.
#include "solver/cloth/membrane.hpp"
#include "tests/solver/chance.hpp"
#include "tests/solver/cloth_pieces.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

using Nine = Eigen::Matrix<double, 9, 1>;
using NineByNine = Eigen::Matrix<double, 9, 9>;

constexpr double beta = 1e-3;  // N/m
const Eigen::Vector3d span = Eigen::Vector3d::UnitY();

Corners placed() {
  Corners c;
  c << 0.10, 0.20, 0.030, 0.15, 0.21, 0.025, 0.16, 0.29, 0.028;
  return c;
}

Corners moved(const Corners& c, const Nine& u) {
  Corners out = c;
  for (int i = 0; i < 3; ++i) out.row(i) += u.segment<3>(3 * i).transpose();
  return out;
}

Mandel strain(const Triangle& t, const Corners& x) { return green_lagrange(deformation(t, x)); }

const Mandel loose(0.005, 0.004, 0);

Nine force(const Triangle& t, const ClothPoint& p, const Corners& x) {
  const auto f = deformation(t, x);
  return t.weight * strain_matrix(t, f).transpose() * law(p, green_lagrange(f) - loose, beta).pull;
}

NineByNine tangent(const Triangle& t, const ClothPoint& p, const Corners& x) {
  const auto f = deformation(t, x);
  const Mandel e = green_lagrange(f) - loose;
  const Tension n = law(p, e, beta);
  const auto b = strain_matrix(t, f);
  NineByNine k = t.weight * b.transpose() * linearise(p, e, n, beta).stiffness * b;
  const Eigen::Matrix3d geo = geometric_stiffness(t, n.pull);
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) k.block<3, 3>(3 * i, 3 * j).diagonal().array() += geo(i, j);
  return k;
}

// Corner displacements that stretch, pucker, loosen.
std::vector<Nine> motions() {
  Chance chance(31);
  std::vector<Nine> out;
  for (double size : {2e-4, 8e-4, 2e-3})
    for (int i = 0; i < 4; ++i) out.push_back(chance.vector<9>(size));
  return out;
}

}  // namespace

TEST_CASE("the force on the corners is the derivative of the membrane's energy") {
  const Eigen::Matrix3d c = uneven_compliance();
  const Triangle t = make_triangle(placed(), span, 20 * degree, 0.5);
  const double h = 1e-8;
  for (const ClothPoint& p : {cold_point(c), hot_point(c, fahrenheit(250), 0.5)})
    for (const Nine& u : motions()) {
      const Corners x = moved(placed(), u);
      const Nine f = force(t, p, x);
      const auto w = [&](const Nine& step) {
        return t.weight * smoothed_energy(p, strain(t, moved(x, step)) - loose, beta);
      };
      Nine slope;
      for (int i = 0; i < 9; ++i) slope[i] = (w(h * Nine::Unit(i)) - w(-h * Nine::Unit(i))) / (2 * h);
      CHECK((f - slope).norm() <= 1e-4 * f.norm() + 1e-6);
    }
}

TEST_CASE("the tangent is the derivative of the corner forces, symmetric and never negative") {
  const Eigen::Matrix3d c = uneven_compliance();
  const Triangle t = make_triangle(placed(), span, -35 * degree, 0.5);
  const double h = 1e-8;
  for (const ClothPoint& p : {cold_point(c), hot_point(c, fahrenheit(300), 1)})
    for (const Nine& u : motions()) {
      const Corners x = moved(placed(), u);
      const NineByNine k = tangent(t, p, x);
      NineByNine differences;
      for (int i = 0; i < 9; ++i)
        differences.col(i) =
            (force(t, p, moved(x, h * Nine::Unit(i))) - force(t, p, moved(x, -h * Nine::Unit(i)))) / (2 * h);
      CHECK((k - differences).norm() <= 1e-3 * k.norm());
      CHECK((k - k.transpose()).norm() <= 1e-9 * k.norm());
      for (int i = 0; i < 5; ++i) {
        const Nine v = Chance(40 + i).vector<9>(1);
        CHECK(v.dot(k * v) >= -1e-9 * k.norm());
      }
    }
}

TEST_CASE("moving a piece of cloth as a whole gives no strain") {
  const Triangle t = make_triangle(placed(), span, 10 * degree, 1);
  Chance chance(32);
  for (int i = 0; i < 20; ++i) {
    Corners x = placed();
    const Eigen::AngleAxisd turn_by(chance.between(-3, 3), chance.vector<3>(1).normalized());
    for (int k = 0; k < 3; ++k) x.row(k) = (turn_by * x.row(k).transpose() + Eigen::Vector3d(1, -2, 3)).transpose();
    CHECK(strain(t, x).norm() < 1e-12);
  }
}

TEST_CASE("a small linear rotation gives strain of second order only") {
  const Triangle t = make_triangle(placed(), span, 0, 1);
  Chance chance(33);
  for (double size : {1e-3, 1e-4, 1e-5}) {
    const Eigen::Vector3d omega = size * chance.vector<3>(1).normalized();
    Nine u;
    for (int k = 0; k < 3; ++k) u.segment<3>(3 * k) = omega.cross(Eigen::Vector3d(placed().row(k)));
    CHECK(strain(t, moved(placed(), u)).norm() <= size * size);
    CHECK((strain_matrix(t, deformation(t, placed())) * u).norm() <= 1e-12);
  }
}

TEST_CASE("a known stretch comes out in warp and fill") {
  Corners flat;
  flat << 0, 0, 0, 0.1, 0, 0, 0.02, 0.1, 0;
  const double sx = 0.01, sy = -0.004;
  Corners x = flat;
  x.col(0) *= 1 + sx;
  x.col(1) *= 1 + sy;
  const double ex = looseness_strain(sx), ey = looseness_strain(sy);
  const Mandel along_span = strain(make_triangle(flat, span, 0, 1), x);
  CHECK(along_span[0] == Approx(ey));
  CHECK(along_span[1] == Approx(ex));
  CHECK(std::abs(along_span[2]) < 1e-15);
  const Mandel along_chord = strain(make_triangle(flat, span, 90 * degree, 1), x);
  CHECK(along_chord[0] == Approx(ex));
  CHECK(along_chord[1] == Approx(ey));
  const Mandel bias = strain(make_triangle(flat, span, 45 * degree, 1), x);
  CHECK(bias[0] == Approx(0.5 * (ex + ey)));
  CHECK(bias[2] / root2 == Approx(0.5 * (ex - ey)));  // warp 45 degrees towards the TE: fill is turned with it
}

TEST_CASE("the angle of the yarn is counted towards the trailing edge on both sides") {
  Corners top, bottom;
  top << 0, 0, 0, 0.1, 0, 0, 0, 0.1, 0;
  bottom << 0, 0, 0, 0, 0.1, 0, 0.1, 0, 0;  // the other way round: outward normal down
  Corners stretched_top = top, stretched_bottom = bottom;
  // Stretch along the diagonal (1, 1): towards the TE going out along the span.
  const auto stretch = [](Corners& c) {
    for (int i = 0; i < 3; ++i) {
      const double along_diagonal = 0.005 * (c(i, 0) + c(i, 1));
      c(i, 0) += along_diagonal;
      c(i, 1) += along_diagonal;
    }
  };
  stretch(stretched_top);
  stretch(stretched_bottom);
  for (double angle : {45 * degree, -45 * degree}) {
    const Mandel a = strain(make_triangle(top, span, angle, 1), stretched_top);
    const Mandel b = strain(make_triangle(bottom, span, angle, 1), stretched_bottom);
    CHECK((a - b).norm() < 1e-12);
    CHECK(a[0] == Approx(angle > 0 ? looseness_strain(0.01) : 0).margin(1e-12));
  }
}

TEST_CASE("cloth alike in all directions does not notice its yarn angle") {
  const double e = 1e5, nu = 0.25;
  const Eigen::Matrix3d c = compliance(e, e, nu, e / (2 * (1 + nu)));
  const ClothPoint p = cold_point(c);
  for (const Nine& u : motions()) {
    const Corners x = moved(placed(), u);
    const auto at = [&](double angle) {
      const Triangle t = make_triangle(placed(), span, angle, 1);
      const auto f = deformation(t, x);
      return Nine(t.weight * strain_matrix(t, f).transpose() * law(p, green_lagrange(f), beta).pull);
    };
    CHECK((at(0) - at(37 * degree)).norm() < 1e-6 * (1e-6 + at(0).norm()));
  }
}

TEST_CASE("corner forces of a triangle are in balance by themselves") {
  const Eigen::Matrix3d c = uneven_compliance();
  const Triangle t = make_triangle(placed(), span, 0, 1);
  for (const Nine& u : motions()) {
    const Corners x = moved(placed(), u);
    const Nine f = force(t, cold_point(c), x);
    Eigen::Vector3d sum(0, 0, 0), moment(0, 0, 0);
    for (int i = 0; i < 3; ++i) {
      sum += f.segment<3>(3 * i);
      moment += Eigen::Vector3d(x.row(i)).cross(Eigen::Vector3d(f.segment<3>(3 * i)));
    }
    CHECK(sum.norm() < 1e-12 * (1 + f.norm()));
    CHECK(moment.norm() < 1e-12 * (1 + f.norm()));
  }
}

TEST_CASE("a triangle stands for its placed area times its share") {
  const Corners x = placed();
  const Eigen::Vector3d a = x.row(1) - x.row(0), b = x.row(2) - x.row(0);
  CHECK(make_triangle(x, span, 0.3, 0.5).weight == Approx(0.25 * a.cross(b).norm()));
}
