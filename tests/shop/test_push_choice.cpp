// Which weights are proposed: never more than the frame bears with ease, and what they tell.
#include "shop/push_choice.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

TEST_CASE("the heaviest usual weight keeps a tenth of the allowable stress and small movements") {
  CHECK(heaviest_weight(0, 1e-3 / gravity) == 10);    // 10 mm under 10 kg, 20 mm under 20
  CHECK(heaviest_weight(0.09 / gravity, 1e-6) == 1);  // 0.09 under 1 kg
  CHECK(heaviest_weight(2 / gravity, 1e-6) == 0);     // 0.2 under the lightest
}

TEST_CASE("weights that are proposed load the frame to a tenth of its limit at most and read where they can") {
  for (const Case& c : {sample::aileron(), sample::light_rudder()}) {
    PushFrame frame(c, Held::while_ironed);
    const PushChoice choice = choose_pushes(c, frame, false, {});
    REQUIRE(choice.pushes.size() >= 2);
    CHECK(choice.pushes.size() <= 3);
    std::vector<FramePlace> places;
    for (const ChosenPush& p : choice.pushes) places.push_back(p.load);
    frame.set_places(places);
    for (std::size_t i = 0; i < choice.pushes.size(); ++i) {
      const ChosenPush& p = choice.pushes[i];
      const auto pushed = frame.push(c, {}, {{static_cast<int>(i), gravity * p.kilograms}}, true);
      CHECK(pushed[0].use <= most_push_use * (1 + 1e-9));
      CHECK(p.use >= pushed[0].use * (1 - 1e-9));
      REQUIRE_FALSE(p.reads.empty());
      CHECK(p.reads[0].down == Approx(pushed[0].down[i]));
      CHECK(p.reads[0].down <= most_push_movement);
      for (const ChosenRead& r : p.reads) CHECK(r.low <= r.high);
    }
    for (const double left : choice.deviation_after) CHECK((left > 0 && left <= 1));
    CHECK(choice.deviation_after[0] < 0.9);
  }
}
