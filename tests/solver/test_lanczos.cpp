// The largest eigenvalues of a pencil against small dense problems with a known answer.
#include "solver/numerics/lanczos.hpp"

#include <Eigen/Cholesky>
#include <Eigen/QR>

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

constexpr int size = 40;

// Same everywhere; a turned frame.
Eigen::MatrixXd turned() {
  Eigen::MatrixXd m(size, size);
  for (int i = 0; i < size; ++i)
    for (int j = 0; j < size; ++j) m(i, j) = std::sin(1.0 + 3.7 * i + 5.3 * j + 0.31 * i * j);
  return Eigen::HouseholderQR<Eigen::MatrixXd>(m).householderQ();
}

// A = S diag(values) S', T = S S': eigenvalues are the values, whatever S.
struct Pencil {
  Eigen::MatrixXd a, t;
  SymmetricPencil work;
};

Pencil make(const std::vector<double>& values) {
  Eigen::VectorXd d = Eigen::VectorXd::Zero(size), stretch(size);
  for (std::size_t i = 0; i < values.size(); ++i) d[i] = values[i];
  for (int i = 0; i < size; ++i) stretch[i] = 1 + 0.1 * i;
  const Eigen::MatrixXd s = stretch.asDiagonal() * turned();
  Pencil p{s * d.asDiagonal() * s.transpose(), s * s.transpose(), {}};
  p.work.size = size;
  p.work.times_a = [a = p.a](const Eigen::VectorXd& x) -> Eigen::VectorXd { return a * x; };
  p.work.times_t = [t = p.t](const Eigen::VectorXd& x) -> Eigen::VectorXd { return t * x; };
  p.work.solve_t = [f = Eigen::LLT<Eigen::MatrixXd>(p.t)](const Eigen::VectorXd& b) -> Eigen::VectorXd {
    return f.solve(b);
  };
  return p;
}

std::vector<double> falling(int n) {
  std::vector<double> v;
  for (int i = 0; i < n; ++i) v.push_back(10.0 / (i + 1));
  return v;
}

}  // namespace

TEST_CASE("the largest eigenvalues come in falling order, with vectors that solve the problem") {
  const Pencil p = make(falling(size));
  const auto found = largest_pairs(p.work, {.count = 4});
  REQUIRE(found.size() == 4);
  for (int i = 0; i < 4; ++i) {
    const EigenPair& e = found[i];
    CHECK(e.value == Approx(10.0 / (i + 1)).epsilon(1e-12));
    CHECK(e.residual < 1e-9);
    CHECK((p.a * e.vector - e.value * (p.t * e.vector)).norm() < 1e-6 * (p.a * e.vector).norm());
    for (int j = 0; j <= i; ++j) CHECK(e.vector.dot(p.t * found[j].vector) == Approx(i == j ? 1.0 : 0.0).margin(1e-8));
  }
}

TEST_CASE("an eigenvalue that occurs three times is found three times") {
  std::vector<double> values = falling(size);
  values[1] = values[2] = values[0];
  const Pencil p = make(values);
  const auto found = largest_pairs(p.work, {.count = 4});
  REQUIRE(found.size() == 4);
  for (int i = 0; i < 3; ++i) CHECK(found[i].value == Approx(10.0).epsilon(1e-10));
  CHECK(found[3].value == Approx(2.5).epsilon(1e-10));
}

TEST_CASE("a pair of equal eigenvalues is not cut short by what comes after it") {
  std::vector<double> values = falling(size);
  values[1] = values[0];
  const auto found = largest_pairs(make(values).work, {.count = 2});
  REQUIRE(found.size() == 2);
  CHECK(found[1].value == Approx(10.0).epsilon(1e-10));
}

TEST_CASE("no more eigenvalues are returned than differ from zero") {
  const auto found = largest_pairs(make({3, 2}).work, {.count = 5});
  REQUIRE(found.size() == 2);
  CHECK(found[0].value == Approx(3).epsilon(1e-12));
  CHECK(found[1].value == Approx(2).epsilon(1e-12));
  CHECK(largest_pairs(make({}).work, {.count = 2}).empty());
}

TEST_CASE("of eigenvalues of both signs the largest is the most positive") {
  std::vector<double> values = falling(size);
  for (std::size_t i = 0; i < values.size(); i += 2) values[i] *= -1;
  const auto found = largest_pairs(make(values).work, {.count = 1});
  REQUIRE(found.size() == 1);
  CHECK(found[0].value == Approx(5).epsilon(1e-10));
}

TEST_CASE("a search that is cut off says so by its residual") {
  std::vector<double> values;
  for (int i = 0; i < size; ++i) values.push_back(2 + std::sin(0.1 * i));
  const auto found = largest_pairs(make(values).work, {.count = 1, .most_steps = 5});
  REQUIRE(!found.empty());
  CHECK(found[0].residual > 1e-9);
}

TEST_CASE("the same search twice gives the same numbers to the last digit") {
  const Pencil p = make(falling(size));
  const auto one = largest_pairs(p.work, {.count = 3}), two = largest_pairs(p.work, {.count = 3});
  for (int i = 0; i < 3; ++i) {
    CHECK(one[i].value == two[i].value);
    CHECK(one[i].vector == two[i].vector);
  }
}
