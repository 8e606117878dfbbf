// Euler's columns, from the elastic and geometric stiffness of the beam element.
#include "tests/published/straight_line.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Eigenvalues>

using namespace evenpull;
using namespace evenpull::published;

namespace {

// Sixteen cubic elements overestimate Euler's load by about (pi/16)^4/720, 2e-6 pinned and some 16 times that fixed.
constexpr int elements = 16;
constexpr double tolerance = 1e-4;

double buckling_load(const StraightLine& line, const std::vector<int>& held) {
  const std::vector<int> open = free_of(line.unknowns(), held);
  const Eigen::MatrixXd k = line.elastic()(open, open), g = line.geometric(1.0)(open, open);
  // (K - P G) v = 0 with both positive definite: the smallest P.
  return Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd>(k, g, Eigen::EigenvaluesOnly).eigenvalues()[0];
}

}  // namespace

TEST_CASE("pinned, fixed and half-fixed columns buckle at Euler's loads") {
  // pi^2 EI/L^2, 4 times that, and 20.1907 EI/L^2 (root of tan u = u): Euler 1757, derived here. 12.7 x 0.9 mm tube.
  struct Row {
    double length, pinned, fixed, fixed_pinned;
  };
  const Section tube = tube_section(12.7e-3, 0.9e-3);
  for (const Row& r :
       {Row{0.3, 4413.1, 17652, 9028.1}, Row{0.4, 2482.4, 9929.5, 5078.3}, Row{0.5, 1588.7, 6354.9, 3250.1}}) {
    CAPTURE(r.length);
    const StraightLine line(r.length, elements, tube, tube_modulus);
    const int w = line.unknowns() - 2, turn = line.unknowns() - 1;
    CHECK(buckling_load(line, {0, w}) == Approx(r.pinned).epsilon(tolerance));
    CHECK(buckling_load(line, {0, 1, w, turn}) == Approx(r.fixed).epsilon(tolerance));
    CHECK(buckling_load(line, {0, 1, w}) == Approx(r.fixed_pinned).epsilon(tolerance));
  }
}

TEST_CASE("a thinner tube buckles in proportion to its inertia") {
  const Section tube = tube_section(9.525e-3, 0.9e-3);
  const double lengths[3] = {0.3, 0.4, 0.5}, loads[3] = {1732.0, 974.3, 623.5};
  for (int i = 0; i < 3; ++i) {
    const StraightLine line(lengths[i], elements, tube, tube_modulus);
    CHECK(buckling_load(line, {0, line.unknowns() - 2}) == Approx(loads[i]).epsilon(tolerance));
  }
}
