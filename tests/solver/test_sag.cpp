// Sag of the cloth between ribs and what it takes off the profile (docs/model.md, section 7). The series solution of a
// bay is in tests/published/test_sag_between_ribs.cpp.
#include "tests/solver/chance.hpp"
#include "tests/solver/small_job.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// Both skins arcs of one height over the whole chord, cloth glued all round, nothing else under it, no looseness.
Case arc_panel(int bays, double height, double span = 0.9) {
  Case c = sample::light_rudder(bays);
  c.outline.leading_edge = {{0, 0}, {0, span}};
  c.outline.trailing_edge = {{0.35, 0}, {0.35, span}};
  for (int i = 0; i <= bays; ++i) c.ribs[i].station = span * i / bays;
  c.span_members[0].chord_fraction = 0;
  c.profile.clear();
  for (int i = 0; i <= 20; ++i) {
    const double x = i / 20.0, z = 0.01 + 4 * height * x * (1 - x);
    c.profile.push_back({x, z, z});
  }
  for (Support* s : {&c.while_ironed[1], &c.in_use[1]}) s->station = span;
  c.blanket.seam_chord_fraction = 0;
  c.blanket.nose_chord_fraction = 0;
  c.blanket.edge_glued = true;
  c.blanket.inner_ribs = RibTie::glued;
  c.cloth.looseness = {0, 0};
  sample::make_rigid(c);
  return c;
}

// Shrinks all cloth alike, warp along the span and fill along the chord [strain], and lets it settle.
Sag after_shrink(const Case& c, double warp, double fill, int nodes = 300) {
  Job j(c, nodes);
  Covering s = j.ironing.begin();
  for (auto& shrink : s.shrink) shrink = {warp, fill};
  REQUIRE(j.ironing.settle(s, "settled").outcome == Outcome::settled);
  return read_sag(j.model, s);
}

double most(const Sag& s) { return worst_loss(s.bays).loss; }

constexpr double some = 6e-3;  // 600 N/m of pull on cloth of 100 kN/m held at its length

}  // namespace

TEST_CASE("cloth on a flat profile does not sag") {
  const Sag s = after_shrink(arc_panel(3, 0), some, some);
  for (double d : s.inward) CHECK(std::abs(d) < 1e-6);
}

TEST_CASE("cloth on an arc sags inward between the ribs and not on them") {
  Job j(arc_panel(3, 0.02), 300);
  const Panel& p = j.panel();
  Covering state = j.ironing.begin();
  for (auto& shrink : state.shrink) shrink = {some, some};
  REQUIRE(j.ironing.settle(state, "settled").outcome == Outcome::settled);
  const Sag s = read_sag(j.model, state);
  for (std::size_t n = 0; n < p.nodes.size(); ++n) {
    const ClothNode& node = p.nodes[n];
    const bool rib = std::count(p.rib_columns.begin(), p.rib_columns.end(), node.column) > 0;
    const bool edge = node.row == 0 || node.row == p.rows - 1;
    if (rib) CHECK(s.inward[n] == 0);
    else if (edge) CHECK(std::abs(s.inward[n]) < 1e-6);
    else CHECK(s.inward[n] > 0);
  }
  // Top and bottom are alike, so each gives half of the loss, and the thickest place of the bay is where it is worst.
  REQUIRE(s.bays.size() == 3);
  for (const ThicknessLoss& l : s.bays) {
    CHECK(l.top == Approx(l.bottom));
    CHECK(l.loss == Approx(l.top + l.bottom));
    CHECK(l.chord_fraction == Approx(0.5).margin(0.06));
    CHECK(l.thickness == Approx(2 * 0.35 * 0.03).epsilon(0.02));
    CHECK(l.share() == Approx(l.loss / l.thickness));
  }
}

TEST_CASE("more pull along the chord, more sag; more pull along the span or more ribs, less") {
  const double even = most(after_shrink(arc_panel(3, 0.02), some, some));
  CHECK(most(after_shrink(arc_panel(3, 0.02), some, 1.5 * some)) > 1.1 * even);
  CHECK(most(after_shrink(arc_panel(3, 0.02), 1.5 * some, some)) < 0.9 * even);
  CHECK(most(after_shrink(arc_panel(5, 0.02), some, some)) < 0.7 * even);
  CHECK(most(after_shrink(arc_panel(3, 0.01), some, some)) == Approx(0.5 * even).epsilon(0.15));
}

TEST_CASE("over a hollow in the profile the cloth stands out") {
  Case c = arc_panel(3, 0.02);
  for (ProfilePoint& p : c.profile) {
    const double x = p.chord_fraction;
    p.bottom = 0.03 - 4 * 0.01 * x * (1 - x);
  }
  const Sag s = after_shrink(c, some, some);
  for (const ThicknessLoss& l : s.bays) {
    CHECK(l.top > 0);
    CHECK(l.bottom < 0);
  }
}

