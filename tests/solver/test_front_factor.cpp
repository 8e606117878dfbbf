// Our own sparse factorisation: what it must do on any symmetric matrix, not only on a tangent; and against Eigen's
// factorisations, which share no line with it.
#include "solver/numerics/front_factor.hpp"
#include "solver/numerics/linear_solver.hpp"
#include "tests/solver/chance.hpp"
#include "tests/solver/small_job.hpp"

#include <Eigen/Cholesky>
#include <Eigen/SparseCholesky>
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
  const Model m(sample::aileron(), coarse(300));
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

namespace {

using Independent = Eigen::SimplicialLDLT<Sparse, Eigen::Lower>;

// A matrix that is no longer dominated by its diagonal: that of some dominated one times itself, and a little more.
Sparse far_from_diagonal(Chance& chance, int n, int per_column) {
  const Sparse root = chance_matrix(chance, n, per_column);
  Sparse a = (root * Sparse(root.transpose())).triangularView<Eigen::Lower>();
  for (int j = 0; j < n; ++j) a.coeffRef(j, j) += 1e-3;
  a.makeCompressed();
  return a;
}

// Largest distance of both solutions, as a share of the largest value.
double apart(const Sparse& a, FrontFactor& ours, const Independent& theirs, const Eigen::VectorXd& b) {
  const Eigen::VectorXd wanted = theirs.solve(b);
  Eigen::VectorXd x(a.cols());
  ours.solve(b.data(), x.data());
  return (x - wanted).cwiseAbs().maxCoeff() / wanted.cwiseAbs().maxCoeff();
}

// Tangents of a job: cloth loose all over, partly tight, tight.
std::vector<Sparse> tangents() {
  Job job(one_zone_a_bay(sample::aileron(3, 0.9)), 200);
  Equilibrium equilibrium(job.model, {});
  std::vector<Sparse> out;
  Covering s = job.ironing.begin();
  out.push_back(equilibrium.tangent(s));
  for (int z : centre_out(job.panel())) {
    REQUIRE(work(job, s, {z}, 250, 1));
    out.push_back(equilibrium.tangent(s));
  }
  return out;
}

}  // namespace

TEST_CASE("chance matrices are solved as Eigen's own factorisation solves them") {
  Chance chance(14);
  for (int n : {1, 3, 8, 40, 97, 300})
    for (int per_column : {1, 3, 9}) {
      INFO("size " << n << ", entries a column " << per_column);
      const Sparse a = far_from_diagonal(chance, n, per_column);
      FrontFactor ours(std::make_shared<const FrontPlan>(a));
      const Independent theirs(a);
      REQUIRE(ours.factorise(a.valuePtr()));
      REQUIRE(theirs.info() == Eigen::Success);
      CHECK(apart(a, ours, theirs, chance.vector(Eigen::Index{n}, 1)) < 1e-9);
    }
}

TEST_CASE("tangents of a job are solved as Eigen's own factorisation solves them, by the fronts and through the door") {
  Chance chance(15);
  for (const Sparse& a : tangents()) {
    const Independent theirs(a);
    REQUIRE(theirs.info() == Eigen::Success);
    const Eigen::VectorXd b = chance.vector(a.cols(), 1);
    FrontFactor fronts(std::make_shared<const FrontPlan>(a));
    REQUIRE(fronts.factorise(a.valuePtr()));
    // Their condition is up to 1e9: of 16 digits seven are left.
    CHECK(apart(a, fronts, theirs, b) < 1e-6);
    LinearSolver door;
    door.analyse(a);
    REQUIRE(door.factorise(a));
    Eigen::VectorXd y;
    door.solve(b, y);
    const Eigen::VectorXd wanted = theirs.solve(b);
    CHECK((y - wanted).cwiseAbs().maxCoeff() < 1e-6 * wanted.cwiseAbs().maxCoeff());
  }
}

TEST_CASE("fronts say of each matrix what the signs of Eigen's pivots say: positive definite or not") {
  Chance chance(16);
  int definite = 0, indefinite = 0;
  const auto compare = [&](const Sparse& a) {
    const Independent theirs(a);
    REQUIRE(theirs.info() == Eigen::Success);
    const bool wanted = (theirs.vectorD().array() > 0).all();
    ++(wanted ? definite : indefinite);
    CHECK(FrontFactor(std::make_shared<const FrontPlan>(a)).factorise(a.valuePtr()) == wanted);
  };
  for (const Sparse& tangent : tangents())
    for (double less : {0.0, 0.2, 0.9, 1.1}) {
      // Less of the diagonal of some unknowns: a tangent that loses its hold somewhere.
      Sparse a = tangent;
      const int from = static_cast<int>(chance.between(0, static_cast<double>(a.cols())));
      for (int j = from; j < std::min<int>(from + 20, static_cast<int>(a.cols())); ++j) a.coeffRef(j, j) *= 1 - less;
      compare(a);
    }
  for (int n : {5, 40, 200})
    for (double shift : {0.0, 1e-4, 1.0, 100.0}) {
      Sparse a = far_from_diagonal(chance, n, 3);
      for (int j = 0; j < n; ++j) a.coeffRef(j, j) -= shift;
      compare(a);
    }
  CHECK(definite > 5);
  CHECK(indefinite > 5);
}
