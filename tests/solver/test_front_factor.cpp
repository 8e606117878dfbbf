// Our own sparse factorisation: what it must do on any symmetric matrix, not only on a tangent.
#include "solver/front_factor.hpp"
#include "solver/linear_solver.hpp"
#include "solver/model.hpp"
#include "tests/solver/chance.hpp"
#include "tests/support/sample_case.hpp"

#include <Eigen/Cholesky>
#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// Lower triangle of a matrix with `per_column` chance entries in a column, dominated by its diagonal.
Sparse chance_matrix(Chance& chance, int n, int per_column) {
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::VectorXd sum = Eigen::VectorXd::Ones(n);
  for (int j = 0; j < n; ++j)
    for (int k = 0; k < per_column; ++k) {
      const int i = std::min(n - 1, static_cast<int>(chance.between(0, n)));
      if (i <= j) continue;
      const double v = chance.between(-1, 1);
      entries.emplace_back(i, j, v);
      sum[i] += std::abs(v);
      sum[j] += std::abs(v);
    }
  for (int i = 0; i < n; ++i) entries.emplace_back(i, i, sum[i]);
  Sparse a(n, n);
  a.setFromTriplets(entries.begin(), entries.end());
  return a;
}

double error_of_solution(const Sparse& a, FrontFactor& factor) {
  const Eigen::VectorXd wanted = Eigen::VectorXd::LinSpaced(a.cols(), -1, 2);
  const Eigen::VectorXd b = a.selfadjointView<Eigen::Lower>() * wanted;
  Eigen::VectorXd x(a.cols());
  factor.solve(b.data(), x.data());
  return (x - wanted).cwiseAbs().maxCoeff();
}

}  // namespace

TEST_CASE("a sparse system is solved to rounding, whatever its size and pattern") {
  Chance chance(11);
  for (int n : {1, 2, 3, 4, 5, 7, 8, 13, 40, 97, 300})
    for (int per_column : {0, 1, 2, 5, 30}) {
      const Sparse a = chance_matrix(chance, n, per_column);
      FrontFactor factor(std::make_shared<const FrontPlan>(a));
      REQUIRE(factor.factorise(a.valuePtr()));
      INFO("size " << n << ", entries a column " << per_column);
      CHECK(error_of_solution(a, factor) < 1e-11);
    }
}

TEST_CASE("a factor serves the next matrix of its pattern as well") {
  Chance chance(12);
  Sparse a = chance_matrix(chance, 120, 4);
  FrontFactor factor(std::make_shared<const FrontPlan>(a));
  REQUIRE(factor.factorise(a.valuePtr()));
  for (int j = 0; j < a.cols(); ++j) a.coeffRef(j, j) += 3;
  REQUIRE(factor.factorise(a.valuePtr()));
  CHECK(error_of_solution(a, factor) < 1e-11);
}

TEST_CASE("a matrix that is not positive definite is told") {
  Chance chance(13);
  Sparse a = chance_matrix(chance, 150, 3);
  FrontFactor factor(std::make_shared<const FrontPlan>(a));
  for (int j : {0, 60, 149}) {
    Sparse b = a;
    b.coeffRef(j, j) = -1;
    CHECK_FALSE(factor.factorise(b.valuePtr()));
    b.coeffRef(j, j) = 0;  // the smallest pivot of a row that is coupled becomes negative, of a lone one zero
    CHECK_FALSE(factor.factorise(b.valuePtr()));
  }
  REQUIRE(factor.factorise(a.valuePtr()));
  CHECK(error_of_solution(a, factor) < 1e-11);
}

TEST_CASE("every unknown is eliminated once, and what a front hands on its parent knows") {
  const Model m(sample::aileron(), {300});
  const FrontPlan plan(m.pattern);
  std::vector<int> sorted = plan.original;
  std::sort(sorted.begin(), sorted.end());
  for (int i = 0; i < plan.size; ++i) REQUIRE(sorted[i] == i);
  for (std::size_t f = 0; f + 1 < plan.fronts.size(); ++f) {
    const Front& front = plan.fronts[f];
    if (front.below > 0) REQUIRE(front.parent > static_cast<int>(f));
    for (int k = front.rows; k < front.rows + front.below; ++k) {
      const Front& up = plan.fronts[front.parent];
      const int at = plan.in_parent[k];
      REQUIRE(plan.rows[k] == (at < up.columns ? up.first + at : plan.rows[up.rows + at - up.columns]));
    }
  }
}

TEST_CASE("the solver behind the door solves what the fronts solve") {
  const Model m(sample::aileron(), {300});
  Sparse a = m.pattern;
  std::fill_n(a.valuePtr(), a.nonZeros(), -1.0);
  for (int i : m.diagonal) a.valuePtr()[i] = 1e3;
  FrontFactor fronts(std::make_shared<const FrontPlan>(a));
  REQUIRE(fronts.factorise(a.valuePtr()));
  LinearSolver door;
  door.use(m.analysis);
  REQUIRE(door.factorise(a));
  const Eigen::VectorXd b = Eigen::VectorXd::LinSpaced(a.cols(), 0, 1);
  Eigen::VectorXd x(a.cols()), y;
  fronts.solve(b.data(), x.data());
  door.solve(b, y);
  CHECK((x - y).cwiseAbs().maxCoeff() < 1e-12);
}
