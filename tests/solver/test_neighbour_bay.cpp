// A wing that goes on beyond its last rib (docs/model.md, section 5): half of a panel, mirrored, must read as the whole of
// it does when both halves are ironed in step.
#include "solver/equilibrium/mechanism.hpp"
#include "solver/equilibrium/neighbour_bay.hpp"
#include "solver/statement/errors.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double bay = 0.30, chord = 0.50;

// Two spars and a trailing edge, all of invented tube; held at one place of the front spar, so that nothing but itself
// takes the pull of its cloth.
Case wing(int bays, double held_at) {
  Case c = one_zone_a_bay(sample::light_rudder(bays));
  c.outline.leading_edge = {{0, 0}, {0, bay * bays}};
  c.outline.trailing_edge = {{chord, 0}, {chord, bay * bays}};
  for (int i = 0; i <= bays; ++i) c.ribs[static_cast<std::size_t>(i)].station = bay * i;
  SpanMember spar = c.span_members[0];
  spar.name = "rear spar";
  spar.role = SpanRole::spar;
  spar.chord_fraction = 0.6;
  c.span_members.insert(c.span_members.begin() + 1, spar);
  Support clamp;
  clamp.hold = {true, true, true, true, true, true};
  clamp.station = held_at;
  c.while_ironed = c.in_use = {clamp};
  return c;
}

// Held along the front spar against all but what the mirrors decide.
Case held_along(int bays) {
  Case c = wing(bays, 0);
  c.while_ironed[0].hold = {true, false, true, false, true, false};
  c.while_ironed[0].whole_length = true;
  c.in_use = c.while_ironed;
  return c;
}

// Nodes that give the whole the lines of the half, twice.
int nodes_of_whole(const Case& whole, const Panel& half) {
  for (int nodes = 250; nodes < 800; ++nodes) {
    const Panel p = build_panel(whole, coarse(nodes));
    if (p.rows == half.rows && p.columns == 2 * half.columns - 1) return nodes;
  }
  FAIL("no mesh of the whole holds that of the half twice");
  return 0;
}

void iron_at_once(Job& j, Covering& s, const std::vector<int>& zones) {
  const PassHeat heat = held_pass(j.model, true_temperature(250), 1);
  std::vector<HotZone> hot;
  for (int z : zones) hot.push_back({z, &heat});
  REQUIRE(j.ironing.iron(s, hot, "zones in step").outcome == Outcome::settled);
}

int member_called(const Panel& p, const std::string& name) {
  for (std::size_t i = 0; i < p.members.size(); ++i)
    if (p.members[i].name == name) return static_cast<int>(i);
  FAIL("no member " << name);
  return -1;
}

void same_stress(const Job& whole, const Readings& w, const std::string& of_whole, const Job& half, const Readings& h,
                 const std::string& of_half) {
  const FrameMember& a = whole.panel().members[member_called(whole.panel(), of_whole)];
  const FrameMember& b = half.panel().members[member_called(half.panel(), of_half)];
  REQUIRE(a.beams.size() == b.beams.size());
  double most = 0;
  for (int beam : a.beams) most = std::max(most, w.beam_use[beam]);
  for (std::size_t k = 0; k < a.beams.size(); ++k)
    CHECK(h.beam_use[b.beams[k]] == Approx(w.beam_use[a.beams[k]]).margin(1e-3 * most));
}

}  // namespace

TEST_CASE("half of a wing reads as the whole of it, ironed in step") {
  for (const RibTie tie : {RibTie::glued, RibTie::bearing}) {
    Case whole = wing(4, 2 * bay), half = wing(2, 0);
    half.cloth_goes_on_inboard = true;
    whole.blanket.inner_ribs = half.blanket.inner_ribs = tie;
    Job h(half, 200, tight());
    Job w(whole, nodes_of_whole(whole, h.panel()), tight());
    Covering ws = w.ironing.begin(), hs = h.ironing.begin();
    for (Side side : {Side::top, Side::bottom})
      for (int b : {0, 1}) {
        iron_at_once(h, hs, {h.panel().zone(side, b, 0)});
        iron_at_once(w, ws, {w.panel().zone(side, 2 + b, 0), w.panel().zone(side, 1 - b, 0)});
        const Readings rw = w.read(ws), rh = h.read(hs);
        for (Side s : {Side::top, Side::bottom})
          for (int k : {0, 1}) {
            const int zw = w.panel().zone(s, 2 + k, 0), zh = h.panel().zone(s, k, 0);
            CHECK(rh.zones.chord[zh] == Approx(rw.zones.chord[zw]).epsilon(1e-4).margin(0.02));
            CHECK(rh.zones.span[zh] == Approx(rw.zones.span[zw]).epsilon(1e-4).margin(0.02));
          }
        same_stress(w, rw, "rib 3", h, rh, "rib 1");  // the one in the mirror, stated half, bears as the whole one
        same_stress(w, rw, "rib 4", h, rh, "rib 2");
        same_stress(w, rw, "end rib 5", h, rh, "end rib 3");
        CHECK(rh.end_rib_bow.value == Approx(rw.end_rib_bow.value).epsilon(1e-4));
        CHECK(rh.edge_bow.value == Approx(rw.edge_bow.value).epsilon(1e-4));
        CHECK(rh.slip.value == Approx(rw.slip.value).epsilon(1e-3).margin(1e-7));
      }
    // Of the whole all shapes are tried, of the half those that are their own mirror image.
    CHECK(w.ironing.buckling(ws).factor <= h.ironing.buckling(hs).factor * (1 + 1e-6));
  }
}

