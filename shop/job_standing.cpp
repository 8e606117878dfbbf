#include "shop/job_standing.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

namespace evenpull {
namespace {

constexpr double same_stage_of_plan = 1 / 1.8;  // K: a degree Fahrenheit
// Further off than this no panel reads: another unit, or a slip of the hand. As on the plan's page.
constexpr double far_off = 6;

bool same(double a, double b) { return std::abs(a - b) <= same_stage_of_plan; }

using PlaceOfStep = std::tuple<int, int, int>;
PlaceOfStep place_of_step(const OrderStep& s) { return {static_cast<int>(s.side), s.bay, s.strip}; }

// Steps of the plan that were worked.
std::vector<bool> worked_steps(const PlanDigest& plan, const WorkSoFar& work) {
  std::vector<bool> out;
  for (const PlanDigest::Step& p : plan.steps)
    out.push_back(std::any_of(work.steps.begin(), work.steps.end(), [&](const OrderStep& w) {
      return place_of_step(w) == place_of_step(p.step) && same(w.temperature, p.step.temperature) &&
             w.pass == p.step.pass;
    }));
  return out;
}

// The stage all of whose steps are worked, if nothing of a hotter one was.
std::optional<int> stage_just_done(const PlanDigest& plan, const WorkSoFar& work, const std::vector<bool>& worked) {
  if (work.steps.empty()) return {};
  const double last = work.steps.back().temperature;
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    if (same(plan.steps[i].step.temperature, last) && !worked[i]) return {};
  for (std::size_t s = 0; s < plan.stages.size(); ++s)
    if (same(plan.stages[s].temperature, last)) return static_cast<int>(s);
  return {};
}

// Sags apart by less than a reading tells.
constexpr double same_reading = 5e-5;  // m
// A bay whose pull is off what was expected by more than mesh, formula and reading explain is put to the plan; judgement.
constexpr double off_by_reading = 1.15;

bool is_in_plan(const PlanDigest& plan, const WorkSoFar::Reading& r) {
  return std::any_of(plan.read.begin(), plan.read.end(), [&](const WorkSoFar::Reading& p) {
    return same(p.after, r.after) && p.reading.shape == r.reading.shape && p.reading.side == r.reading.side &&
           p.reading.bay == r.reading.bay && std::abs(p.reading.sag - r.reading.sag) < same_reading &&
           std::abs(p.reading.value - r.reading.value) < same_reading && p.reading.tone == r.reading.tone;
  });
}

// None of a window, and off by more than what is left open: the verdict may be another one with it.
bool asks_the_plan(const ReadingJudged& r) {
  if (r.of_window || r.reading.reading.shape || r.expected <= 0) return false;
  const double sag = r.reading.reading.sag;
  return (r.says == ReadingSays::less && sag * off_by_reading < r.least) ||
         (r.says == ReadingSays::more && sag > r.most * off_by_reading);
}

const PlanDigest::Stage* stage_at(const PlanDigest& plan, double kelvin) {
  for (const PlanDigest::Stage& s : plan.stages)
    if (same(s.temperature, kelvin)) return &s;
  return nullptr;
}

ReadingSays says(double read, double expected, double least, double most) {
  if (read < expected / far_off || read > expected * far_off) return ReadingSays::far_off;
  return read < least ? ReadingSays::less : read > most ? ReadingSays::more : ReadingSays::inside;
}

ReadingJudged judged_shape(const PlanDigest::Stage& stage, ReadingJudged r) {
  for (const PlanDigest::Shape& s : stage.shapes)
    if (s.limit == *r.reading.reading.shape) {
      r.expected = s.expected, r.most = s.stop;
      r.says = r.reading.reading.value > s.stop ? ReadingSays::more : ReadingSays::inside;
    }
  return r;
}

ReadingJudged judged(const PlanDigest& plan, const WorkSoFar::Reading& reading) {
  ReadingJudged r{reading};
  const PlanDigest::Stage* stage = stage_at(plan, reading.after);
  const Measured& m = reading.reading;
  if (!stage || m.tone > 0) return r;
  if (m.shape) return is_in_plan(plan, reading) ? r : judged_shape(*stage, std::move(r));
  const auto take = [&](const std::vector<PlanDigest::Bay>& bays, bool window) {
    for (const PlanDigest::Bay& b : bays) {
      if (b.side != m.side || b.bay != m.bay) continue;
      const double times = m.weight / b.weight;  // the sag goes with the weight
      r.expected = b.expected * times, r.least = b.least * times, r.most = b.most * times;
      r.says = says(m.sag, r.expected, r.least, r.most), r.of_window = window;
    }
  };
  take(stage->bays, false);
  take(stage->window, true);
  if (is_in_plan(plan, reading)) r.says = ReadingSays::in_the_plan;
  return r;
}

struct WindowState {
  bool less = false;
  std::vector<PlanDigest::Bay> again{}, not_read{};
  bool open() const { return !less && again.empty() && not_read.empty(); }
};

// The last reading of each bay of a window counts: it was read again after it was worked again.
WindowState window_state(const PlanDigest::Stage& stage, const std::vector<ReadingJudged>& readings) {
  WindowState out;
  for (const PlanDigest::Bay& b : stage.window) {
    const ReadingJudged* last = nullptr;
    for (const ReadingJudged& r : readings)
      if (r.of_window && same(r.reading.after, stage.temperature) && r.reading.reading.side == b.side &&
          r.reading.reading.bay == b.bay)
        last = &r;
    if (!last || last->says == ReadingSays::far_off) out.not_read.push_back(b);
    else if (last->says == ReadingSays::more) out.again.push_back(b);
    else if (last->says == ReadingSays::less) out.less = true;
  }
  return out;
}

// The plan has the stage for readings alone, and every one of them was read inside.
bool opened_by_reading(const PlanDigest& plan, const OrderStep& w, const std::vector<ReadingJudged>& readings) {
  const bool by_reading = std::any_of(plan.steps.begin(), plan.steps.end(), [&](const PlanDigest::Step& p) {
    return p.only_by_reading && same(p.step.temperature, w.temperature);
  });
  return by_reading && std::any_of(plan.stages.begin(), plan.stages.end(), [&](const PlanDigest::Stage& s) {
           return s.next && same(*s.next, w.temperature) && !s.window.empty() && window_state(s, readings).open();
         });
}

void look_off_plan(const PlanDigest& plan, const WorkSoFar& work, const std::vector<bool>& worked, JobStanding& out) {
  std::set<OffPlan> off;
  for (const OrderStep& w : work.steps) {
    if (w.temperature > plan.hottest_safe.value_or(0) + same_stage_of_plan && !opened_by_reading(plan, w, out.readings))
      off.insert(OffPlan::hotter_than_safe);
    if (std::none_of(plan.steps.begin(), plan.steps.end(),
                     [&](const PlanDigest::Step& p) { return same(p.step.temperature, w.temperature); }))
      off.insert(work.sole_differed ? OffPlan::sole_differed : OffPlan::not_of_the_plan);
  }
  const auto last = std::find(worked.rbegin(), worked.rend(), true);
  const auto end = static_cast<std::size_t>(worked.rend() - last);  // one past the last step worked
  for (std::size_t i = 0; i < end; ++i) {
    if (worked[i]) continue;
    const PlanDigest::Step &p = plan.steps[i], &at = plan.steps[end - 1];
    const bool earlier = !same(p.step.temperature, at.step.temperature) || p.step.pass != at.step.pass;
    off.insert(earlier ? OffPlan::left_out : OffPlan::before_its_turn);
    if (earlier) out.left_out.push_back(p.label);
  }
  out.off.assign(off.begin(), off.end());
}

void look_at_window(const PlanDigest::Stage& stage, JobStanding& out) {
  const WindowState at = window_state(stage, out.readings);
  out.not_read = at.not_read, out.again = at.again;
  if (at.less) out.move = NextMove::stop;
  else if (!out.again.empty()) out.move = NextMove::work_again;
  else if (!out.not_read.empty()) out.move = NextMove::read_first;
  // A window that opens a stage beyond the safe one: without it the job is done here.
  if (stage.needed && out.move != NextMove::work && out.move != NextMove::work_again) out.move = NextMove::finished;
}

// A shape past where to stop stays so until the plan was made with it, and so does a bay that pulled too much before
// hotter work was begun.
bool reading_says_stop(const PlanDigest& plan, const WorkSoFar& work, const std::vector<ReadingJudged>& readings) {
  const auto bent = [](const ReadingJudged& r) { return r.reading.reading.shape && r.says == ReadingSays::more; };
  const auto passed_over = [&](const PlanDigest::Stage& s) {
    return !work.steps.empty() && work.steps.back().temperature > s.temperature + same_stage_of_plan &&
           window_state(s, readings).less;
  };
  return std::any_of(readings.begin(), readings.end(), bent) ||
         std::any_of(plan.stages.begin(), plan.stages.end(), passed_over);
}

// Steps that come next, to the next turn-over or the end of the pass.
std::vector<int> next_steps(const PlanDigest& plan, const std::vector<bool>& worked, bool opened) {
  std::vector<int> out;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    const PlanDigest::Step& p = plan.steps[i];
    if (worked[i]) continue;
    if (!p.to_be_ironed && !(opened && p.only_by_reading)) continue;
    if (!out.empty()) {
      const PlanDigest::Step& first = plan.steps[static_cast<std::size_t>(out.front())];
      if (p.run != first.run || p.step.pass != first.step.pass || !same(p.step.temperature, first.step.temperature))
        break;
    }
    out.push_back(static_cast<int>(i));
  }
  return out;
}

}  // namespace

