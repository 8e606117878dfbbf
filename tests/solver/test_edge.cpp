// The trailing edge: glued it holds, wrapped it slides at the capstan limit (docs/model.md, section 6).
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <numeric>

using namespace evenpull;
using namespace evenpull::check;

namespace {

std::vector<int> top_zones(const Panel& p) {
  std::vector<int> order(static_cast<std::size_t>(p.bays * p.strips));
  std::iota(order.begin(), order.end(), 0);
  return order;
}

// Pull difference over its limit at each wrapped station.
std::vector<double> share_of_limit(const Model& m, const Covering& s) {
  std::vector<double> out;
  const Blanket& b = m.the_case.blanket;
  for (const SlidingPoint& p : m.unknowns.sliding) {
    if (p.kind != SlidingPoint::Kind::wrapped) continue;
    const double top = s.nodal_force[p.top_node].dot(m.panel.nodes[p.top_node].along_chord);
    const double bottom = s.nodal_force[p.bottom_node].dot(m.panel.nodes[p.bottom_node].along_chord);
    out.push_back(std::abs(top - bottom) / (std::tanh(0.5 * b.edge_friction * b.wrap_angle) * (top + bottom)));
  }
  return out;
}

}  // namespace

TEST_CASE("a glued edge does not slip, however one-sided the work") {
  for (bool sheets : {false, true}) {
    Case c = one_zone_a_bay(sample::aileron(3, 0.9));
    c.blanket.edge_glued = !sheets;
    if (sheets) c.blanket.kind = BlanketKind::two_sheets;
    Job j(c, 150);
    Covering s = j.ironing.begin();
    REQUIRE(work(j, s, top_zones(j.panel()), 250, 1));
    CHECK(j.read(s).slip.value == 0);
    const Readings r = j.read(s);
    CHECK(side_mean(j.panel(), r.zones.chord, Side::top) > 100);
    CHECK(side_mean(j.panel(), r.zones.chord, Side::bottom) < 20);
  }
}

TEST_CASE("round a wrapped edge the capstan limit holds at every station and is reached") {
  for (double friction : {0.25, 0.5}) {
    Case c = one_zone_a_bay(sample::aileron(3, 0.9));
    c.blanket.edge_friction = friction;
    Job j(c, 150);
    Covering s = j.ironing.begin();
    for (int z : top_zones(j.panel())) {
      REQUIRE(work(j, s, {z}, 250, 1));
      double most = 0;
      for (double share : share_of_limit(j.model, s)) {
        CHECK(share <= 1 + 0.02);  // friction_tolerance is of the limit plus 1 N; pulls here are tens of newtons
        most = std::max(most, share);
      }
      CHECK(most > 0.98);
    }
    // The bottom is pulled over to the top: cloth has gone from the bottom to the top.
    CHECK(j.read(s).slip.value > 5e-4);
  }
}

TEST_CASE("the slip that is read is where the edge nodes have moved along the cloth") {
  Job j(one_zone_a_bay(sample::aileron(3, 0.9)), 150);
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, top_zones(j.panel()), 250, 1));
  for (const SlidingPoint& p : j.model.unknowns.sliding) {
    if (p.kind != SlidingPoint::Kind::wrapped) continue;
    const Eigen::Vector3d top = displacement(j.model.unknowns.nodes[p.top_node], s.unknowns);
    const Eigen::Vector3d bottom = displacement(j.model.unknowns.nodes[p.bottom_node], s.unknowns);
    const ClothNode &a = j.panel().nodes[p.top_node], &b = j.panel().nodes[p.bottom_node];
    // Both ends of the cut move by q, one towards the LE, one away; the edge itself turns a little.
    CHECK(0.5 * (bottom.dot(b.along_chord) - top.dot(a.along_chord)) ==
          Approx(s.unknowns[p.first_unknown]).margin(1e-4));
  }
}

TEST_CASE("more friction, less slip") {
  double last = 1;
  for (double friction : {0.0, 0.15, 0.4}) {
    Case c = one_zone_a_bay(sample::aileron(3, 0.9));
    c.blanket.edge_friction = friction;
    Job j(c, 150);
    Covering s = j.ironing.begin();
    REQUIRE(work(j, s, top_zones(j.panel()), 250, 1));
    CHECK(j.read(s).slip.value < last);
    last = j.read(s).slip.value;
  }
}