TEST_CASE("two bays between two mirrors read as four that are ironed in step") {
  // Clamped where a mirror stands: the two are then half of the four.
  Case two = wing(2, 0), four = wing(4, 2 * bay);
  for (Case* c : {&two, &four}) c->cloth_goes_on_inboard = c->cloth_goes_on_outboard = true;
  Job t(two, 200, tight());
  Job f(four, nodes_of_whole(four, t.panel()), tight());
  Covering ts = t.ironing.begin(), fs = f.ironing.begin();
  for (Side side : {Side::top, Side::bottom})
    for (int b : {0, 1}) {
      iron_at_once(t, ts, {t.panel().zone(side, b, 0)});
      iron_at_once(f, fs, {f.panel().zone(side, 1 - b, 0), f.panel().zone(side, 2 + b, 0)});
    }
  const Readings rt = t.read(ts), rf = f.read(fs);
  for (Side s : {Side::top, Side::bottom})
    for (int k : {0, 1}) {
      const int zt = t.panel().zone(s, k, 0), zf = f.panel().zone(s, 2 + k, 0);
      CHECK(rt.zones.chord[zt] == Approx(rf.zones.chord[zf]).epsilon(1e-4));
      CHECK(rt.zones.span[zt] == Approx(rf.zones.span[zf]).epsilon(1e-4));
    }
  same_stress(f, rf, "rib 3", t, rt, "rib 1");
  same_stress(f, rf, "rib 4", t, rt, "rib 2");
  same_stress(f, rf, "rib 5", t, rt, "rib 3");
  CHECK(rt.stress_use.value == Approx(rf.stress_use.value).epsilon(1e-3));
  CHECK(rt.end_rib_bow.member == -1);  // there is no end rib
}

TEST_CASE("between two mirrors the members along the span bear all that the cloth pulls") {
  Case c = held_along(2);
  c.cloth_goes_on_inboard = c.cloth_goes_on_outboard = true;
  Job j(c, 300, tight());
  Covering s = j.ironing.begin();
  for (Side side : {Side::top, Side::bottom})
    iron_at_once(j, s, {j.panel().zone(side, 0, 0), j.panel().zone(side, 1, 0)});
  // Across the first column of quads: the forces along the span of cloth nodes and members on one side of it.
  const Panel& p = j.panel();
  double cloth = 0, members = 0;
  for (Side side : {Side::top, Side::bottom})
    for (int i = 0; i < p.rows; ++i) cloth += s.nodal_force[static_cast<std::size_t>(p.node(side, i, 0))].y();
  for (std::size_t m = 0; m < c.span_members.size(); ++m) members += s.axial[p.members[m].beams.front()];
  CHECK(-cloth > 200);  // N
  CHECK(members == Approx(cloth).epsilon(1e-4));
}

TEST_CASE("a rib beyond which the wing goes on bears far less than an end rib") {
  Case ends = held_along(3);
  Support at_tip = ends.while_ironed[0];
  at_tip.whole_length = false;
  at_tip.hold = {false, true, false, true, false, true};
  ends.while_ironed.push_back(at_tip);
  ends.in_use = ends.while_ironed;
  Case goes_on = held_along(3);
  goes_on.cloth_goes_on_inboard = goes_on.cloth_goes_on_outboard = true;
  Job e(ends, 200), g(goes_on, 200);
  Covering es = e.ironing.begin(), gs = g.ironing.begin();
  REQUIRE(work(e, es, alternating(e.panel()), 250, 1));
  REQUIRE(work(g, gs, alternating(g.panel()), 250, 1));
  const auto use = [](const Job& j, const Readings& r, const std::string& name) {
    double most = 0;
    for (int b : j.panel().members[member_called(j.panel(), name)].beams) most = std::max(most, r.beam_use[b]);
    return most;
  };
  const double end = use(e, e.read(es), "end rib 1"), inner = use(g, g.read(gs), "rib 1");
  INFO("end rib " << end << ", rib in the mirror " << inner);
  CHECK(inner < 0.5 * end);
}

TEST_CASE("the mirror holds of the wing only what its supports leave free") {
  Case c = held_along(2);
  c.cloth_goes_on_inboard = true;
  check_stands(c);
  const Model free(c, coarse(100));
  c.while_ironed[0].whole_length = false;
  c.while_ironed[0].hold = {true, true, true, true, true, true};
  c.in_use = c.while_ironed;
  const Model clamped(c, coarse(100));
  const auto joints_held = [](const Model& m) {
    int n = 0;
    for (int i : m.held[0]) n += i < 6 * static_cast<int>(m.panel.joints.size());
    return n;
  };
  CHECK(joints_held(clamped) == 6);
  // Free along the span and in the plane; held at two places in z, which settles the turn about the chord.
  CHECK(joints_held(free) == 3 * free.panel.columns + 1);
}