int passes_of(const PlanDigest& plan, double stage) {
  int most = 0;
  for (const PlanDigest::Step& s : plan.steps)
    if (same(s.step.temperature, stage)) most = std::max(most, s.step.pass);
  return most;
}

JobStanding standing_of(const PlanDigest& plan, const WorkSoFar& work) {
  JobStanding out;
  const std::vector<bool> worked = worked_steps(plan, work);
  for (std::size_t i = 0; i < worked.size(); ++i)
    if (plan.steps[i].to_be_ironed) ++out.to_work, out.done += worked[i];
  for (const WorkSoFar::Reading& r : work.readings) out.readings.push_back(judged(plan, r));
  look_off_plan(plan, work, worked, out);
  if (std::any_of(out.readings.begin(), out.readings.end(), asks_the_plan)) out.off.push_back(OffPlan::reads_otherwise);
  out.stage_done = stage_just_done(plan, work, worked);
  bool opened = false;
  if (out.stage_done) {
    const PlanDigest::Stage& stage = plan.stages[static_cast<std::size_t>(*out.stage_done)];
    look_at_window(stage, out);
    opened = !stage.window.empty() && out.move == NextMove::work;
  }
  out.stops = work.stops;
  if (reading_says_stop(plan, work, out.readings)) out.move = NextMove::stop;
  const bool hotter = std::find(out.off.begin(), out.off.end(), OffPlan::hotter_than_safe) != out.off.end();
  if (!out.stops.empty() || hotter) out.move = NextMove::stop;
  else if (!out.off.empty() && out.move != NextMove::stop) out.move = NextMove::plan_anew;
  out.next = next_steps(plan, worked, opened || (!work.steps.empty() && !out.stage_done));
  if (out.next.empty() && out.move == NextMove::work) out.move = NextMove::finished;
  return out;
}

}  // namespace evenpull
