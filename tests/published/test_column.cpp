// Euler's columns, from the elastic and geometric stiffness of the beam element. Consistent (cubic) geometric stiffness
// approaches the load from above with the fourth power of the element's length.
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Eigenvalues>

#include <string>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr double pi = 3.14159265358979323846;
const std::string source = "Euler (1757), derived here";

double buckling_load(const StraightLine& line, const std::vector<int>& held) {
  const std::vector<int> open = free_of(line.unknowns(), held);
  const Eigen::MatrixXd k = line.elastic()(open, open), g = line.geometric(1.0)(open, open);
  // (K - P G) v = 0 with both positive definite: the smallest P.
  return Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd>(k, g, Eigen::EigenvaluesOnly).eigenvalues()[0];
}

enum class End { free, pinned, guided, fixed };

std::vector<int> held_at(const StraightLine& line, End first, End last) {
  std::vector<int> held;
  const auto hold = [&](End e, int deflection) {
    if (e == End::pinned || e == End::fixed) held.push_back(deflection);
    if (e == End::guided || e == End::fixed) held.push_back(deflection + 1);
  };
  hold(first, 0);
  hold(last, line.unknowns() - 2);
  return held;
}

}  // namespace

TEST_CASE("columns held in any way buckle at Euler's loads, to the fourth order") {
  struct Row {
    const char* ends;
    End first, last;
    double load;  // P L^2/(EI): v'''' + k^2 v'' = 0 with the conditions of both ends
  };
  constexpr double root = 4.493409457909064;  // tan u = u
  const Section tube = tube_section(12.7e-3, 0.9e-3);
  const double length = 0.4, unit = tube_modulus * tube.inertia_up / (length * length);
  for (const Row& r :
       {Row{"pinned, pinned", End::pinned, End::pinned, pi * pi},
        Row{"fixed, fixed", End::fixed, End::fixed, 4 * pi * pi},
        Row{"fixed, pinned", End::fixed, End::pinned, root * root},
        Row{"fixed, free", End::fixed, End::free, pi * pi / 4}, Row{"fixed, guided", End::fixed, End::guided, pi * pi},
        Row{"pinned, guided", End::pinned, End::guided, pi * pi / 4}}) {
    std::vector<MeshLevel> levels;
    for (int n : {4, 8, 16}) {
      const StraightLine line(length, n, tube, tube_modulus);
      levels.push_back({1.0 / n, buckling_load(line, held_at(line, r.first, r.last)) / unit});
    }
    book::enter({.chapter = "Frame",
                 .check = "Euler's columns",
                 .quantity = std::string(r.ends) + ": P L^2/(EI) [1]",
                 .source = source,
                 .published = r.load,
                 .tolerance = 1e-4,
                 .levels = levels,
                 .theory = 4,
                 .least_order = 3.8});
  }
}

TEST_CASE("pinned, fixed and half-fixed tubes buckle at the loads of the table") {
  struct Row {
    double diameter_mm, length, pinned, fixed, fixed_pinned;
  };
  // pi^2 EI/L^2, 4 times that, and 20.1907 EI/L^2; E = 68.9 GPa, five digits. The thinner tube pinned only.
  for (const Row& r : {Row{12.7, 0.3, 4413.1, 17652, 9028.1}, Row{12.7, 0.4, 2482.4, 9929.5, 5078.3},
                       Row{12.7, 0.5, 1588.7, 6354.9, 3250.1}, Row{9.525, 0.3, 1732.0, 0, 0},
                       Row{9.525, 0.4, 974.3, 0, 0}, Row{9.525, 0.5, 623.5, 0, 0}}) {
    // Sixteen cubic elements overestimate by about (pi/16)^4/720, 2e-6 pinned and some 16 times that fixed.
    const StraightLine line(r.length, 16, tube_section(r.diameter_mm * 1e-3, 0.9e-3), tube_modulus);
    const auto enter = [&](const std::string& ends, double published, End first, End last) {
      if (published <= 0) return;
      book::enter({.chapter = "Frame",
                   .check = "Column of tube " + std::to_string(r.diameter_mm).substr(0, r.diameter_mm < 10 ? 5 : 4) +
                            " x 0.9 mm",
                   .quantity = std::to_string(r.length).substr(0, 3) + " m, " + ends + ": load [N]",
                   .source = source,
                   .published = published,
                   .ours = buckling_load(line, held_at(line, first, last)),
                   .tolerance = 1e-4});
    };
    enter("pinned", r.pinned, End::pinned, End::pinned);
    enter("fixed", r.fixed, End::fixed, End::fixed);
    enter("fixed, pinned", r.fixed_pinned, End::fixed, End::pinned);
  }
}
