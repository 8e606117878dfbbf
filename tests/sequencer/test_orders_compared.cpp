// The main job against common practice (no source) and against the public handbook.
#include "sequencer/choice/choice.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

OrderResult run(const Case& c, Family family) {
  const Model m(c, {350});
  for (const Order& o : order_families(m.panel))
    if (o.id.is(family)) {
      Tried t;
      t.order = o;
      std::vector<Step> steps = steps_of(c, m.panel, o);
      std::erase_if(steps, [](const Step& s) { return s.stage > 0; });
      t.result = replay(m, steps, {});
      return summarise_up_to(t, m.panel, 0);
    }
  FAIL("no such family");
  return {};
}

// One full pass in the first stage: light passes would even out what the order does.
Case harsh(Case c) {
  c.stages.resize(1);
  c.stages[0].doses = {1};
  return c;
}

}  // namespace

TEST_CASE("all of one side first pulls harder on one side, twists more and loads more than alternating") {
  // Common practice, no source: sides alternate in the first stage.
  const Case c = harsh(sample::light_rudder());
  const OrderResult one_side = run(c, Family::one_side);
  const OrderResult halving = run(c, Family::halving);
  // By more than a bench can tell apart (docs/model.md, section 7).
  constexpr double told_apart = 20;  // N/m
  CHECK(one_side.worst_pull_difference_spanwise > halving.worst_pull_difference_spanwise + told_apart);
  CHECK(one_side.worst_twist > halving.worst_twist);
  CHECK(one_side.worst_use > halving.worst_use);
}

TEST_CASE("working steadily from one end is worse than jumping") {
  // FAA-H-8083-31, Aviation Maintenance Technician Handbook - Airframe, chapter 3, advises against working steadily
  // along from one end and prefers jumping.
  const Case c = harsh(sample::light_rudder());
  const OrderResult steady = run(c, Family::root_to_tip);
  const OrderResult jumps = run(c, Family::jumping);
  INFO("use " << steady.worst_use << " against " << jumps.worst_use << ", spread "
              << steady.pull_spread_along_span.value() << " against " << jumps.pull_spread_along_span.value()
              << " N/m");
  CHECK(steady.worst_use > jumps.worst_use);
}

TEST_CASE("a mirrored order on a panel with two like sides and ends costs the same") {
  const Case c = harsh(sample::aileron(4));
  const Model m(c, {250});
  const Order order = order_families(m.panel)[1];
  const auto cost = [&](const Order& o) {
    Tried t;
    t.order = o;
    t.result = replay(m, steps_of(c, m.panel, o), {});
    return summarise_up_to(t, m.panel, 0);
  };
  const OrderResult a = cost(order), b = cost(mirrored(m.panel, order, true, true));
  // The equilibria agree to their tolerance, 0.1 N/m of pull in hundreds.
  CHECK(b.worst_use == Approx(a.worst_use).epsilon(2e-3));
  CHECK(b.unevenness_final.value() == Approx(a.unevenness_final.value()).epsilon(1e-2));
  CHECK(b.worst_slip == Approx(a.worst_slip).epsilon(1e-2));
}

TEST_CASE("light passes before a full one even the pull and lower the worst use") {
  // Common practice, no source.
  const Case full = harsh(sample::light_rudder());
  Case light = full;
  light.stages[0].doses = {0.25, 0.25, 1};
  constexpr Family family = Family::halving;
  const OrderResult a = run(full, family), b = run(light, family);
  CHECK(b.unevenness_final < a.unevenness_final);
  CHECK(b.worst_use < a.worst_use);
  CHECK(b.worst_slip < a.worst_slip);
}
