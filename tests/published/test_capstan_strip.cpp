// A strip of cloth round an edge, glued at both ends and shrunk on one side: it sticks, then slides when the pulls are
// in the capstan ratio T_high/T_low = exp(mu theta) (Euler 1769, Eytelwein 1808, as quoted in textbooks). Through the
// solver's own sliding point, with the friction in the equilibrium. How far it slides, derived here: with q gone from
// one side to the other over length L the stretches are 1 - g and 1 + g, g = q/L; pull N = K (E + s), E = -g + g^2/2 or
// g + g^2/2, s the shrink of the side; the force on the edge is N times the stretch.
#include "solver/equilibrium/equilibrium.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;

namespace {

constexpr double degree = 3.14159265358979323846 / 180;
constexpr double stiffness = 100e3, length = 0.35, width = 0.1, first_pull = 300;  // N/m, m, m, N/m
constexpr double more = 0.004;  // strain by which one side is shrunk on: some 400 N/m if the edge held
constexpr int quads = 6;        // a side

// Two sides above one another, glued to a body at the seam (row 0), wrapped round one at the edge (last row). Moving
// along the chord only: without Poisson's ratio nothing is lost by that.
Panel strip() {
  Panel p;
  p.rows = quads + 1;
  p.columns = 2;
  p.joints = {{{0, 0, 0}}, {{length, 0, 0}}};
  for (Side side : {Side::top, Side::bottom})
    for (int row = 0; row < p.rows; ++row)
      for (int column = 0; column < 2; ++column) {
        ClothNode n;
        n.placed = {length * row / quads, width * column, side == Side::top ? 0.01 : -0.01};
        n.side = side;
        n.row = row;
        n.column = column;
        n.tie = row == 0 ? Tie::glued : row == quads ? Tie::wrapped : Tie::none;
        n.joint = row == 0 ? 0 : row == quads ? 1 : -1;
        if (n.joint >= 0) n.offset = n.placed - p.joints[n.joint].position;
        p.nodes.push_back(n);
      }
  for (Side side : {Side::top, Side::bottom})
    for (int row = 0; row < quads; ++row) {
      Quad q;
      q.nodes = {p.node(side, row, 0), p.node(side, row + 1, 0), p.node(side, row + 1, 1), p.node(side, row, 1)};
      q.side = side;
      q.row = row;
      q.area = length / quads * width;
      p.quads.push_back(q);
    }
  return p;
}

std::vector<int> held(const Panel& p) {
  std::vector<int> out;
  for (int i = 0; i < 12; ++i) out.push_back(i);
  const Unknowns u = number_unknowns(p);
  for (const NodeMap& n : u.nodes)
    if (n.is_free()) out.insert(out.end(), {n.index[1], n.index[2]});
  return out;
}

struct Strip {
  Model model;
  Equilibrium solver;
  Covering state;

  Strip(double friction, double wrap)
      : model(case_of(friction, wrap), strip(), {held(strip()), held(strip())}),
        solver(model, accuracy()),
        state(laid_on(model)) {
    shrink(Side::top, first_pull / stiffness);
    shrink(Side::bottom, first_pull / stiffness);
    solve();
  }
  Strip(const Strip&) = delete;
  Strip& operator=(const Strip&) = delete;

  static Case case_of(double friction, double wrap) {
    Case c;
    c.cloth.stiffness = {stiffness, stiffness};
    c.cloth.poisson = 0;
    c.cloth.shear = stiffness / 2;
    c.blanket.edge_friction = friction;
    c.blanket.wrap_angle = wrap;
    return c;
  }
  static SolveOptions accuracy() {
    SolveOptions a;
    a.smoothing = 1e-6;
    a.force_tolerance = 1e-7;
    a.tension_tolerance = 1e-4;
    a.friction_tolerance = 1e-8;
    a.most_iterations = 200;
    return a;
  }
  void shrink(Side side, double by) {
    for (std::size_t q = 0; q < model.panel.quads.size(); ++q)
      if (model.panel.quads[q].side == side)
        for (std::size_t t = 4 * q; t < 4 * q + 4; ++t) state.shrink[t][1] += by;  // the fill lies along the chord
  }
  void solve() { REQUIRE(solver.solve(state, {}, {}).converged); }
  double force(Side side) const {
    double sum = 0;
    for (int column : {0, 1}) {
      const int n = model.panel.node(side, quads, column);
      sum += state.nodal_force[n].dot(model.panel.nodes[n].along_chord);
    }
    return sum;
  }
  double slip() const { return state.unknowns[model.unknowns.sliding[0].first_unknown]; }
};

// Slip at which high = ratio * low, by bisection of the closed form above.
double slip_by_hand(double ratio) {
  double least = 0, most = 0.01 * length;
  for (int i = 0; i < 100; ++i) {
    const double q = 0.5 * (least + most), s = q / length, low_shrink = first_pull / stiffness;
    const double high = (low_shrink + more - s + s * s / 2) * (1 - s), low = (low_shrink + s + s * s / 2) * (1 + s);
    (high > ratio * low ? least : most) = q;
  }
  return most;
}

}  // namespace

TEST_CASE("a strip round an edge slides until its pulls are in the capstan ratio") {
  struct Row {
    double friction, wrap_deg, ratio;
  };
  // exp(mu theta) to five digits.
  for (const Row& r : {Row{0.15, 170, 1.5606}, Row{0.25, 90, 1.4810}, Row{0.25, 170, 2.0996}, Row{0.25, 180, 2.1933}}) {
    Strip s(r.friction, r.wrap_deg * degree);
    s.shrink(Side::top, more);
    s.solve();
    const std::string at = "mu = " + std::to_string(r.friction).substr(0, 4) + ", " +
                           std::to_string(static_cast<int>(r.wrap_deg)) + " deg: ";
    book::enter({.chapter = "Edge and friction",
                 .check = "Strip round an edge, shrunk on one side",
                 .quantity = at + "pull above over pull below [1]",
                 .source = "Eytelwein, Handbuch der Statik fester Koerper (1808), as quoted in textbooks",
                 .published = r.ratio,
                 .ours = s.force(Side::top) / s.force(Side::bottom),
                 .tolerance = 4e-5});
    book::enter({.chapter = "Edge and friction",
                 .check = "Strip round an edge, shrunk on one side",
                 .quantity = at + "slip [mm]",
                 .source = "derived here",
                 .published = 1e3 * slip_by_hand(std::exp(r.friction * r.wrap_deg * degree)),
                 .ours = 1e3 * s.slip(),
                 .tolerance = 1e-3,
                 .note = "friction comes up over the first 0.0002 mm of slip"});
  }
}

TEST_CASE("below the capstan ratio the strip sticks") {
  Strip s(0.35, 170 * degree);  // ratio 2.83
  s.shrink(Side::top, more);    // 700 over 300 N/m
  s.solve();
  CHECK(std::abs(s.slip()) < 1e-6);
  CHECK(s.force(Side::top) / s.force(Side::bottom) == Approx(7.0 / 3).epsilon(1e-3));
}

TEST_CASE("shrunk on the other side afterwards the strip slides back at the ratio turned round") {
  Strip s(0.15, 170 * degree);
  s.shrink(Side::top, more);
  s.solve();
  const double there = s.slip();
  s.shrink(Side::bottom, 2 * more);
  s.solve();
  CHECK(s.slip() < there);
  CHECK(s.force(Side::bottom) / s.force(Side::top) == Approx(1.5606).epsilon(1e-4));
}
