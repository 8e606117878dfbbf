// Beam-columns: bending that grows with the compression in the member (docs/model.md, section 5).
// With u = (L/2) sqrt(P/EI), uniform load: w/w0 = 12 (2 sec u - u^2 - 2)/(5 u^4), M/M0 = 2 (sec u - 1)/u^2;
// equal end moments: M/M0 = sec u. Derived here; attributed to Timoshenko & Gere, Theory of Elastic Stability, from
// memory.
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <string>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr double length = 0.4, q = 500;  // m, N/m
constexpr double pi = 3.14159265358979323846;
const std::string source = "Timoshenko & Gere, Theory of Elastic Stability, from memory; derived here";

// Closed forms of P/Pe = share: w [mm], M [N mm], and the ratio of the mid moment to equal end moments.
double by_hand_deflection(double share) {
  const double u = 0.5 * pi * std::sqrt(share), ei = tube_modulus * tube_section(12.7e-3, 0.9e-3).inertia_up;
  return 1e3 * q * std::pow(length, 4) / (384 * ei) * 12 * (2 / std::cos(u) - u * u - 2) / std::pow(u, 4);
}
double by_hand_moment(double share) {
  const double u = 0.5 * pi * std::sqrt(share);
  return 1e3 * q * length * length / 8 * 2 * (1 / std::cos(u) - 1) / (u * u);
}
double by_hand_end_moments(double share) {
  return 1 / std::cos(0.5 * pi * std::sqrt(share));
}

constexpr double shares[3] = {0.25, 0.5, 0.8};

StraightLine make_line(int elements) {
  return {length, elements, tube_section(12.7e-3, 0.9e-3), tube_modulus};
}

double euler_load() {
  return pi * pi * tube_modulus * tube_section(12.7e-3, 0.9e-3).inertia_up / (length * length);
}

Eigen::VectorXd bent(const StraightLine& line, double pull, const Eigen::VectorXd& load) {
  return solve_held(line.elastic() + line.geometric(pull), load, {0, line.unknowns() - 2});
}

void study(const std::string& quantity, double published, double tolerance, double theory,
           const std::function<double(const StraightLine&, int)>& read) {
  std::vector<MeshLevel> levels;
  for (int n : {4, 8, 16}) levels.push_back({length / n, read(make_line(n), n)});
  book::enter({.chapter = "Frame",
               .check = "Beam-column of tube 12.7 x 0.9 mm, 400 mm, pinned",
               .quantity = quantity,
               .source = source,
               .published = published,
               .tolerance = tolerance,
               .levels = levels,
               .theory = theory,
               .least_order = 3.8});
}

std::string at(double share) {
  return "P = " + std::to_string(share).substr(0, share == 0.25 ? 4 : 3) + " of Euler's load, ";
}

}  // namespace

TEST_CASE("without compression a uniformly loaded beam bends by 5qL^4/384EI") {
  const StraightLine line = make_line(16);
  const Eigen::VectorXd u = solve_held(line.elastic(), line.uniform_load(q), {0, line.unknowns() - 2});
  CHECK(u[16] == Approx(4.14154e-3).epsilon(2e-6));
  CHECK(std::abs(line.moment_at(8, u, 0, q)) == Approx(q * length * length / 8));
}

TEST_CASE("the closed forms are those of the table of boundary-value solutions") {
  // To all digits shown.
  struct Row {
    double share, deflection_mm, moment_N_mm, end_moment_ratio;
  };
  for (const Row& r : {Row{0.25, 5.52690, 13429.95, 1.41421}, Row{0.5, 8.29808, 20299.45, 2.25217},
                       Row{0.8, 20.76997, 51247.0, 6.05788}}) {
    CHECK(by_hand_deflection(r.share) == Approx(r.deflection_mm).epsilon(2e-6));
    CHECK(by_hand_moment(r.share) == Approx(r.moment_N_mm).epsilon(2e-6));
    CHECK(by_hand_end_moments(r.share) == Approx(r.end_moment_ratio).epsilon(5e-6));
  }
}

TEST_CASE("compression amplifies the bending of a uniformly loaded beam as the secant formula says") {
  for (double share : shares) {
    const double push = -share * euler_load();
    study(at(share) + "uniform load: deflection [mm]", by_hand_deflection(share), 1e-4, 4,
          [&](const StraightLine& line, int n) { return 1e3 * bent(line, push, line.uniform_load(q))[n]; });
    study(at(share) + "uniform load: moment [N mm]", by_hand_moment(share), 1e-4, 4,
          [&](const StraightLine& line, int n) {
            return 1e3 * std::abs(line.moment_at(n / 2, bent(line, push, line.uniform_load(q)), push, q));
          });
  }
}

TEST_CASE("compression amplifies equal end moments by the secant of u") {
  for (double share : shares) {
    const double push = -share * euler_load();
    study(at(share) + "end moments: moment over theirs [1]", by_hand_end_moments(share), 1e-4, 4,
          [&](const StraightLine& line, int n) {
            Eigen::VectorXd f = Eigen::VectorXd::Zero(line.unknowns());
            f[1] = 1;
            f[line.unknowns() - 1] = -1;
            return std::abs(line.moment_at(n / 2, bent(line, push, f), push, 0));
          });
  }
}

TEST_CASE("a pulled member bends less than an unloaded one") {
  // Same closed form with sec replaced by sech, u = pi/2.
  const double x = pi / 2;
  const double ratio = 12 * (2 / std::cosh(x) + x * x - 2) / (5 * std::pow(x, 4));
  study("pull of Euler's load, uniform load: deflection [mm]",
        1e3 * ratio * 5 * q * std::pow(length, 4) / (384 * tube_modulus * tube_section(12.7e-3, 0.9e-3).inertia_up),
        1e-4, 4,
        [&](const StraightLine& line, int n) { return 1e3 * bent(line, euler_load(), line.uniform_load(q))[n]; });
}
