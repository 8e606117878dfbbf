// Where cloth is cut out, and ribs below it (docs/model.md, section 1): what is there, what holds it, and that the answer
// is that of a panel whose mesh was made with the hole by hand. Shapes invented.
#include "solver/equilibrium/mechanism.hpp"
#include "solver/geometry/cut_outs.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>
#include <tuple>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double pocket_depth = 0.08;

MemberMake tube() { return sample::light_rudder().span_members[1].make; }

Pocket pocket_between(const Case& c, int from_rib, int to_rib, double depth = pocket_depth) {
  Pocket p;
  p.name = "tab pocket";
  p.from = c.ribs[static_cast<std::size_t>(from_rib)].station;
  p.to = c.ribs[static_cast<std::size_t>(to_rib)].station;
  p.depth = depth;
  p.make = tube();
  return p;
}

Case with_pocket(int bays, int from_rib, int to_rib) {
  Case c = sample::light_rudder(bays);
  c.pockets = {pocket_between(c, from_rib, to_rib)};
  return c;
}

Case flat(Case c) {
  c.profile = {{0, 0, 0}, {1, 0, 0}};
  c.blanket.seam_chord_fraction = 0;
  c.span_members[0].chord_fraction = 0;
  return c;
}

double area_of(const Panel& p, Side side) {
  double a = 0;
  for (const Quad& q : p.quads) a += q.side == side ? q.area : 0;
  return a;
}

const FrameMember& rib_of(const Panel& p, const Case& c, int rib) {
  for (const FrameMember& m : p.members) {
    const bool across = m.role == MemberRole::end_rib || m.role == MemberRole::inner_rib;
    if (across &&
        std::abs(p.joints[m.joints.front()].position.y() - c.ribs[static_cast<std::size_t>(rib)].station) < 1e-9)
      return m;
  }
  FAIL("no such rib");
  return p.members.front();
}

using Place = std::tuple<int, int, int>;
std::set<Place> places(const Panel& p, int parts = 1) {
  std::set<Place> out;
  for (const Zone& z : p.zones) out.insert({static_cast<int>(z.side), z.bay, z.strip / parts});
  return out;
}

// A hinge gap inside the second bay and one from rib to rib.
Case with_gaps() {
  Case c = sample::aileron(4, 1.2);
  c.hinge_gaps = {{0.38, 0.46, 0.04}, {0.9, 1.2, 0.03}};
  return c;
}

// Every cloth node is free and has cloth, or is tied, or is absent and then has neither cloth nor unknowns.
void check_held(const Panel& p) {
  std::set<int> clothed;
  for (const Quad& q : p.quads) clothed.insert(q.nodes.begin(), q.nodes.end());
  const Unknowns u = number_unknowns(p);
  for (std::size_t i = 0; i < p.nodes.size(); ++i) {
    CHECK(p.nodes[i].absent == (clothed.count(static_cast<int>(i)) == 0));
    CHECK((u.nodes[i].count == 0) == p.nodes[i].absent);
    if (p.nodes[i].tie != Tie::none) CHECK(p.nodes[i].joint >= 0);
  }
}

}  // namespace

TEST_CASE("a pocket takes its width times its depth out of both sides of a flat panel, on every mesh") {
  const Case whole = flat(sample::light_rudder(5));
  Case cut = whole;
  cut.pockets = {pocket_between(cut, 1, 3)};
  const double chord = 0.35, span = 1.8, width = 0.72;
  for (int nodes : {120, 350, 1500}) {
    const Panel p = build_panel(cut, coarse(nodes));
    for (Side side : {Side::top, Side::bottom})
      CHECK(area_of(p, side) == Approx(span * chord - width * pocket_depth).epsilon(1e-9));
    double zones = 0;
    for (const Zone& z : p.zones) zones += z.area;
    CHECK(zones == Approx(2 * (span * chord - width * pocket_depth)).epsilon(1e-9));
    check_held(p);
  }
}

