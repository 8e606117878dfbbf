// Sag between ribs through a whole panel with a rigid frame: many bays, both skins shallow arcs glued to the ribs.
// Derived here: with uniform pulls N_x (chordwise) and N_y (spanwise) the height w of shallow cloth without pressure
// obeys N_x w_xx + N_y w_yy = 0. On the ribs y = 0 and y = b it has the arc 4 h x (L - x)/L^2, at both ends of the
// profile nothing; the sine series of the arc is the sum over odd n of 32 h/(n pi)^3 sin(n pi x/L), so half-way
// between ribs and at mid-chord
//   w = sum over odd n of 32 h/(n pi)^3 (-1)^((n-1)/2) / cosh(n pi b k/(2 L)),  k = sqrt(N_x/N_y)
// and the sag is h - w.
#include "solver/ironing/ironing.hpp"
#include "solver/readings/readings.hpp"
#include "tests/support/book.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double chord = 0.36, bay = 0.30;  // m
constexpr int bays = 5;

double series_sag(double pulls) {
  double w = 0;
  for (int n = 1; n < 60; n += 2)
    w += (n % 4 == 1 ? 1 : -1) * 32 / std::pow(n * pi, 3) / std::cosh(n * pi * bay * std::sqrt(pulls) / (2 * chord));
  return 1 - w;
}

Case arc_panel(double rise_share) {
  Case c = sample::light_rudder(bays);
  c.outline.leading_edge = {{0, 0}, {0, bays * bay}};
  c.outline.trailing_edge = {{chord, 0}, {chord, bays * bay}};
  for (int i = 0; i <= bays; ++i) c.ribs[i].station = i * bay;
  c.while_ironed[1].station = c.in_use[1].station = bays * bay;
  c.span_members[0].chord_fraction = 0;
  c.profile.clear();
  constexpr int points = 64;
  for (int i = 0; i <= points; ++i) {
    const double x = static_cast<double>(i) / points, z = 4 * rise_share * x * (1 - x);
    c.profile.push_back({x, z, z});
  }
  c.blanket.seam_chord_fraction = c.blanket.nose_chord_fraction = 0;
  c.blanket.edge_glued = true;
  c.blanket.inner_ribs = RibTie::glued;
  c.cloth.looseness = {0, 0};
  sample::make_rigid(c);
  return c;
}

struct Reading {
  double edge = 0;                     // of an element along the chord, share of it
  double sag = 0;                      // at mid-bay and mid-chord, share of the arc's height
  double chordwise = 0, spanwise = 0;  // N/m, mean over the bay
  double loss = 0;                     // m
};

Reading sag_of(double rise_share, double chordwise, double spanwise, int nodes) {
  const Case c = arc_panel(rise_share);
  MeshOptions options;
  options.target_nodes = nodes;
  const Model m(c, options);
  SolveOptions a;
  a.smoothing = 1e-4;
  Ironing ironing(m, a);
  Covering s = ironing.begin();
  // Shrink of cloth that would carry just these pulls on a flat profile.
  const Mandel strain = m.compliance * Mandel(spanwise, chordwise, 0);
  for (auto& shrink : s.shrink) shrink = {strain[0], strain[1]};
  REQUIRE(ironing.settle(s, "settled").outcome == Outcome::settled);
  const Readings r = read_off(m, s);
  const Panel& p = m.panel;
  const int mid = bays / 2, column = (p.rib_columns[mid] + p.rib_columns[mid + 1]) / 2, row = (p.rows - 1) / 2;
  REQUIRE((p.rows - 1) % 2 == 0);
  Reading out;
  out.edge = 1.0 / (p.rows - 1);
  out.sag = r.sag.inward[p.node(Side::top, row, column)] / (rise_share * chord);
  out.loss = r.sag.bays[mid].loss;
  double area = 0;
  for (std::size_t q = 0; q < p.quads.size(); ++q)
    if (p.quads[q].bay == mid && p.quads[q].side == Side::top) {
      const QuadPull pull = quad_pull(m, s, static_cast<int>(q));
      out.chordwise += p.quads[q].area * pull.chord;
      out.spanwise += p.quads[q].area * pull.span;
      area += p.quads[q].area;
    }
  out.chordwise /= area;
  out.spanwise /= area;
  return out;
}

}  // namespace

TEST_CASE("between ribs that carry a shallow arc the cloth sags as the series for its two pulls says") {
  struct Row {
    double chordwise, spanwise;
    const char* name;
  };
  for (const Row& row : {Row{600, 600, "equal pulls"}, Row{900, 450, "chordwise pull twice the spanwise"},
                         Row{450, 900, "spanwise pull twice the chordwise"}}) {
    CAPTURE(row.name);
    std::vector<MeshLevel> levels;
    Reading r;
    for (int nodes : {300, 1100, 4200}) {
      r = sag_of(0.004, row.chordwise, row.spanwise, nodes);
      levels.push_back({r.edge, r.sag});
      CAPTURE(nodes, r.edge, r.chordwise, r.spanwise);
      CHECK(r.loss == Approx(2 * r.sag * 0.004 * chord).epsilon(1e-3));
    }
    book::enter({.chapter = "Whole panels",
                 .check = std::string("Sag between ribs on a shallow arc, rigid frame, 5 bays, ") + row.name,
                 .quantity = "sag at mid-bay, share of the arc's height",
                 .source = "derived here: sine series of N_x w_xx + N_y w_yy = 0",
                 .published = series_sag(r.chordwise / r.spanwise),
                 .tolerance = 0.003,
                 .levels = levels,
                 .theory = 2,
                 .least_order = 1.8,
                 .note = "the series takes the bay means of the pulls read off; it knows neither their spread over the "
                         "bay nor the slope of the arc"});
  }
}
