// Beams over equal spans on rigid supports under a uniform load: what a trailing edge between ribs feels.
// Clapeyron's three moments (1857), solved here, agree with the fractions of T. G. Hicks, Civil Engineering Formulas,
// table 2.1 (looked up), which stops at seven spans; deflections are tabled by integrating the same moments.
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <string>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr double span = 0.25, q = 900;  // m, N/m
constexpr int per_span = 40;
const std::string source = "Clapeyron's three moments (1857), solved here",
                  table = "Hicks, Civil Engineering Formulas, table 2.1";

struct Solved {
  Eigen::VectorXd u, reactions;  // reactions of the supports in units of q L
  StraightLine line;
};

Solved solve_beam(int spans, int elements, bool lumped) {
  StraightLine line(spans * span, spans * elements, tube_section(12.7e-3, 0.9e-3), tube_modulus);
  std::vector<int> held;
  for (int i = 0; i <= spans; ++i) held.push_back(2 * i * elements);
  const Eigen::MatrixXd k = line.elastic();
  const Eigen::VectorXd f = lumped ? line.lumped_load(q) : line.uniform_load(q), u = solve_held(k, f, held),
                        r = f - k * u;
  Solved out{u, Eigen::VectorXd(spans + 1), line};
  for (int i = 0; i <= spans; ++i) out.reactions[i] = r[2 * i * elements] / (q * span);
  return out;
}

// Support moments, hogging, in q L^2, the ends' included: M_(i-1) + 4 M_i + M_(i+1) = 1/2.
Eigen::VectorXd three_moments(int spans) {
  const int n = spans - 1;
  Eigen::MatrixXd a = Eigen::MatrixXd::Zero(n, n);
  for (int i = 0; i < n; ++i) {
    a(i, i) = 4;
    if (i > 0) a(i, i - 1) = a(i - 1, i) = 1;
  }
  Eigen::VectorXd all = Eigen::VectorXd::Zero(spans + 1);
  if (n > 0) all.segment(1, n) = a.ldlt().solve(Eigen::VectorXd::Constant(n, 0.5));
  return all;
}

// Reaction of support i in q L: half of each span beside it, and what the moments lean on it.
double reaction_by_hand(const Eigen::VectorXd& m, int i) {
  double r = 0;
  const int last = static_cast<int>(m.size()) - 1;
  if (i > 0) r += 0.5 + m[i] - m[i - 1];
  if (i < last) r += 0.5 + m[i] - m[i + 1];
  return r;
}

// Peak of a span by a parabola through its three highest joints.
double peak(const std::function<double(int)>& at) {
  int highest = 1;
  for (int i = 2; i < per_span; ++i)
    if (at(i) > at(highest)) highest = i;
  const double before = at(highest - 1), middle = at(highest), after = at(highest + 1);
  return middle - (after - before) * (after - before) / (8 * (before + after - 2 * middle));
}

// In q L^4/(EI).
double largest_deflection(const Solved& s, int which_span) {
  const double flexural = tube_modulus * tube_section(12.7e-3, 0.9e-3).inertia_up;
  return peak([&](int i) { return s.u[2 * (which_span * per_span + i)]; }) * flexural / (q * std::pow(span, 4));
}

std::string name(int spans) { return "Beam over " + std::to_string(spans) + (spans > 1 ? " equal spans" : " span"); }

constexpr book::Chapter frame{"Frame"};

void enter(int spans, const std::string& quantity, double published, double ours, double tolerance,
           const std::string& from = source) {
  frame.number(name(spans), quantity, from, published, ours, tolerance);
}

}  // namespace

TEST_CASE("support moments of two to eight equal spans are those of the three-moment equation") {
  // Fractions of the published table.
  const std::vector<std::vector<double>> published = {{1.0 / 8},
                                                      {1.0 / 10},
                                                      {3.0 / 28, 2.0 / 28},
                                                      {4.0 / 38, 3.0 / 38},
                                                      {11.0 / 104, 8.0 / 104, 9.0 / 104},
                                                      {15.0 / 142, 11.0 / 142, 12.0 / 142}};
  for (std::size_t k = 0; k < published.size(); ++k)
    for (std::size_t i = 0; i < published[k].size(); ++i)
      CHECK(three_moments(static_cast<int>(k) + 2)[static_cast<int>(i) + 1] == Approx(published[k][i]));
  for (int spans = 2; spans <= 8; ++spans) {
    const Solved s = solve_beam(spans, per_span, false);
    const Eigen::VectorXd m = three_moments(spans);
    const auto moment = [&](int i) { return std::abs(s.line.moment_at(i * per_span, s.u, 0, q)) / (q * span * span); };
    for (int i = 1; i < spans; ++i) {
      if (2 * i <= spans)
        enter(spans, "moment over support " + std::to_string(i) + " / qL^2 [1]", m[i], moment(i),
              1e-6);  // round-off of a stiff system
      else CHECK(moment(i) == Approx(m[i]).epsilon(1e-6));
    }
  }
}

