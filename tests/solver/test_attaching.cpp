// Cloth that is fastened to ribs in the course of the work (docs/model.md, section 6).
#include "solver/equilibrium/attaching.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

// Invented, as all panels of the tests.
Case three_bays(std::vector<Attachment> schedule) {
  Case c = one_zone_a_bay(sample::aileron(3, 0.9));
  c.attachments = std::move(schedule);
  return c;
}

Attachment glued(double after) { return {AttachHow::glued, {1, 2}, after, 0}; }

Covering after_a_stage(Job& j, const std::vector<int>& order, double fahrenheit) {
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, order, fahrenheit, 1));
  REQUIRE(j.ironing.settle(s, "a stage").outcome == Outcome::settled);
  return s;
}

void check_same(const Readings& a, const Readings& b) {
  constexpr double same = 1e-6;
  for (std::size_t z = 0; z < a.zones.chord.size(); ++z) {
    CHECK(b.zones.chord[z] == Approx(a.zones.chord[z]).epsilon(same));
    CHECK(b.zones.span[z] == Approx(a.zones.span[z]).epsilon(same));
  }
  CHECK(b.stress_use.value == Approx(a.stress_use.value).epsilon(same));
  CHECK(b.twist == Approx(a.twist).epsilon(same));
  CHECK(b.slip.value == Approx(a.slip.value).epsilon(same));
}

}  // namespace

TEST_CASE("ribs glued before ironing give the answer of inner ribs that were glued all along", "[attach]") {
  Case old = three_bays({});
  old.blanket.inner_ribs = RibTie::glued;
  Job now(three_bays({glued(0)}), 150, tight()), before(old, 150, tight());
  const std::vector<int> order = one_side_first(now.panel());
  check_same(now.read(after_a_stage(now, order, 250)), before.read(after_a_stage(before, order, 250)));
}

TEST_CASE("what is fastened after ironing alone changes nothing of it, and neither does a rib that is left",
          "[attach]") {
  Job plain(three_bays({}), 150);
  const std::vector<int> order = one_side_first(plain.panel());
  const Covering without = after_a_stage(plain, order, 250);
  for (const Attachment& a : {glued(never), Attachment{AttachHow::left, {1, 2}}}) {
    Job job(three_bays({a}), 150);
    Covering with = after_a_stage(job, order, 250);
    attach_before(job.model, true_temperature(350), with);
    CHECK(with.attached.empty());
    CHECK(pull_apart(with, without) == 0);
  }
}

TEST_CASE("fastening the cloth moves, strains and stores nothing until the next ironing", "[attach]") {
  for (const AttachHow how : {AttachHow::glued, AttachHow::laced}) {
    const double first = true_temperature(250);
    Job j(three_bays({{how, {1, 2}, first, how == AttachHow::laced ? 0.0635 : 0}}), 150, tight());
    Covering s = after_a_stage(j, one_side_first(j.panel()), 250);
    const StepReport before = j.ironing.rebalance(s, "before");
    Covering fastened = s;
    attach_before(j.model, true_temperature(300), fastened);
    const StepReport after = j.ironing.rebalance(fastened, "fastened");
    CHECK(after.solve.energy == Approx(before.solve.energy).epsilon(1e-9));
    CHECK((fastened.unknowns - s.unknowns).cwiseAbs().maxCoeff() < 1e-8);  // m and rad: rounding of the solve
    CHECK(pull_apart(fastened, s) < 1e-3);                                 // N/m
  }
}

TEST_CASE("fastened cloth does not creep over its rib, and cloth that is not fastened does", "[attach]") {
  const double first = true_temperature(250);
  Job j(three_bays({{AttachHow::glued, {1}, first, 0}}), 150);
  const std::vector<int> order = one_side_first(j.panel());
  Covering s = after_a_stage(j, order, 250);
  const Covering before = s;
  attach_before(j.model, true_temperature(300), s);
  REQUIRE(work(j, s, order, 300, 1));
  double held = 0, free = 0;
  for (const SlidingPoint& p : j.model.unknowns.sliding) {
    if (p.kind != SlidingPoint::Kind::bearing) continue;
    const double moved = slip_between(p, before.unknowns, s.unknowns).norm();
    if (p.column == j.panel().rib_columns[1] && !j.panel().nodes[p.top_node].on_nose) held = std::max(held, moved);
    if (p.column == j.panel().rib_columns[2]) free = std::max(free, moved);
  }
  CHECK(held == 0);
  CHECK(free > 1e-5);  // m
}

TEST_CASE("a schedule seen in the mirror reads in the mirror", "[attach]") {
  const double first = true_temperature(250);
  const auto job = [&](int rib) { return three_bays({{AttachHow::glued, {rib}, first, 0}}); };
  Job a(job(1), 150, tight()), b(job(2), 150, tight());
  const Panel& p = a.panel();
  const auto mirrored = [&](int zone) {
    const Zone& z = p.zones[static_cast<std::size_t>(zone)];
    return p.zone(z.side, p.bays - 1 - z.bay, z.strip);
  };
  std::vector<int> order = {0, 4, 2, 1}, other;
  for (int z : order) other.push_back(mirrored(z));
  const auto run = [&](Job& j, const std::vector<int>& zones) {
    Covering s = after_a_stage(j, zones, 250);
    attach_before(j.model, true_temperature(300), s);
    REQUIRE(work(j, s, zones, 300, 1));
    return j.read(s);
  };
  const Readings ra = run(a, order), rb = run(b, other);
  for (std::size_t z = 0; z < p.zones.size(); ++z)
    CHECK(rb.zones.chord[static_cast<std::size_t>(mirrored(static_cast<int>(z)))] ==
          Approx(ra.zones.chord[z]).epsilon(1e-5));
  CHECK(rb.stress_use.value == Approx(ra.stress_use.value).epsilon(1e-5));
}

TEST_CASE("stitches hold the points next to them, and a mesh as coarse as their spacing the whole line", "[attach]") {
  const Case c = three_bays({});
  const Model fine(c, coarse(1500));
  const auto count = [&](const Model& m, AttachHow how, double spacing) {
    return points_of(m, {how, {1}, 0, spacing}).size();
  };
  const std::size_t line = count(fine, AttachHow::glued, 0);
  CHECK(count(fine, AttachHow::laced, 0.01) == line);
  const std::size_t wide = count(fine, AttachHow::laced, 0.08);
  CHECK(wide < line);
  CHECK(wide >= 4);  // both sides
  CHECK(count(fine, AttachHow::left, 0.08) == 0);
  const Model rough(c, coarse(100));
  CHECK(count(rough, AttachHow::riveted, 0.03) == count(rough, AttachHow::glued, 0));
}

TEST_CASE("a rib that the schedule names bears the cloth until its moment, also where inner ribs are glued",
          "[attach]") {
  Case c = three_bays({glued(never)});
  c.blanket.inner_ribs = RibTie::glued;
  Job scheduled(c, 150), bearing(three_bays({}), 150);
  const std::vector<int> order = one_side_first(bearing.panel());
  CHECK(pull_apart(after_a_stage(scheduled, order, 250), after_a_stage(bearing, order, 250)) == 0);
}
