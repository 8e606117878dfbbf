// Schedules of fastening the cloth to ribs, and hollow ribs: closed forms, and what a schedule may not change.
#include "sequencer/orders/families.hpp"
#include "sequencer/replay/replay.hpp"
#include "shop/attach_study.hpp"
#include "solver/equilibrium/attaching.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr double depth = 0.01;  // of the hollow, as a share of the chord

// Invented: flat above, a parabola below that is `depth` of the chord hollow amid it.
Case hollow_below() {
  Case c = one_zone_a_bay(sample::light_rudder(3));
  c.blanket.seam_chord_fraction = c.blanket.nose_chord_fraction = 0;
  c.profile.clear();
  constexpr int points = 40;
  for (int i = 0; i <= points; ++i) {
    const double x = static_cast<double>(i) / points;
    c.profile.push_back({x, 0.02, 0.03 - 4 * depth * x * (1 - x)});
  }
  return c;
}

double chord_of(const Case& c) { return c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x; }

Case two_stages() {
  Case c = one_zone_a_bay(sample::aileron(3, 0.9));
  c.stages.clear();
  for (const double t : {250.0, 300.0}) c.stages.push_back({true_temperature(t), {1}, {}, false});
  return c;
}

std::vector<StageVerdict> worked(const Case& c) {
  const Model m(c, coarse(150));
  return replay(m, steps_of(c, m.panel, order_families(m.panel).front()), {}).stages;
}

double use_of(const StageVerdict& v, Limit limit) {
  for (const LimitReading& l : v.limits)
    if (l.limit == limit) return l.use;
  return 0;
}

}  // namespace

TEST_CASE("tight cloth stands off a parabola by its depth, from bearing point to bearing point", "[attach]") {
  const Case c = hollow_below();
  const std::vector<Hollow> all = hollows_of(c);
  REQUIRE(all.size() == 2);  // both inner ribs, below alone
  for (const Hollow& h : all) {
    CHECK(h.side == Side::bottom);
    CHECK(h.lift == Approx(depth * chord_of(c)).epsilon(1e-3));
    CHECK(h.length == Approx(chord_of(c)).epsilon(1e-6));
    CHECK(h.width == Approx(0.6));  // half of two bays of 600 mm
  }
}

TEST_CASE("what holds cloth down on a parabola balances its pull at both ends", "[attach]") {
  // Derived here: the cable leaves its ends at the slope 4 h/L, so that both pull off 2 N sin of it.
  for (const Hollow& h : hollows_of(hollow_below())) {
    constexpr double pull = 600;  // N/m
    const double ends = 2 * pull * std::sin(std::atan(4 * h.lift / h.length)) * h.width;
    CHECK(line_load(h, pull) * h.length == Approx(ends).epsilon(1e-3));  // shallow: tan for sin
    // The length of the parabola, by its integral in closed form.
    const double u = 4 * h.lift / h.length;
    const double arc = 0.5 * h.length * (std::sqrt(1 + u * u) + std::asinh(u) / u);
    CHECK(pull_added(h, 1) == Approx(arc / h.length - 1).epsilon(2e-3));
  }
}

TEST_CASE("the closed form asks no less of a hollow rib than the solver does", "[attach]") {
  Case c = hollow_below();
  sample::make_rigid(c);
  Job j(c, 400);
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, one_side_first(j.panel()), 300, 1));
  const ZonePulls pulls = j.read(s).zones;
  for (const Hollow& h : hollows_of(c)) {
    double held = 0;  // N, by all points of the rib below
    for (const SlidingPoint& p : j.model.unknowns.sliding) {
      const ClothNode& n = j.panel().nodes[p.top_node];
      if (p.kind == SlidingPoint::Kind::bearing && n.side == h.side && p.column == j.panel().rib_columns[h.rib])
        held -= s.nodal_force[p.top_node].dot(n.normal);
    }
    const double pull =
        0.5 * (bay_mean(j.panel(), pulls.chord, h.side, h.rib - 1) + bay_mean(j.panel(), pulls.chord, h.side, h.rib));
    const double most = line_load(h, pull) * h.length;
    CHECK(held > 0.2 * most);   // it is of that size: a third,
    CHECK(held < 1.05 * most);  // and not more but for what the pull along the rib differs from its mean
  }
}

TEST_CASE("straight and round profiles are not hollow", "[attach]") { CHECK(hollows_of(two_stages()).empty()); }

TEST_CASE("a schedule that fastens after the last stage answers as none, byte for byte", "[attach]") {
  Case late = two_stages();
  late.attachments = {{AttachHow::glued, {1, 2}, late.stages.back().temperature, 0}};
  const std::vector<StageVerdict> with = worked(late), without = worked(two_stages());
  REQUIRE(with.size() == without.size());
  for (std::size_t i = 0; i < with.size(); ++i) {
    CHECK(with[i].zone_pull == without[i].zone_pull);
    CHECK(with[i].column_slip == without[i].column_slip);
  }
}

TEST_CASE("a schedule between stages leaves the stage before it as it was and changes the one after", "[attach]") {
  Case between = two_stages();
  between.attachments = {{AttachHow::glued, {1, 2}, between.stages.front().temperature, 0}};
  const std::vector<StageVerdict> with = worked(between), without = worked(two_stages());
  REQUIRE(with.size() == 2);
  CHECK(with[0].zone_pull == without[0].zone_pull);
  CHECK(with[1].zone_pull != without[1].zone_pull);
  CHECK(use_of(with[0], Limit::stress) == use_of(without[0], Limit::stress));
}

TEST_CASE("ribs glued before ironing are judged as inner ribs that were glued all along", "[attach]") {
  Case now = two_stages(), old = two_stages();
  now.attachments = {{AttachHow::glued, {1, 2}, 0, 0}};
  old.blanket.inner_ribs = RibTie::glued;
  const std::vector<StageVerdict> a = worked(now), b = worked(old);
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i)
    for (std::size_t z = 0; z < a[i].zone_pull.size(); ++z)
      CHECK(a[i].zone_pull[z] == Approx(b[i].zone_pull[z]).epsilon(0.01).margin(1));  // N/m; the solver's own tolerance
}

TEST_CASE("what the case states is compared once, and marked", "[attach]") {
  const auto stated = [](const Case& c) {
    const std::vector<AttachChoice> all = attach_choices(c);
    CHECK(std::count_if(all.begin(), all.end(), [](const AttachChoice& a) { return a.stated; }) == 1);
    return std::find_if(all.begin(), all.end(), [](const AttachChoice& a) { return a.stated; })->kind;
  };
  Case c = two_stages();
  CHECK(stated(c) == AttachChoice::Kind::never);
  CHECK(attach_choices(c).size() == 3);
  c.attachments = {{AttachHow::laced, {1, 2}, c.stages[0].temperature, usual_spacing}};
  CHECK(stated(c) == AttachChoice::Kind::after_stage);
  c.attachments = {{AttachHow::laced, {1}, c.stages[0].temperature, usual_spacing}};
  CHECK(stated(c) == AttachChoice::Kind::stated);
  CHECK(attach_choices(c).size() == 4);
  c.attachments = {{AttachHow::laced, {1, 2}, never, usual_spacing}};
  CHECK(stated(c) == AttachChoice::Kind::never);
  c.attachments.clear();
  c.blanket.inner_ribs = RibTie::glued;
  CHECK(stated(c) == AttachChoice::Kind::before_ironing);
}

TEST_CASE("a panel of one bay has no rib to fasten", "[attach]") {
  CHECK(attach_choices(one_zone_a_bay(sample::aileron(1, 0.5))).empty());
}
