#include "sequencer/pass_choice.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;

namespace {

const ParallelFor one_by_one = [](int n, const std::function<void(int)>& work) {
  for (int i = 0; i < n; ++i) work(i);
};

Case open_case() {
  Case c = sample::light_rudder(3);
  c.stages.resize(1);
  c.passes_open = true;
  return c;
}

}  // namespace

TEST_CASE("passes that the case states are left alone") {
  Case c = open_case();
  c.passes_open = false;
  const PassChoice choice = choose_passes(c, one_by_one);
  CHECK(choice.trials.empty());
  CHECK(choice.the_case.stages.front().doses == c.stages.front().doses);
}

TEST_CASE("left open, the passes chosen are the cheapest of those tried and end with a full one") {
  const PassChoice choice = choose_passes(open_case(), one_by_one);
  REQUIRE(choice.trials.size() == 5);
  int chosen = 0;
  double cheapest = 1e300;
  int most = 0;
  for (const PassTrial& t : choice.trials) most = std::max(most, t.stages_passed);
  for (const PassTrial& t : choice.trials)
    if (t.stages_passed == most) cheapest = std::min(cheapest, t.cost);
  for (const PassTrial& t : choice.trials) {
    if (!t.chosen) continue;
    ++chosen;
    CHECK(t.cost == cheapest);
    CHECK(choice.the_case.stages.front().doses == t.doses);
    CHECK(t.doses.back() == 1);
  }
  CHECK(chosen == 1);
}

TEST_CASE("light passes first ease the way there") {
  // Light passes before the full one gained more than any order did in trials of this model (docs/model.md, section 3).
  const PassChoice choice = choose_passes(open_case(), one_by_one);
  CHECK(choice.trials[2].use < choice.trials[0].use);
  CHECK(choice.trials[2].difference < choice.trials[0].difference);
}
