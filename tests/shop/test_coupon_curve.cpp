// A curve of the cloth from the stages of a coupon, and what is left of the doubt.
#include "shop/coupon_curve.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

std::vector<ShrinkPoint> usual() {
  return {{353.15, {0, 0}, {0, 0}},
          {394.261, {0.05, 0.05}, {420, 420}},
          {422.039, {0.075, 0.075}, {600, 600}},
          {449.817, {0.10, 0.10}, {900, 900}}};
}

CouponStage stage(double t, double pull, double sigma = 0.10) {
  CouponStage s;
  s.temperature = t, s.pull = pull, s.sigma = sigma;
  return s;
}

}  // namespace

TEST_CASE("one stage measured scales the others, and says so") {
  const CouponCurve c = curve_of_coupon(usual(), {stage(422.039, 660)});
  REQUIRE(c.rows.size() == 4);
  CHECK(c.rows[0].point.pull.warp == 0);
  CHECK(c.rows[1].point.pull.warp == Approx(462));
  CHECK(c.rows[2].point.pull.warp == Approx(660));
  CHECK(c.rows[3].point.pull.fill == Approx(990));
  CHECK(c.rows[2].pull_measured);
  CHECK_FALSE(c.rows[1].pull_measured);
  CHECK(c.rows[1].pull_like == 422.039);
  CHECK(c.rows[1].pull_ratio == Approx(1.1));
}

TEST_CASE("each row is scaled as the nearest stage measured, and warp to fill stays") {
  auto base = usual();
  for (auto& p : base) p.pull.fill *= 0.81;
  const CouponCurve c = curve_of_coupon(base, {stage(394.261, 378), stage(449.817, 900)});
  CHECK(std::sqrt(c.rows[1].point.pull.warp * c.rows[1].point.pull.fill) == Approx(378));
  CHECK(c.rows[1].point.pull.fill / c.rows[1].point.pull.warp == Approx(0.81));
  CHECK(c.rows[1].point.pull.warp == Approx(420));
  CHECK(c.rows[3].point.pull.warp == Approx(1000));
  CHECK((c.rows[2].pull_like == 394.261 || c.rows[2].pull_like == 449.817));
}

TEST_CASE("a stage between the rows is a row of its own") {
  const CouponCurve c = curve_of_coupon(usual(), {stage(408.15, 510)});
  REQUIRE(c.rows.size() == 5);
  CHECK(c.rows[2].point.pull.warp == Approx(510));
  CHECK(c.rows[2].point.free_shrink.warp == Approx(0.05 + 0.025 * (408.15 - 394.261) / (422.039 - 394.261)));
}

TEST_CASE("what is left at a stage measured is 0.13, at one carried 0.19, and each says its own") {
  const CouponCurve all = curve_of_coupon(usual(), {stage(394.261, 400), stage(422.039, 600), stage(449.817, 800)});
  REQUIRE(all.spread);
  CHECK(all.spread->all_measured);
  CHECK(all.spread->sum() == Approx(0.13).margin(0.003));
  const CouponCurve some = curve_of_coupon(usual(), {stage(422.039, 600)});
  REQUIRE(some.spread);
  CHECK_FALSE(some.spread->all_measured);
  CHECK(some.spread->sum() == all.spread->sum());
  CHECK(some.spread->sum_carried() == Approx(0.19).margin(0.002));
  for (const CouponRow& r : all.rows) CHECK_FALSE(r.point.pull_common);
  CHECK_FALSE(some.rows[2].point.pull_common);
  for (const int carried : {1, 3}) {
    REQUIRE(some.rows[carried].point.pull_common);
    CHECK(*some.rows[carried].point.pull_common == some.spread->common_carried);
  }
  CHECK(curve_of_coupon(usual(), {stage(422.039, 600, 0.15)}).spread->sum_carried() > some.spread->sum_carried());
}

TEST_CASE("a stage measured later loses the wider spread, marks alone keep it") {
  std::vector<ShrinkPoint> before;
  for (const CouponRow& r : curve_of_coupon(usual(), {stage(422.039, 600)}).rows) before.push_back(r.point);
  const CouponCurve later = curve_of_coupon(before, {stage(422.039, 600), stage(449.817, 800)});
  CHECK_FALSE(later.rows[3].point.pull_common);
  CHECK(later.rows[1].point.pull_common);
  CouponStage marks;
  marks.temperature = 449.817, marks.free_shrink = Yarns{0.09, 0.09};
  CHECK(curve_of_coupon(before, {marks}).rows[3].point.pull_common == before[3].pull_common);
}

TEST_CASE("a poorer reading leaves more") {
  const CouponCurve c = curve_of_coupon(usual(), {stage(394.261, 400), stage(422.039, 600, 0.16), stage(449.817, 800)});
  CHECK(std::hypot(c.spread->common, c.spread->of_stage) == Approx(0.16));
}

TEST_CASE("free shrink measured is kept, and rows between never fall") {
  CouponStage low = stage(394.261, 400), high = stage(449.817, 800);
  low.free_shrink = Yarns{0.08, 0.07};
  high.free_shrink = Yarns{0.09, 0.09};
  const CouponCurve c = curve_of_coupon(usual(), {low, high});
  CHECK(c.rows[1].point.free_shrink.fill == 0.07);
  CHECK(c.rows[1].shrink_measured);
  for (std::size_t i = 1; i < c.rows.size(); ++i) {
    CHECK(c.rows[i].point.free_shrink.warp >= c.rows[i - 1].point.free_shrink.warp);
    CHECK(c.rows[i].point.free_shrink.fill >= c.rows[i - 1].point.free_shrink.fill);
  }
}

TEST_CASE("marks alone leave pull and doubt as they were") {
  CouponStage s;
  s.temperature = 422.039;
  s.free_shrink = Yarns{0.06, 0.06};
  const CouponCurve c = curve_of_coupon(usual(), {s});
  CHECK_FALSE(c.spread);
  CHECK(c.rows[3].point.pull.warp == 900);
  CHECK(c.rows[3].point.free_shrink.warp == Approx(0.08));
}

TEST_CASE("a curve that says nothing of the pull or the shrink is filled and not divided by") {
  auto base = usual();
  for (auto& p : base) p.pull = {0, 0}, p.free_shrink = {0, 0};
  CouponStage s = stage(422.039, 600);
  s.free_shrink = Yarns{0.07, 0.06};
  const CouponCurve c = curve_of_coupon(base, {s});
  CHECK(c.rows[2].point.pull.warp == 600);
  CHECK(std::isfinite(c.rows[3].point.free_shrink.warp));
}