TEST_CASE("equal spans share their load as the three moments say, four spans in the fractions 11/28, 8/7 and 13/14") {
  const double exact[3] = {11.0 / 28, 8.0 / 7, 13.0 / 14};
  for (int i = 0; i < 3; ++i) CHECK(reaction_by_hand(three_moments(4), i) == Approx(exact[i]));
  for (int spans : {4, 8}) {
    const Solved s = solve_beam(spans, per_span, false);
    const Eigen::VectorXd m = three_moments(spans);
    for (int i = 0; 2 * i <= spans; ++i)
      enter(spans, "reaction of support " + std::to_string(i) + " / qL [1]", reaction_by_hand(m, i),
            std::abs(s.reactions[i]), 1e-6);
  }
}

TEST_CASE("the largest moments between supports are those of the published table") {
  struct Row {
    int spans, which;
    double moment;
  };
  for (const Row& r :
       {Row{1, 0, 0.125}, Row{2, 0, 0.0703}, Row{3, 0, 0.080}, Row{3, 1, 0.025}, Row{4, 0, 0.0772}, Row{4, 1, 0.0364},
        Row{5, 0, 0.0779}, Row{5, 1, 0.0332}, Row{5, 2, 0.0461}, Row{6, 0, 0.0777}, Row{6, 1, 0.0340},
        Row{6, 2, 0.0433}, Row{7, 0, 0.0778}, Row{7, 1, 0.0338}, Row{7, 2, 0.0440}, Row{7, 3, 0.0405}}) {
    const Solved s = solve_beam(r.spans, per_span, false);
    // Hogging is positive here; the row of moments at joints is a parabola.
    const auto sagging = [&](int i) {
      return -s.line.moment_at(r.which * per_span + i, s.u, 0, q) / (q * span * span);
    };
    book::enter({.chapter = "Frame",
                 .check = name(r.spans),
                 .quantity = "largest moment in span " + std::to_string(r.which + 1) + " / qL^2 [1]",
                 .source = table,
                 .published = r.moment,
                 .ours = peak(sagging),
                 .tolerance = 1e-4 / r.moment,
                 .note = "the table has three or four decimals, the last one cut off here and there (span 2 of 6)"});
  }
}

TEST_CASE("the end span bows most, by the tabled share of qL^4/EI") {
  struct Row {
    int spans, which;
    double deflection;
  };
  for (const Row& r : {Row{1, 0, 0.013021}, Row{2, 0, 0.005416}, Row{3, 0, 0.006884}, Row{3, 1, 0.000521},
                       Row{4, 0, 0.006460}, Row{4, 1, 0.001891}, Row{5, 0, 0.006572}, Row{5, 1, 0.001526},
                       Row{5, 2, 0.003152}, Row{6, 0, 0.006542}, Row{6, 1, 0.001624}, Row{6, 2, 0.002806},
                       Row{8, 0, 0.006548}, Row{8, 1, 0.001605}, Row{8, 2, 0.002874}, Row{8, 3, 0.002551}}) {
    // Half a unit of the table's last digit, and the parabola.
    enter(r.spans, "largest deflection in span " + std::to_string(r.which + 1) + " / (qL^4/EI) [1]", r.deflection,
          largest_deflection(solve_beam(r.spans, per_span, false), r.which), 0.5e-6 / r.deflection + 1e-4);
  }
}

TEST_CASE(
    "a load that reaches the joints alone, as the cloth's does, approaches the same moments to the second order") {
  for (int spans : {1, 5}) {
    const Eigen::VectorXd m = three_moments(spans);
    std::vector<MeshLevel> moment, deflection;
    for (int n : {4, 8, 16}) {
      const Solved s = solve_beam(spans, n, true);
      const double flexural = tube_modulus * tube_section(12.7e-3, 0.9e-3).inertia_up;
      if (spans > 1) moment.push_back({1.0 / n, std::abs(s.line.moment_at(n, s.u, 0, 0)) / (q * span * span)});
      deflection.push_back({1.0 / n, s.u[n] * flexural / (q * std::pow(span, 4))});
    }
    const auto enter_study = [&](const std::string& quantity, double published, const std::vector<MeshLevel>& levels) {
      frame.study(name(spans) + ", load on the joints alone", quantity, source, published, 1e-4, levels, {2, 1.9});
    };
    if (spans > 1) enter_study("moment over support 1 / qL^2 [1]", m[1], moment);
    // Middle of the end span: 5/384 - M_1/16, from one moment at one end of a simple beam.
    enter_study("deflection in the middle of span 1 / (qL^4/EI) [1]", 5.0 / 384 - m[1] / 16 * (spans > 1), deflection);
  }
}