TEST_CASE("a tapered panel's pocket is as deep as stated at its middle and keeps to one share of the chord") {
  Case c = flat(sample::light_rudder(5));
  c.outline.trailing_edge = {{0.4, 0}, {0.3, 1.8}};
  c.pockets = {pocket_between(c, 1, 3)};
  const Panel p = build_panel(c, coarse(350));
  const double chord_at_middle = 0.4 - 0.1 * 0.72 / 1.8;
  CHECK(p.pockets[0].chord_fraction == Approx(1 - pocket_depth / chord_at_middle).epsilon(1e-12));
  for (int j : p.pockets[0].front) {
    const Eigen::Vector3d at = p.joints[j].position;
    CHECK(at.x() == Approx(p.pockets[0].chord_fraction * (0.4 - 0.1 * at.y() / 1.8)).epsilon(1e-12));
  }
}

TEST_CASE("the cloth is glued round a pocket to its front and its side ribs and slides round no edge there") {
  const Panel p = build_panel(with_pocket(5, 1, 3), coarse(600));
  const CutOut& c = p.cut_outs.at(0);
  const PanelPocket& pocket = p.pockets.at(0);
  for (const ClothNode& n : p.nodes) {
    if (n.row < c.first_row || n.column < c.first_column || n.column > c.last_column) continue;
    const bool inside = n.row > c.first_row && n.column > c.first_column && n.column < c.last_column;
    CHECK(n.absent == inside);
    if (inside) continue;
    CHECK(n.tie == Tie::glued);
    CHECK(p.joints[n.joint].position.y() == Approx(n.placed.y()).margin(1e-9));
    if (n.row == c.first_row) CHECK(n.joint == pocket.front[n.column - c.first_column]);
  }
  int wrapped = 0;
  for (const ClothNode& n : p.nodes) wrapped += n.tie == Tie::wrapped ? 1 : 0;
  CHECK(wrapped > 0);
}

TEST_CASE("at a pocket the trailing edge stops, the front carries on, and ribs between its sides end there") {
  const Case c = with_pocket(5, 1, 3);
  const Panel p = build_panel(c, coarse(350));
  const PanelPocket& pocket = p.pockets.at(0);
  for (const FrameMember& m : p.members) {
    if (m.role != MemberRole::trailing_edge) continue;
    for (int j : m.joints) {
      const double y = p.joints[j].position.y();
      CHECK((y <= c.pockets[0].from + 1e-9 || y >= c.pockets[0].to - 1e-9));
    }
    for (int b : m.beams) {
      const double middle = 0.5 * (p.joints[p.beams[b].from].position.y() + p.joints[p.beams[b].to].position.y());
      CHECK((middle < c.pockets[0].from || middle > c.pockets[0].to));
    }
  }
  const FrameMember& front = p.members.at(static_cast<std::size_t>(pocket.member));
  CHECK(front.role == MemberRole::pocket_front);
  CHECK(front.joints == pocket.front);
  CHECK(rib_of(p, c, 2).joints.back() == pocket.front[p.rib_columns[2] - p.rib_columns[1]]);
  for (int side : {0, 1}) {
    const FrameMember& rib = rib_of(p, c, side == 0 ? 1 : 3);
    CHECK(rib.joints.back() == p.edge_joint[p.rib_columns[side == 0 ? 1 : 3]]);
    CHECK(pocket.sides[side].front() == (side == 0 ? pocket.front.front() : pocket.front.back()));
    CHECK(pocket.sides[side].back() == rib.joints.back());
  }
  CHECK(p.edge_of(0).back() == rib_of(p, c, 1).joints.back());
  CHECK(p.edge_of(1).front() == pocket.front.front());
  CHECK(p.edge_of(2).back() == pocket.front.back());
  CHECK_NOTHROW(check_stands(c));
}

TEST_CASE("a pocket open to the inboard end ends the end rib at its front") {
  const Case c = with_pocket(5, 0, 1);
  const Panel p = build_panel(c, coarse(350));
  CHECK(rib_of(p, c, 0).joints.back() == p.pockets[0].front.front());
  CHECK(p.pockets[0].sides[0].size() == 1);
  check_held(p);
  CHECK_NOTHROW(check_stands(c));
}

