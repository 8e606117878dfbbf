#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/pictures/pictures.hpp"
#include "viz/pictures/pull_picture.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using namespace evenpull;
using namespace evenpull::reading;

TEST_CASE(
    "two pictures a stage, one of the order of each that is ironed, two of the frame, one of the sag, a moving one: "
    "none blank") {
  SampleWish bow;
  bow.tip_bow = true;
  for (const auto& wish : {SampleWish{}, bow}) {
    Folder folder;
    const auto names = write_pictures(sample_plan(wish), folder.path());
    std::size_t drawings = 0;
    for (const auto& name : names) {
      INFO(name);
      if (name.substr(name.size() - 4) == ".svg") {
        ++drawings;
        const std::string text = bytes(folder / name);
        CHECK(text.find("<svg") != std::string::npos);
        CHECK(text.rfind("</svg>") != std::string::npos);
        // Each has its picture beside it.
        CHECK(std::find(names.begin(), names.end(), name.substr(0, name.size() - 4) + ".png") != names.end());
        continue;
      }
      const Image picture = image(folder / name);
      CHECK(picture.width == (name == "step_by_step.png" ? 960 : 1600));
      CHECK(picture.colours > 20);
      CHECK(picture.white_share > 0.05);
      CHECK(picture.white_share < 0.97);
    }
    CHECK(drawings == 7);
    CHECK(names.size() == 13 + drawings);
  }
}

TEST_CASE("a frame that nothing buckles has no picture of its buckling") {
  Folder folder;
  Plan plan = sample_plan();
  for (StageSummary& s : plan.stages) s.buckling_mode.reset();
  const auto names = write_pictures(plan, folder.path());
  CHECK(std::find(names.begin(), names.end(), "frame_buckling.png") == names.end());
  CHECK_FALSE(std::filesystem::exists(folder / "frame_buckling.png"));
}

TEST_CASE("what turn-overs buy is drawn where there is something to trade") {
  Folder folder;
  Plan plan = sample_plan();
  for (const auto& points : {std::vector<TradeOff>{}, {{{Family::halving}, 6, 0.80, 70, true}}}) {
    plan.trade_offs = points;
    const auto names = write_pictures(plan, folder.path());
    CHECK(std::count(names.begin(), names.end(), "turn_overs.png") == 0);
    CHECK_FALSE(std::filesystem::exists(folder / "turn_overs.png"));
  }
  plan.trade_offs = {{{Family::halving}, 6, 0.80, 70, true}, {{Family::one_side}, 2, 0.85, 240, false}};
  const auto names = write_pictures(plan, folder.path());
  CHECK(std::count(names.begin(), names.end(), "turn_overs.png") == 1);
  CHECK(image(folder / "turn_overs.png").colours > 20);
}

TEST_CASE("no order is drawn for a stage that is not safe") {
  Folder folder;
  Plan plan = sample_plan();
  plan.ceiling.reset();
  const double all = viz::common_scale(sample_plan()).bands.bounds.back();
  for (const auto& name : write_pictures(plan, folder.path())) {
    CHECK(name.rfind("order_", 0) != 0);
    // The first one is shown, to see what gives way; its scale is not made for hotter ones.
    CHECK((name.rfind("pull_", 0) != 0 || name.rfind("pull_250F", 0) == 0));
  }
  CHECK(viz::common_scale(plan).bands.bounds.back() < all);
}

TEST_CASE("two runs give the same pictures") {
  Folder one, two;
  const Plan plan = sample_plan();
  write_pictures(plan, two.path());
  for (const auto& name : write_pictures(plan, one.path())) CHECK(bytes(one / name) == bytes(two / name));
}

TEST_CASE("all stages share one scale that holds the hottest") {
  const Plan plan = sample_plan();
  const auto scale = viz::common_scale(plan);
  CHECK(scale.bands.bounds.front() == 0);
  CHECK(scale.bands.bounds.back() >= scale.strongest_pull);
  CHECK(scale.bands.count() >= 8);
  CHECK(scale.bands.count() <= 24);
}

TEST_CASE("stages that round to the same degree do not share a file") {
  Folder folder;
  Plan plan = sample_plan();
  plan.the_case.stages[1].temperature = plan.the_case.stages[0].temperature + 0.1;
  const auto names = write_pictures(plan, folder.path());
  for (const auto& name : names) {
    INFO(name);
    CHECK(std::count(names.begin(), names.end(), name) == 1);
    CHECK(std::filesystem::exists(folder / name));
  }
  CHECK(std::count(names.begin(), names.end(), "pull_250F_2_largest.png") == 1);
}

TEST_CASE("a plan with nothing but an answer has no pictures, and that is no mistake") {
  Folder folder;
  Plan plan = sample_plan();
  plan.limits.clear();
  plan.orders.clear();
  plan.stages.clear();
  plan.bounds.clear();
  plan.steps.clear();
  plan.snapshots.clear();
  plan.stage_end_snapshot.clear();
  plan.chances = {};
  plan.heat.clear();
  CHECK(write_pictures(plan, folder.path()).empty());
  CHECK(std::filesystem::is_empty(folder.path()));
}
