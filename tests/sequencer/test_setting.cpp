// The hottest setting between two stages: it holds when it is worked, and a hotter one does not.
#include "sequencer/orders/families.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

constexpr double setting_step = 5 / 1.8;  // K: what a dial and a thermometer can tell apart

// Two stages of one pass each; strength such that stress decides, the first holds and the second does not.
struct Bench {
  Case the_case = made();
  Model model{the_case, {120}};
  std::vector<Step> steps = steps_of(the_case, model.panel, order_families(model.panel)[2]);
  ReplayResult run = replayed(model, steps);
  std::vector<Step> next = of_second();

  static ReplayResult replayed(const Model& m, const std::vector<Step>& steps) {
    ReplayOptions options;
    options.states = true;
    return replay(m, steps, options);
  }

  static Case made() {
    Case c = sample::aileron(3, 0.9, 0.3);
    c.stages.resize(2);
    c.stages[0].doses = c.stages[1].doses = {1};
    c.limits.bow_per_spacing = c.limits.twist = c.limits.slip = c.limits.unevenness = 10;  // out of the way
    c.limits.buckling_factor = 1e-3;
    const Model m(c, {120});
    const ReplayResult r = replay(m, steps_of(c, m.panel, order_families(m.panel)[2]), {});
    const double first = history_use(r.stages[0].limits, false), second = history_use(r.stages[1].limits, false);
    for (Material& material : c.materials) material.strength *= std::sqrt(first * second);
    return c;
  }

  std::vector<Step> of_second() const {
    std::vector<Step> out = steps;
    std::erase_if(out, [](const Step& s) { return s.stage != 1; });
    return out;
  }

  double use_at(double setting) const {
    Ironing ironing(model);
    return history_use(replay_stage(ironing, run.stage_end[0], next, setting).limits, false);
  }

  std::optional<double> setting(const std::vector<StageVerdict>& judged, std::optional<int> ceiling) const {
    Ironing ironing(model);
    return setting_between(ironing, run.stage_end[0], judged, run.stages, ceiling, next);
  }
};

}  // namespace

TEST_CASE("the setting between stages lies between them, holds every limit when worked, and hotter ones do not") {
  const Bench b;
  REQUIRE(stage_ceiling(b.run.stages, true) == 0);
  const std::optional<double> found = b.setting(b.run.stages, 0);
  REQUIRE(found.has_value());
  const double low = b.the_case.stages[0].temperature, high = b.the_case.stages[1].temperature;
  CHECK(*found > low);
  CHECK(*found < high);
  const double fahrenheit = *found * 1.8 - 459.67;
  CHECK(std::abs(fahrenheit / 5 - std::round(fahrenheit / 5)) < 1e-6);
  CHECK(b.use_at(*found) <= 1);
  INFO("setting " << fahrenheit << " F, use " << b.use_at(*found));
  // Two steps on, for the first guess is a straight line between two uses and is not climbed from.
  CHECK(b.use_at(*found + 2 * setting_step) > 1);
}

TEST_CASE("an error bar at the stage that fails lowers the setting below it") {
  const Bench b;
  std::vector<StageVerdict> judged = b.run.stages;
  for (StageVerdict& v : judged)
    for (LimitReading& l : v.limits) l.use_plus_minus = 0.04 * l.use;
  REQUIRE(stage_ceiling(judged, true) == 0);
  const std::optional<double> plain = b.setting(b.run.stages, 0), barred = b.setting(judged, 0);
  REQUIRE(plain.has_value());
  REQUIRE(barred.has_value());
  CHECK(*barred <= *plain);
  CHECK(b.use_at(*barred) * 1.04 <= 1 + 1e-9);
}

TEST_CASE("there is no setting beyond the last stage, none where the next one holds, and none without its steps") {
  const Bench b;
  CHECK_FALSE(b.setting(b.run.stages, 1).has_value());
  std::vector<StageVerdict> held = b.run.stages;
  for (LimitReading& l : held[1].limits) l.use = 0.5;
  CHECK_FALSE(b.setting(held, 0).has_value());
  Ironing ironing(b.model);
  CHECK_FALSE(setting_between(ironing, b.run.stage_end[0], b.run.stages, b.run.stages, 0, {}).has_value());
}
