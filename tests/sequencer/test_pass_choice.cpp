#include "sequencer/choice/pass_choice.hpp"
#include "sequencer/orders/families.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;

namespace {

Case open_case() {
  Case c = sample::light_rudder(3);
  c.stages.resize(1);
  c.stages.front().passes_open = true;
  return c;
}

}  // namespace

TEST_CASE("passes that the case states are left alone") {
  Case c = open_case();
  c.stages.front().passes_open = false;
  const PassChoice choice = choose_passes(c, one_by_one);
  CHECK(choice.trials.empty());
  CHECK(choice.the_case.stages.front().doses == c.stages.front().doses);
}

TEST_CASE("left open, the passes chosen are the cheapest of those tried and end with full ones") {
  Case c = open_case();
  c.stages = sample::light_rudder(3).stages;
  for (Stage& s : c.stages) s.passes_open = true;
  const PassChoice choice = choose_passes(c, one_by_one);
  for (int stage = 0; stage < static_cast<int>(c.stages.size()); ++stage) {
    std::vector<PassTrial> trials;
    for (const PassTrial& t : choice.trials)
      if (t.stage == stage) trials.push_back(t);
    REQUIRE(!trials.empty());
    int most = 0;
    for (const PassTrial& t : trials) most = std::max(most, t.stages_passed);
    double cheapest = 1e300;
    for (const PassTrial& t : trials)
      if (t.stages_passed == most) cheapest = std::min(cheapest, t.cost);
    int chosen = 0;
    for (const PassTrial& t : trials) {
      CHECK(t.doses.back() == 1);
      if (!t.chosen) continue;
      ++chosen;
      CHECK(t.cost == cheapest);
      // Full passes may be added after the trials, never taken away.
      const std::vector<double>& doses = choice.the_case.stages[stage].doses;
      REQUIRE(doses.size() >= t.doses.size());
      CHECK(std::equal(t.doses.begin(), t.doses.end(), doses.begin()));
      for (std::size_t i = t.doses.size(); i < doses.size(); ++i) CHECK(doses[i] == 1);
    }
    CHECK(chosen == 1);
    const auto& doses = choice.the_case.stages[stage].doses;
    CHECK(std::count(doses.begin(), doses.end(), 1.0) >= (stage == 0 ? 1 : 2));
  }
  CHECK(pass_gains(choice.the_case, choice.trials).stages.size() == choice.the_case.stages.size());
}

TEST_CASE("the stage that the job ends with gets as many full passes as the iron needs") {
  // Two with a steady iron, three with an unsteady one: common practice, no source.
  Case c = open_case();
  c.stages.front().temperature = (300 + 459.67) / 1.8;
  const auto full_passes = [&](double swing) {
    c.iron.swing = swing;
    const std::vector<double> doses = choose_passes(c, one_by_one).the_case.stages.front().doses;
    return std::count(doses.begin(), doses.end(), 1.0);
  };
  CHECK(full_passes(4) == 2);
  CHECK(full_passes(18) == 3);
}

TEST_CASE("light passes that this iron cannot give alike enough are not tried") {
  Case c = open_case();
  c.iron.swing = 60, c.iron.hand_scatter = 1;
  const PassChoice choice = choose_passes(c, one_by_one);
  CHECK(choice.trials.size() == 1);
  CHECK(pass_gains(choice.the_case, choice.trials).stages.at(0).what == note::PassGain::What::full_light_unlike);
}

TEST_CASE("light passes first ease the way there") {
  // Light passes before the full one gained more than any order did in trials of this model (docs/model.md, section 3).
  const PassChoice choice = choose_passes(open_case(), one_by_one);
  CHECK(choice.trials[2].use < choice.trials[0].use);
  CHECK(choice.trials[2].difference < choice.trials[0].difference);
}

TEST_CASE("every stage that the job may end with has enough full passes, also where they cost the stage after it") {
  Case c = open_case();
  c.stages = sample::light_rudder(3).stages;
  for (Stage& s : c.stages) s.passes_open = true;
  c.stages.front().passes_open = false;
  for (const double swing : {4.0, 16.0}) {
    INFO(swing);
    c.iron.swing = swing;
    const Case out = with_enough_full_passes(c).the_case;
    CHECK(out.stages.front().doses == c.stages.front().doses);
    // The ceiling of the same order with the passes given: it and all hotter stages have them.
    const Model m(out, {search_nodes});
    const std::vector<Order> orders = order_families(m.panel);
    const auto usual =
        std::find_if(orders.begin(), orders.end(), [](const Order& o) { return o.id.is(Family::halving); });
    REQUIRE(usual != orders.end());
    const auto ends = stage_ceiling(replay(m, steps_of(out, m.panel, *usual), {}).stages, false);
    for (int s = std::max(1, ends.value_or(0)); s < static_cast<int>(out.stages.size()); ++s) {
      const auto& doses = out.stages[s].doses;
      CHECK(std::count(doses.begin(), doses.end(), 1.0) == (swing > 10 ? 3 : 2));
    }
    CHECK(with_enough_full_passes(out).the_case.stages.back().doses == out.stages.back().doses);
  }
}