TEST_CASE("a spar cap holds the cloth up between the ribs") {
  Case c = arc_panel(3, 0.02);
  const double bare = most(after_shrink(c, some, some));
  SpanMember spar = c.span_members[0];
  spar.name = "spar";
  spar.role = SpanRole::spar;
  spar.chord_fraction = 0.5;
  spar.touches_cloth = true;
  c.span_members.insert(c.span_members.begin() + 1, spar);
  Job j(c, 300);
  Covering state = j.ironing.begin();
  for (auto& shrink : state.shrink) shrink = {some, some};
  REQUIRE(j.ironing.settle(state, "settled").outcome == Outcome::settled);
  const Sag s = read_sag(j.model, state);
  for (std::size_t n = 0; n < s.inward.size(); ++n)
    if (j.panel().nodes[n].tie == Tie::bearing) CHECK(std::abs(s.inward[n]) < 1e-5);
  CHECK(most(s) < 0.5 * bare);
}

TEST_CASE("cloth on the metal nose does not count as thickness lost") {
  Case c = sample::aileron(3, 0.9);
  sample::make_rigid(c);
  c.cloth.looseness = {0, 0};
  Job j(c, 400);
  Covering state = j.ironing.begin();
  for (auto& shrink : state.shrink) shrink = {some, some};
  REQUIRE(j.ironing.settle(state, "settled").outcome == Outcome::settled);
  const Sag s = read_sag(j.model, state);
  for (std::size_t n = 0; n < s.inward.size(); ++n)
    if (j.panel().nodes[n].on_nose) CHECK(std::abs(s.inward[n]) < 0.1e-3);
  for (const ThicknessLoss& l : s.bays) CHECK(l.chord_fraction > 0.25);
}

TEST_CASE("a panel that moves as a whole, or whose ribs move, does not sag") {
  Job j(arc_panel(3, 0.02), 300);
  const Panel& p = j.panel();
  Chance chance(82);
  Covering s = laid_on(j.model);
  // Every rib moves and turns by itself; the cloth between follows the straight lines from rib line to rib line.
  std::vector<Eigen::Vector3d> move, turn;
  for (int b = 0; b <= p.bays; ++b) move.push_back(chance.vector<3>(1e-3)), turn.push_back(chance.vector<3>(1e-3));
  const auto rigid = [&](int b, const Eigen::Vector3d& at) -> Eigen::Vector3d { return move[b] + turn[b].cross(at); };
  for (std::size_t i = 0; i < p.members.size(); ++i) {
    const FrameMember& m = p.members[i];
    if (m.role != MemberRole::end_rib && m.role != MemberRole::inner_rib) continue;
    const int rib = static_cast<int>(i) - 2;  // the two span members come first
    for (int joint : m.joints) {
      s.unknowns.segment<3>(6 * joint) = rigid(rib, p.joints[joint].position);
      s.unknowns.segment<3>(6 * joint + 3) = turn[rib];
    }
  }
  for (std::size_t n = 0; n < p.nodes.size(); ++n) {
    const ClothNode& node = p.nodes[n];
    if (node.tie != Tie::none) continue;
    int b = 0;
    while (p.rib_columns[b + 1] <= node.column) ++b;
    const double t = (node.column - p.rib_columns[b]) / static_cast<double>(p.rib_columns[b + 1] - p.rib_columns[b]);
    const auto at = [&](int column) -> Eigen::Vector3d { return p.nodes[p.node(node.side, node.row, column)].placed; };
    const Eigen::Vector3d u = (1 - t) * rigid(b, at(p.rib_columns[b])) + t * rigid(b + 1, at(p.rib_columns[b + 1]));
    for (int k = 0; k < 3; ++k) s.unknowns[j.model.unknowns.nodes[n].index[k]] = u[k];
  }
  const Sag read = read_sag(j.model, s);
  double worst = 0;
  for (std::size_t n = 0; n < p.nodes.size(); ++n)
    if (p.nodes[n].tie == Tie::none) worst = std::max(worst, std::abs(read.inward[n]));
  CHECK(worst < 1e-12);
}

TEST_CASE("cloth that shifts along a curved profile reads as next to no sag") {
  Job j(arc_panel(3, 0.02), 300);
  const Panel& p = j.panel();
  Covering s = laid_on(j.model);
  constexpr double shift = 1.5e-3;
  for (std::size_t n = 0; n < p.nodes.size(); ++n)
    if (p.nodes[n].tie == Tie::none)
      for (int k = 0; k < 3; ++k) s.unknowns[j.model.unknowns.nodes[n].index[k]] = shift * p.nodes[n].along_chord[k];
  // Along the tangent of an arc of radius r one leaves it by shift^2 / 2r; here 1/r is at most 8 * 0.02 / 0.35 m.
  const double leaves = shift * shift / 2 * 8 * 0.02 / 0.35;
  for (double d : read_sag(j.model, s).inward) CHECK(std::abs(d) < 3 * leaves);
}