TEST_CASE("a spar that stands at a pocket's front is its front") {
  Case c = sample::light_rudder(5);
  SpanMember spar{"rear spar", SpanRole::spar, 0.75, tube(), false};
  c.span_members.insert(c.span_members.begin() + 1, spar);
  c.pockets = {pocket_between(c, 1, 3, 0.2501 * 0.35)};
  c.pockets[0].make.reset();
  CHECK(pocket_front(c, c.pockets[0]) == 0.75);
  const Panel p = build_panel(c, coarse(350));
  CHECK(p.members[static_cast<std::size_t>(p.pockets[0].member)].name == "rear spar");
  for (int j : p.pockets[0].front) CHECK(p.joints[j].position.x() == Approx(0.75 * 0.35));
  check_held(p);
}

TEST_CASE("what is cut out leaves the same zones on every mesh, each with cloth, counted without gaps") {
  Case deep = with_pocket(5, 1, 3);  // takes a whole strip of four
  deep.pockets[0].depth = 0.12;
  deep.iron = {0.1, 0.06, 0.0, 6.0, 8.0};
  for (const Case& c : {with_pocket(5, 1, 3), deep, with_gaps()}) {
    const Panel first = build_panel(c, coarse(120));
    for (int nodes : {150, 350, 500, 1000, 2000})
      for (int fineness : {1, 2, 4}) {
        MeshOptions o = coarse(nodes);
        o.fineness = fineness;
        CHECK(places(build_panel(c, o)) == places(first));
      }
    for (int parts : {2, 4}) {
      MeshOptions o = coarse(2000);
      o.zone_parts = parts;
      const Panel split = build_panel(c, o);
      CHECK(places(split, split.strips / first.strips) == places(first));
    }
    int count[2] = {0, 0};
    for (std::size_t z = 0; z < first.zones.size(); ++z) {
      const Zone& zone = first.zones[z];
      CHECK_FALSE(zone.quads.empty());
      CHECK(first.zone(zone.side, zone.bay, zone.strip) == static_cast<int>(z));
      CHECK(zone.label.substr(1) == std::to_string(++count[static_cast<int>(zone.side)]));
      for (int q : zone.quads) CHECK(first.quads[q].zone == static_cast<int>(z));
    }
    CHECK(count[0] == count[1]);
  }
  const Panel p = build_panel(deep, coarse(500));
  CHECK(static_cast<int>(p.zones.size()) < 2 * p.bays * p.strips);
  CHECK(p.zone(Side::top, 1, p.strips - 1) == -1);
}

TEST_CASE("a pocket in the middle of a panel that is the same from both ends leaves it so") {
  const Panel p = build_panel(with_pocket(5, 2, 3), coarse(500));
  for (const ClothNode& n : p.nodes) {
    const ClothNode& m = p.nodes[p.node(n.side, n.row, p.columns - 1 - n.column)];
    CHECK(m.absent == n.absent);
    CHECK(m.tie == n.tie);
    CHECK(m.placed.x() == Approx(n.placed.x()).margin(1e-12));
  }
  for (const Zone& z : p.zones) CHECK(p.zones[p.zone(z.side, p.bays - 1 - z.bay, z.strip)].area == Approx(z.area));
}

TEST_CASE("ironed from either end a panel with a pocket in its middle reads mirrored") {
  Job j(one_zone_a_bay(with_pocket(3, 1, 2)), 150, tight());
  const Panel& p = j.panel();
  std::vector<int> turned;
  const std::vector<int> order = alternating(p);
  for (int z : order) turned.push_back(p.zone(p.zones[z].side, p.bays - 1 - p.zones[z].bay, p.zones[z].strip));
  Covering a = j.ironing.begin(), b = a;
  REQUIRE(work(j, a, order, 250, 1));
  REQUIRE(work(j, b, turned, 250, 1));
  const Readings ra = j.read(a), rb = j.read(b);
  for (int z : order) {
    const int m = p.zone(p.zones[z].side, p.bays - 1 - p.zones[z].bay, p.zones[z].strip);
    CHECK(rb.zones.chord[m] == Approx(ra.zones.chord[z]).epsilon(1e-6));
    CHECK(ra.zones.chord[z] > 10);  // N/m: there is something to mirror
  }
  CHECK(rb.stress_use.value == Approx(ra.stress_use.value).epsilon(1e-6));
  CHECK(rb.edge_bow.value == Approx(ra.edge_bow.value).epsilon(1e-6));
  CHECK(rb.twist == Approx(ra.twist).epsilon(1e-6).margin(1e-9));
}

