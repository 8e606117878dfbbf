// Bows of edges, end ribs and the line of the hinges, of states made by hand (docs/model.md, section 7).
#include "solver/readings/bows.hpp"
#include "tests/solver/small_job.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// Sideways [m] of the joints of a member by their place along it; the rest of the panel stays.
template <class Off>
Covering bent(const Job& j, const std::vector<int>& joints, const Off& off) {
  Covering s = laid_on(j.model);
  for (int k : joints) s.unknowns[6 * k] = off(j.panel().joints[k].position.y());
  return s;
}

}  // namespace

TEST_CASE("the bow allowed of a piece is a share of its length, or what is no matter however short it is") {
  Limits l;
  l.bow_per_spacing = 0.005, l.least_bow = 1.5e-3;
  CHECK(allowed_bow(l, 0.1) == Approx(0.015));  // 1.5 mm of 100
  CHECK(allowed_bow(l, 0.3) == Approx(0.005));
  CHECK(allowed_bow(l, 1.0) == Approx(0.005));
  l.least_bow = 0;
  CHECK(allowed_bow(l, 0.1) == Approx(0.005));
}

TEST_CASE("the worst bay of a trailing edge is that of the largest use, not of the largest share") {
  Case c = sample::aileron(3, 0.9);
  c.ribs[1].station = 0.1;  // bays of 100, 500 and 300 mm
  c.limits.bow_per_spacing = 0.005, c.limits.least_bow = 1.5e-3;
  const Job j(c, 300);
  const Panel& p = j.panel();
  Covering s = laid_on(j.model);
  const auto pull_in = [&](int bay, double by) {
    const int mid = (p.rib_columns[bay] + p.rib_columns[bay + 1]) / 2;
    REQUIRE(mid > p.rib_columns[bay]);
    s.unknowns[6 * p.edge_joint[mid]] = -by;
  };
  pull_in(0, 1e-3), pull_in(1, 2e-3);  // 1/100 of 100 mm, allowed 1.5 mm; 1/250 of 500 mm, allowed 2.5 mm
  const Readings r = j.read(s);
  CHECK(r.edge_bow.bay == 1);
  CHECK(r.edge_bow.value == Approx(2e-3 / 0.5));
  CHECK(r.edge_bow.use() == Approx(0.8));
  CHECK(r.edge_bow_uses[0] == Approx(1e-3 / 1.5e-3));
  CHECK(r.edge_bows[0] == Approx(0.01));
}

TEST_CASE(
    "the line of the hinges is read between the outermost of them, in metres, whatever the panel does as a whole") {
  Case c = sample::aileron(3, 0.9);
  c.in_use[0].station = 0.3;  // hinges at 0.3 and 0.9 m on the nose
  const Job j(c, 300);
  const std::vector<int>& nose = j.panel().members[0].joints;
  const double rise = 2e-3;
  const auto parabola = [&](double y) {
    const double t = (y - 0.3) / 0.6;
    return 4 * rise * t * (1 - t);
  };
  const Readings r = j.read(bent(j, nose, [&](double y) { return y < 0.3 ? -0.01 * (0.3 - y) : parabola(y); }));
  CHECK(r.hinge_line_bow.member == 0);
  double most = 0;
  for (int k : nose) most = std::max(most, parabola(j.panel().joints[k].position.y()));
  REQUIRE(most > 0.8 * rise);
  CHECK(r.hinge_line_bow.value == Approx(most));
  CHECK(r.hinge_line_bow.use() == 0);  // no limit was asked for
  // A panel that turns as a whole stays straight.
  CHECK(j.read(bent(j, nose, [](double y) { return 0.003 * y; })).hinge_line_bow.value < 1e-12);
}

TEST_CASE("a member that is said to carry the hinges is read, and one that carries none is not") {
  Case c = sample::aileron(3, 0.9);
  c.limits.hinge_line_bow = 1e-3;
  for (Support& s : c.in_use)
    if (s.kind == SupportKind::sliding_hinge || s.kind == SupportKind::hinge) s.kind = SupportKind::clamp;
  CHECK(hinge_line_member(c) == -1);
  const Job none(c, 150);
  CHECK(none.read(laid_on(none.model)).hinge_line_bow.member == -1);
  c.span_members[1].hinge_line = true;
  const Job said(c, 150);
  const Panel& p = said.panel();
  const Covering s = bent(said, p.edge_joint, [](double y) { return 1e-3 * (y > 0.5 ? 1 : 0); });
  const Readings r = said.read(s);
  CHECK(r.hinge_line_bow.member == 1);
  CHECK(r.hinge_line_bow.value > 0.3e-3);
  CHECK(r.hinge_line_bow.use() == Approx(r.hinge_line_bow.value / 1e-3));
}

TEST_CASE("an edge that is straight in every bay and bent at a rib is bowed as a whole") {
  Case c = sample::aileron(2, 0.8);
  c.limits.whole_edge_bow = 0.005;
  const Job j(c, 150);
  const Readings r =
      j.read(bent(j, j.panel().edge_joint, [](double y) { return 3e-3 * (1 - std::abs(y - 0.4) / 0.4); }));
  CHECK(r.edge_bow.value < 1e-12);
  CHECK(r.whole_edge_bow.value == Approx(3e-3 / 0.8));
  CHECK(r.whole_edge_bow.use() == Approx(0.75));
}

TEST_CASE("wood uses up its limits of bow by what it gives in time, and reads what it gives at once") {
  Case c = sample::aileron(3, 0.9);
  c.limits.whole_edge_bow = 0.01;
  const Job at_once(c, 150);
  Material creeping = c.materials[0];
  creeping.lasting_movement = 2;
  c.materials.push_back(creeping);
  c.span_members[1].make.material = static_cast<int>(c.materials.size()) - 1;
  const Job in_time(c, 150);
  const auto off = [](double y) { return 1e-3 * std::sin(7 * y); };
  const Readings a = at_once.read(bent(at_once, at_once.panel().edge_joint, off)),
                 b = in_time.read(bent(in_time, in_time.panel().edge_joint, off));
  CHECK(b.edge_bow.value == a.edge_bow.value);
  CHECK(b.edge_bow.use() == Approx(2 * a.edge_bow.use()));
  CHECK(b.whole_edge_bow.use() == Approx(2 * a.whole_edge_bow.use()));
  CHECK(b.end_rib_bow.use() == a.end_rib_bow.use());
  CHECK(b.stress_use.value == a.stress_use.value);
}
