// Beam-columns: bending that grows with the compression in the member (docs/model.md, section 5).
// Equal end moments: M/M0 = sec u; the rest in pinned_beam_column.hpp.
#include "tests/published/pinned_beam_column.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <string>

using namespace evenpull;
using namespace evenpull::published;

namespace {

const PinnedTube tube;

double by_hand_end_moments(double share) { return 1 / std::cos(PinnedTube::u(share)); }

constexpr double shares[3] = {0.25, 0.5, 0.8};

StraightLine make_line(int elements) { return {tube.length, elements, tube.section, tube_modulus}; }

Eigen::VectorXd bent(const StraightLine& line, double pull, const Eigen::VectorXd& load) {
  return solve_held(line.elastic() + line.geometric(pull), load, {0, line.unknowns() - 2});
}

void study(const std::string& quantity, double published, double tolerance, double theory,
           const std::function<double(const StraightLine&, int)>& read) {
  std::vector<MeshLevel> levels;
  for (int n : {4, 8, 16}) levels.push_back({tube.length / n, read(make_line(n), n)});
  book::Chapter{"Frame"}.study("Beam-column of tube 12.7 x 0.9 mm, 400 mm, pinned", quantity, beam_column_source,
                               published, tolerance, levels, {theory, 3.8});
}

std::string at(double share) { return "P = " + share_text(share) + " of Euler's load, "; }

}  // namespace

TEST_CASE("without compression a uniformly loaded beam bends by 5qL^4/384EI") {
  const StraightLine line = make_line(16);
  const Eigen::VectorXd u = solve_held(line.elastic(), line.uniform_load(tube.q), {0, line.unknowns() - 2});
  CHECK(u[16] == Approx(4.14154e-3).epsilon(2e-6));
  CHECK(std::abs(line.moment_at(8, u, 0, tube.q)) == Approx(tube.q * tube.length * tube.length / 8));
}

TEST_CASE("the closed forms are those of the table of boundary-value solutions") {
  // To all digits shown.
  struct Row {
    double share, deflection_mm, moment_N_mm, end_moment_ratio;
  };
  for (const Row& r : {Row{0.25, 5.52690, 13429.95, 1.41421}, Row{0.5, 8.29808, 20299.45, 2.25217},
                       Row{0.8, 20.76997, 51247.0, 6.05788}}) {
    CHECK(1e3 * tube.deflection(PinnedTube::u(r.share)) == Approx(r.deflection_mm).epsilon(2e-6));
    CHECK(1e3 * tube.moment(PinnedTube::u(r.share)) == Approx(r.moment_N_mm).epsilon(2e-6));
    CHECK(by_hand_end_moments(r.share) == Approx(r.end_moment_ratio).epsilon(5e-6));
  }
}

TEST_CASE("compression amplifies the bending of a uniformly loaded beam as the secant formula says") {
  for (double share : shares) {
    const double push = -share * tube.euler_load();
    study(at(share) + "uniform load: deflection [mm]", 1e3 * tube.deflection(PinnedTube::u(share)), 1e-4, 4,
          [&](const StraightLine& line, int n) { return 1e3 * bent(line, push, line.uniform_load(tube.q))[n]; });
    study(at(share) + "uniform load: moment [N mm]", 1e3 * tube.moment(PinnedTube::u(share)), 1e-4, 4,
          [&](const StraightLine& line, int n) {
            return 1e3 * std::abs(line.moment_at(n / 2, bent(line, push, line.uniform_load(tube.q)), push, tube.q));
          });
  }
}

TEST_CASE("compression amplifies equal end moments by the secant of u") {
  for (double share : shares) {
    const double push = -share * tube.euler_load();
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
        1e3 * ratio * 5 * tube.q * std::pow(tube.length, 4) / (384 * tube.bending()), 1e-4, 4,
        [&](const StraightLine& line, int n) {
          return 1e3 * bent(line, tube.euler_load(), line.uniform_load(tube.q))[n];
        });
}
