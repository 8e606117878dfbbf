#include "sequencer/replay/judge.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <sstream>

namespace evenpull {
namespace {

constexpr double inch = 0.0254;  // m, exact

std::string along_span(double y) {
  std::ostringstream o;
  o.setf(std::ios::fixed);
  o.precision(1);
  o << y / inch << " in (" << std::lround(y * 1000) << " mm) from the root";
  return o.str();
}

bool is_unevenness(const LimitReading& l) { return l.limit == Limit::unevenness; }

double use_of(const LimitReading& l, bool pessimistic) { return l.use + (pessimistic ? l.use_plus_minus : 0); }

}  // namespace

std::string place_text(const Panel& p, const Worst& w) {
  if (w.member >= 0 && w.joint >= 0) {
    const FrameMember& m = p.members[w.member];
    const Eigen::Vector3d at = p.joints[w.joint].position;
    const bool across = m.role == MemberRole::end_rib || m.role == MemberRole::inner_rib || m.role == MemberRole::tip_bow;
    if (!across) return m.name + " at " + along_span(at.y());
    const double root = p.joints[m.joints.front()].position.x(), tip = p.joints[m.joints.back()].position.x();
    return m.name + ", " + std::to_string(std::lround(100 * (at.x() - root) / (tip - root))) + " % of its length aft";
  }
  if (w.joint >= 0) return "trailing edge at " + along_span(p.joints[w.joint].position.y());
  if (w.column >= 0) return "trailing edge at " + along_span(p.nodes[p.node(Side::top, p.rows - 1, w.column)].placed.y());
  if (w.bay >= 0) return "bay " + std::to_string(w.bay + 1);
  return "whole panel";
}

LimitReading StageJudge::reading(Limit limit, Moment when, double value, double allowed,
                                 const std::string& unit) const {
  LimitReading l;
  l.limit = limit;
  l.when = when;
  l.stage = stage_;
  l.value = value;
  l.allowed = allowed;
  l.unit = unit;
  l.use = value / allowed;
  return l;
}

void StageJudge::keep(LimitReading l) {
  for (LimitReading& old : limits_)
    if (old.limit == l.limit) {
      if (l.use > old.use) old = std::move(l);
      return;
    }
  limits_.push_back(std::move(l));
}

void StageJudge::take(const Readings& r, Moment when) {
  const Limits& limits = model_.the_case.limits;
  const Panel& p = model_.panel;
  const auto with_place = [&](LimitReading l, const Worst& w) {
    l.where = place_text(p, w);
    keep(std::move(l));
  };
  const double allowable = model_.allowable[r.stress_use.member];
  with_place(reading(Limit::stress, when, r.stress_use.value * allowable, allowable, "Pa"), r.stress_use);
  with_place(reading(Limit::edge_bow, when, r.edge_bow.value, limits.bow_per_spacing, "1"), r.edge_bow);
  with_place(reading(Limit::end_rib_bow, when, r.end_rib_bow.value, limits.bow_per_spacing, "1"), r.end_rib_bow);
  with_place(reading(Limit::twist, when, r.twist, limits.twist, "rad"), {});
  with_place(reading(Limit::slip, when, std::abs(r.slip.value), limits.slip, "m"), r.slip);
  if (limits.pull_difference) {
    const bool chord = std::abs(r.difference_chord.value) > std::abs(r.difference_span.value);
    const Worst& w = chord ? r.difference_chord : r.difference_span;
    with_place(reading(Limit::pull_difference, when, std::abs(w.value), *limits.pull_difference, "N/m"), w);
  }
  if (when == Moment::stage_end) with_place(reading(Limit::unevenness, when, r.unevenness, limits.unevenness, "1"), {});
}

void StageJudge::take_buckling(double factor, Moment when) {
  LimitReading l = reading(Limit::buckling, when, factor, model_.the_case.limits.buckling_factor, "1");
  l.use = std::isfinite(factor) ? model_.the_case.limits.buckling_factor / factor : 0;
  if (!std::isfinite(factor)) l.value = 1e6;  // nothing in compression: said as a very large factor
  l.where = "whole panel";
  keep(std::move(l));
}

void StageJudge::take_giving_way(Moment when) {
  take_buckling(1, when);  // the factor has come down to 1, or below: how far nobody knows
  for (LimitReading& l : limits_)
    if (l.limit == Limit::buckling) {
      l.when = when;
      l.gave_way = true;
    }
}

double history_use(const std::vector<LimitReading>& limits, bool pessimistic) {
  double use = 0;
  for (const LimitReading& l : limits)
    if (!is_unevenness(l)) use = std::max(use, use_of(l, pessimistic));
  return use;
}

double unevenness_use(const std::vector<LimitReading>& limits, bool pessimistic) {
  for (const LimitReading& l : limits)
    if (is_unevenness(l)) return use_of(l, pessimistic);
  return 0;
}

const LimitReading& governing(const std::vector<LimitReading>& limits) {
  assert(!limits.empty());
  return *std::max_element(limits.begin(), limits.end(), [](const LimitReading& a, const LimitReading& b) {
    return use_of(a, true) < use_of(b, true);
  });
}

}  // namespace evenpull
