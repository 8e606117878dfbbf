#include "shop/coupon_curve.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

double mean_pull(const ShrinkPoint& p) { return std::sqrt(p.pull.warp * p.pull.fill); }

Yarns between(const Yarns& a, const Yarns& b, double share) {
  return {a.warp + share * (b.warp - a.warp), a.fill + share * (b.fill - a.fill)};
}

// As the model reads a curve: straight between the points, never beyond the hottest.
ShrinkPoint at(const std::vector<ShrinkPoint>& curve, double temperature) {
  std::size_t i = 1;
  while (i + 1 < curve.size() && curve[i].temperature < temperature) ++i;
  const ShrinkPoint &a = curve[i - 1], &b = curve[i];
  const double share = std::clamp((temperature - a.temperature) / (b.temperature - a.temperature), 0.0, 1.0);
  ShrinkPoint p;
  p.temperature = temperature;
  p.free_shrink = between(a.free_shrink, b.free_shrink, share);
  p.pull = between(a.pull, b.pull, share);
  if (a.pull_common || b.pull_common) p.pull_common = std::max(a.pull_common.value_or(0), b.pull_common.value_or(0));
  return p;
}

template <class Has>
const CouponStage* nearest_to(const std::vector<CouponStage>& stages, double temperature, const Has& has) {
  const CouponStage* best = nullptr;
  for (const CouponStage& s : stages)
    if (has(s) && (!best || std::abs(s.temperature - temperature) < std::abs(best->temperature - temperature)))
      best = &s;
  return best;
}

void set_pull(CouponRow& row, const std::vector<ShrinkPoint>& base, const std::vector<CouponStage>& stages) {
  const CouponStage* s = nearest_to(stages, row.point.temperature, [](const CouponStage& c) { return c.pull; });
  if (!s) return;
  row.pull_measured = s->temperature == row.point.temperature;
  row.pull_like = s->temperature;
  const double usual = mean_pull(at(base, s->temperature));
  if (usual > 0) {
    row.pull_ratio = *s->pull / usual;
    row.point.pull = {row.point.pull.warp * row.pull_ratio, row.point.pull.fill * row.pull_ratio};
  } else {
    row.point.pull = {*s->pull, *s->pull};  // a curve that says nothing of it
  }
}

void set_shrink(CouponRow& row, const std::vector<ShrinkPoint>& base, const std::vector<CouponStage>& stages) {
  const double t = row.point.temperature;
  const auto has = [](const CouponStage& c) { return c.free_shrink.has_value(); };
  const CouponStage* s = nearest_to(stages, t, has);
  if (!s) return;
  row.shrink_like = s->temperature;
  row.shrink_measured = s->temperature == t;
  Yarns& f = row.point.free_shrink;
  if (row.shrink_measured) {
    f = *s->free_shrink;
    return;
  }
  const Yarns usual = at(base, s->temperature).free_shrink;
  const auto scaled = [](double was, double measured, double like) {
    return like > 0 ? was * measured / like : measured;
  };
  f = {scaled(f.warp, s->free_shrink->warp, usual.warp), scaled(f.fill, s->free_shrink->fill, usual.fill)};
  for (const CouponStage& m : stages) {
    if (!has(m)) continue;
    const Yarns& y = *m.free_shrink;
    if (m.temperature < t) f = {std::max(f.warp, y.warp), std::max(f.fill, y.fill)};
    else f = {std::min(f.warp, y.warp), std::min(f.fill, y.fill)};
  }
}

std::vector<ShrinkPoint> all_points(const std::vector<ShrinkPoint>& base, const std::vector<CouponStage>& stages) {
  std::vector<ShrinkPoint> points(base.begin(), base.begin() + 1);
  const auto measured = [&](double t) {
    return std::any_of(stages.begin(), stages.end(),
                       [&](const CouponStage& s) { return std::abs(s.temperature - t) < one_stage_within; });
  };
  for (std::size_t i = 1; i < base.size(); ++i)
    if (!measured(base[i].temperature)) points.push_back(base[i]);
  for (const CouponStage& s : stages) points.push_back(at(base, s.temperature));
  std::sort(points.begin(), points.end(), [](const auto& a, const auto& b) { return a.temperature < b.temperature; });
  return points;
}

std::optional<CouponSpread> spread_of_rows(const std::vector<CouponRow>& rows, const std::vector<CouponStage>& stages,
                                           double of_yarn) {
  double sigma = 0;
  for (const CouponStage& s : stages)
    if (s.pull) sigma = std::max(sigma, s.sigma);
  if (sigma == 0) return {};
  CouponSpread out;
  out.of_yarn = of_yarn;
  out.all_measured = std::all_of(rows.begin() + 1, rows.end(), [](const CouponRow& r) { return r.pull_measured; });
  // Thermometer and looseness are the same at each stage, readings and missed spots are not: half of the variance each.
  out.common = out.of_stage = sigma / std::sqrt(2);
  // What the stage measured has of its own went into the ratio, and the other stage has its own besides.
  out.common_carried = std::sqrt(out.common * out.common + 2 * pull_of_stage_alone * pull_of_stage_alone);
  return out;
}

}  // namespace

double CouponSpread::sum() const { return std::sqrt(common * common + of_stage * of_stage + of_yarn * of_yarn); }
double CouponSpread::sum_carried() const {
  return std::sqrt(common_carried * common_carried + of_stage * of_stage + of_yarn * of_yarn);
}

CouponCurve curve_of_coupon(const std::vector<ShrinkPoint>& base, const std::vector<CouponStage>& stages,
                            double of_yarn) {
  CouponCurve out;
  for (const ShrinkPoint& p : all_points(base, stages)) {
    CouponRow row;
    row.point = p;
    if (!out.rows.empty()) {  // the onset stays
      set_pull(row, base, stages);
      set_shrink(row, base, stages);
    }
    out.rows.push_back(row);
  }
  out.spread = spread_of_rows(out.rows, stages, of_yarn);
  if (!out.spread) return out;
  for (std::size_t i = 1; i < out.rows.size(); ++i) {
    CouponRow& row = out.rows[i];
    row.point.pull_common = row.pull_measured ? std::nullopt : std::optional(out.spread->common_carried);
  }
  return out;
}

}  // namespace evenpull
