#include "sequencer/replay/judge.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

bool is_finish(const LimitReading& l) { return kind_of(l.limit) == LimitKind::finish; }

double use_of(const LimitReading& l, bool pessimistic) {
  return pessimistic ? std::max(l.use, l.use_of_worse_joints) + l.use_plus_minus : l.use;
}

}  // namespace

Place place_of(const Panel& p, const Worst& w) {
  Place out;
  out.bay = w.bay;
  if (w.joint >= 0) {
    const Eigen::Vector3d at = p.joints[w.joint].position;
    out.kind = Place::Kind::trailing_edge;
    out.station = at.y();
    // Where a pocket takes the trailing edge out, the edge of that bay is the pocket's front.
    const int pocket = w.member < 0 && w.bay >= 0 ? p.pocket_in(w.bay) : -1;
    const int member = pocket < 0 ? w.member : p.pockets[pocket].member;
    if (member < 0) return out;
    const FrameMember& m = p.members[member];
    const bool across = m.role == MemberRole::end_rib || m.role == MemberRole::inner_rib ||
                        m.role == MemberRole::tip_bow;
    const double root = p.joints[m.joints.front()].position.x(), tip = p.joints[m.joints.back()].position.x();
    out.kind = across ? Place::Kind::across_member : Place::Kind::along_member;
    out.member = member;
    if (across) out.aft = (at.x() - root) / (tip - root);
    return out;
  }
  if (w.column >= 0) {
    out.kind = Place::Kind::trailing_edge;
    out.station = p.nodes[p.node(Side::top, p.rows - 1, w.column)].placed.y();
  } else if (w.bay >= 0) {
    out.kind = Place::Kind::bay;
  }
  return out;
}

LimitReading StageJudge::reading(Limit limit, Moment when, double value, double allowed) const {
  LimitReading l;
  l.limit = limit;
  l.when = when;
  l.stage = stage_;
  l.value = value;
  l.allowed = allowed;
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
    l.where = place_of(p, w);
    keep(std::move(l));
  };
  for (const auto& [limit, worst] :
       {std::pair(Limit::stress, r.metal_stress_use), {Limit::wood_stress, r.wood_stress_use}}) {
    if (worst.member < 0) continue;
    LimitReading l = reading(limit, when, worst.value * worst.allowed, worst.allowed);
    l.use = worst.value;
    l.compression = worst.compression, l.at_weld = worst.at_weld;
    with_place(std::move(l), worst);
  }
  const auto take_bow = [&](Limit limit, const WorstBow& w) {
    LimitReading l = reading(limit, when, w.lasting * w.value, w.allowed);
    l.lasting = w.lasting;
    with_place(std::move(l), w);
  };
  take_bow(Limit::edge_bow, r.edge_bow);
  // Where the wing goes on at both ends there is no end rib.
  if (r.end_rib_bow.member >= 0) take_bow(Limit::end_rib_bow, r.end_rib_bow);
  if (r.pocket_closing.allowed > 0) take_bow(Limit::pocket_room, r.pocket_closing);
  if (when == Moment::released) {  // how it will hang, and only where a limit was asked for
    if (r.hinge_line_bow.allowed > 0 && r.hinge_line_bow.member >= 0) take_bow(Limit::hinge_line_bow, r.hinge_line_bow);
    if (r.whole_edge_bow.allowed > 0) take_bow(Limit::whole_edge_bow, r.whole_edge_bow);
  }
  if (limits.crippling_share > 0 && r.crippling.member >= 0)
    with_place(reading(Limit::crippling, when, r.crippling.value, limits.crippling_share), r.crippling);
  if (limits.waves > 0 && r.waves.member >= 0)
    with_place(reading(Limit::waves, when, r.waves.value, limits.waves), r.waves);
  with_place(reading(Limit::twist, when, r.twist, limits.twist), {});
  with_place(reading(Limit::slip, when, std::abs(r.slip.value), limits.slip), r.slip);
  if (limits.pull_difference) {
    const bool chord = std::abs(r.difference_chord.value) > std::abs(r.difference_span.value);
    const Worst& w = chord ? r.difference_chord : r.difference_span;
    with_place(reading(Limit::pull_difference, when, std::abs(w.value), *limits.pull_difference), w);
  }
  if (when == Moment::stage_end) with_place(reading(Limit::unevenness, when, r.unevenness, limits.unevenness), {});
}

void StageJudge::take_buckling(double factor, Moment when) {
  LimitReading l = reading(Limit::buckling, when, factor, model_.the_case.limits.buckling_factor);
  l.use = std::isfinite(factor) ? model_.the_case.limits.buckling_factor / factor : 0;
  if (!std::isfinite(factor)) l.value = 1e6;  // nothing in compression: said as a very large factor
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
    if (!is_finish(l)) use = std::max(use, use_of(l, pessimistic));
  return use;
}

const LimitReading& governing(const std::vector<LimitReading>& limits) {
  assert(!limits.empty());
  return *std::max_element(limits.begin(), limits.end(), [](const LimitReading& a, const LimitReading& b) {
    if (is_finish(a) != is_finish(b)) return is_finish(a);
    return use_of(a, true) < use_of(b, true);
  });
}

}  // namespace evenpull::inline sequencer
