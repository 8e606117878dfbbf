#include "shop/sign_off.hpp"

#include <algorithm>

namespace evenpull {
namespace {

// As job_standing has stages of one temperature [K]: half a step of a dial thermometer. Judgement.
constexpr double same_for_sign_off = 0.5;

void add_of_plan(const PlanDigest& plan, std::vector<OpenItem>& out) {
  if (plan.first_look) out.push_back(OpenItem::first_look_only);
  else if (!plan.hottest_safe) out.push_back(OpenItem::no_stage_safe);
}

void add_of_move(NextMove move, std::vector<OpenItem>& out) {
  switch (move) {
    case NextMove::work: out.push_back(OpenItem::work_left); return;
    case NextMove::read_first: out.push_back(OpenItem::readings_left); return;
    case NextMove::work_again: out.push_back(OpenItem::work_again); return;
    case NextMove::stop: out.push_back(OpenItem::stopped); return;
    case NextMove::plan_anew: out.push_back(OpenItem::off_the_plan); return;
    case NextMove::finished: return;
  }
}

bool is_outside(const ReadingJudged& r) {
  return r.says == ReadingSays::less || r.says == ReadingSays::more || r.says == ReadingSays::far_off;
}

void add_of_heat(const Case& c, const Adhesive& a, const WorkSoFar& work, bool finished, std::vector<OpenItem>& out) {
  const std::optional<double> hottest = hottest_worked(work);
  if (!hottest) return;
  if (a.hottest && *hottest > *a.hottest + same_for_adhesive) out.push_back(OpenItem::hotter_than_adhesive);
  if (c.approved_last_stage && *hottest > *c.approved_last_stage + same_for_sign_off)
    out.push_back(OpenItem::after_approved_stage);
  if (finished && c.approved_last_stage && *hottest < *c.approved_last_stage - same_for_sign_off)
    out.push_back(OpenItem::below_approved_stage);
}

}  // namespace

std::optional<double> hottest_worked(const WorkSoFar& work) {
  std::optional<double> out;
  for (const OrderStep& s : work.steps) out = std::max(out.value_or(s.temperature), s.temperature);
  return out;
}

std::vector<OpenItem> open_items(const Case& c, const Adhesive& a, const SignOffFacts& f) {
  std::vector<OpenItem> out;
  const bool finished = f.standing && f.standing->move == NextMove::finished;
  if (f.work) add_of_heat(c, a, *f.work, finished, out);
  if (f.standing) add_of_move(f.standing->move, out);
  if (f.standing && std::any_of(f.standing->readings.begin(), f.standing->readings.end(), is_outside))
    out.push_back(OpenItem::reading_outside);
  if (f.log_damaged) out.push_back(OpenItem::log_damaged);
  if (!f.plan) out.push_back(OpenItem::no_plan);
  else add_of_plan(*f.plan, out);
  if (!f.work) out.push_back(OpenItem::no_log);
  else if (f.work->readings.empty()) out.push_back(OpenItem::no_reading);
  if (!a.hottest) out.push_back(OpenItem::adhesive_not_stated);
  if (!a.waiting) out.push_back(OpenItem::waiting_not_stated);
  return out;
}

}  // namespace evenpull