// The same by hand: from the mesh of a panel that has a spar where the pocket's front is, quads, beams and ties are taken
// away one by one, and what is left without cloth or frame is held.
TEST_CASE("a panel with a pocket answers as one whose mesh was cut by hand") {
  const Case cut = one_zone_a_bay(with_pocket(3, 1, 2));
  Case spar = cut;
  spar.pockets.clear();
  spar.span_members.insert(spar.span_members.begin() + 1,
                           {"front", SpanRole::spar, 1 - pocket_depth / 0.35, tube(), true});
  for (auto* list : {&spar.while_ironed, &spar.in_use})
    for (Support& s : *list) CHECK(s.member == 0);
  Panel p = build_panel(spar, coarse(150));
  const int from = p.rib_columns[1], to = p.rib_columns[2];
  int front = 0;
  while (p.nodes[p.node(Side::top, front, from + 1)].tie != Tie::bearing) ++front;
  const std::vector<int> front_joints = p.members[1].joints;
  const auto out = [&](double y) { return y > spar.ribs[1].station + 1e-9 && y < spar.ribs[2].station - 1e-9; };
  for (ClothNode& n : p.nodes) {
    const bool beside = n.column < from || n.column > to;
    if (n.row == front && beside) {
      const bool rib = n.column == 0 || n.column == p.columns - 1;
      if (!rib) n.tie = Tie::none, n.joint = -1;
      continue;
    }
    if (beside || n.row < front) continue;
    const bool inside = n.row > front && n.column > from && n.column < to;
    n.tie = inside ? Tie::none : Tie::glued;
    n.joint = inside ? -1 : n.row == front ? front_joints[n.column] : n.joint;
    if (!inside) n.offset = n.placed - p.joints[n.joint].position;
  }
  std::vector<Quad> quads;
  std::set<int> clothed;
  for (Zone& z : p.zones) z.quads.clear(), z.area = 0;
  for (const Quad& q : p.quads) {
    if (q.row >= front && q.column >= from && q.column < to) continue;
    p.zones[q.zone].quads.push_back(static_cast<int>(quads.size()));
    p.zones[q.zone].area += q.area;
    clothed.insert(q.nodes.begin(), q.nodes.end());
    quads.push_back(q);
  }
  p.quads = quads;
  std::vector<Beam> beams;
  for (FrameMember& m : p.members) {
    std::vector<int> kept;
    for (int b : m.beams) {
      const double y = 0.5 * (p.joints[p.beams[b].from].position.y() + p.joints[p.beams[b].to].position.y());
      const bool taken = (m.role == MemberRole::trailing_edge && out(y)) || (m.role == MemberRole::spar && !out(y));
      if (taken) continue;
      kept.push_back(static_cast<int>(beams.size()));
      beams.push_back(p.beams[b]);
    }
    m.beams = kept;
    if (m.role == MemberRole::spar) m.joints = {front_joints.begin() + from, front_joints.begin() + to + 1};
  }
  p.beams = beams;
  std::set<int> carried;
  for (const Beam& b : p.beams) carried.insert(b.from), carried.insert(b.to);
  std::array<std::vector<int>, 2> held = {held_unknowns(p, spar.while_ironed), held_unknowns(p, spar.in_use)};
  const Unknowns unknowns = number_unknowns(p);
  for (auto& list : held) {
    for (std::size_t i = 0; i < p.nodes.size(); ++i)  // inside the pocket
      if (clothed.count(static_cast<int>(i)) == 0)
        list.insert(list.end(), unknowns.nodes[i].index.begin(), unknowns.nodes[i].index.begin() + 3);
    for (int j = 0; j < static_cast<int>(p.joints.size()); ++j)
      for (int k = 0; k < 6; ++k)
        if (carried.count(j) == 0) list.push_back(6 * j + k);
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }
  const Model by_hand(spar, p, held), built(cut, coarse(150));
  REQUIRE(by_hand.panel.quads.size() == built.panel.quads.size());
  REQUIRE(by_hand.beams.size() == built.beams.size());
  for (std::size_t q = 0; q < built.panel.quads.size(); ++q)
    CHECK(by_hand.panel.quads[q].nodes == built.panel.quads[q].nodes);
  Ironing a(by_hand, tight()), b(built, tight());
  Covering x = laid_on(by_hand), y = b.begin();
  REQUIRE(a.rebalance(x, "laid on").outcome == Outcome::settled);
  for (int z : alternating(built.panel)) {
    REQUIRE(a.iron(x, z, held_pass(by_hand, true_temperature(250), 1), "by hand").outcome == Outcome::settled);
    REQUIRE(b.iron(y, z, held_pass(built, true_temperature(250), 1), "built").outcome == Outcome::settled);
  }
  CHECK(pull_apart(x, y) < 0.05);  // N/m
  double most = 0;
  for (const Tension& t : y.tension) most = std::max(most, t.pull.norm());
  CHECK(most > 100);
}

TEST_CASE("a rib below the cloth holds none of it, and its zones stay") {
  Case c = sample::light_rudder(4);
  const Panel all = build_panel(c, coarse(400));
  c.ribs[2].touches_cloth = false;
  const Panel p = build_panel(c, coarse(400));
  REQUIRE(p.zones.size() == all.zones.size());
  REQUIRE(p.beams.size() == all.beams.size());
  for (std::size_t i = 0; i < p.nodes.size(); ++i) {
    const ClothNode &n = p.nodes[i], &before = all.nodes[i];
    const bool over = n.column == p.rib_columns[2] && n.row > 0 && n.row < p.rows - 1;
    CHECK(n.tie == (over ? Tie::none : before.tie));
  }
  CHECK(p.carried_from(1) == 1);
  CHECK(p.carried_to(1) == 3);
  CHECK(p.carried_from(2) == 1);
  CHECK(p.carried_to(0) == 1);
}

TEST_CASE("cloth over a low rib sags as cloth of one wide bay does") {
  Case low = one_zone_a_bay(sample::light_rudder(2));
  sample::make_rigid(low);
  low.ribs[1].touches_cloth = false;
  Case touching = low;
  touching.ribs[1].touches_cloth = true;
  const auto sag_at_rib = [](const Case& c) {
    Job j(c, 200);
    Covering s = j.ironing.begin();
    REQUIRE(work(j, s, alternating(j.panel()), 250, 1));
    const Readings r = j.read(s);
    double most = 0;
    for (int i = 1; i + 1 < j.panel().rows; ++i)
      most = std::max(most, std::abs(r.sag.inward[j.panel().node(Side::top, i, j.panel().rib_columns[1])]));
    return most;
  };
  CHECK(sag_at_rib(low) > 1e-3);
  CHECK(sag_at_rib(touching) == 0);
}

TEST_CASE("a hinge gap is cut where it is stated, on every mesh, and the cloth is glued round it to the nose") {
  const Case c = with_gaps();
  for (int nodes : {120, 350, 1000, 2000}) {
    const Panel p = build_panel(c, coarse(nodes));
    check_held(p);
    for (std::size_t k = 0; k < 2; ++k) {
      const CutOut& out = p.cut_outs.at(k);
      const ClothNode &a = p.nodes[p.node(Side::top, out.last_row, out.first_column)],
                      &b = p.nodes[p.node(Side::top, out.last_row, out.last_column)];
      CHECK(a.placed.y() == Approx(c.hinge_gaps[k].from));
      CHECK(b.placed.y() == Approx(c.hinge_gaps[k].to));
      CHECK(a.placed.x() == Approx(c.hinge_gaps[k].depth));
      for (int j = out.first_column; j <= out.last_column; ++j)
        for (int i = 0; i <= out.last_row; ++i) {
          const ClothNode& n = p.nodes[p.node(Side::bottom, i, j)];
          if (!n.absent) CHECK(n.tie == Tie::glued);
        }
    }
  }
}

TEST_CASE("a panel with hinge gaps is ironed to an end and pulls") {
  Job j(one_zone_a_bay(with_gaps()), 200);
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, alternating(j.panel()), 250, 1));
  const Readings r = j.read(s);
  for (double pull : r.zones.chord) CHECK(pull > 10);
}
