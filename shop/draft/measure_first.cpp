#include "shop/draft/measure_first.hpp"

#include "sequencer/orders/families.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/replay/replay.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenpull {
namespace {

// How far a rib may stand from where the tape says: estimate.
constexpr double rib_off = 0.0254 / 8;  // m

// As scenarios are run (sequencer/sure/scenario_runs.cpp): on their mesh, so many zones of a run at one time. What is
// compared was done alike, and takes an eighth of the time.
constexpr int zones_at_once = 6;

/// Nothing where the change clashes with another answer.
std::optional<DraftAnswers> changed_answers(const DraftAnswers& all, Ask ask, DraftAnswer answer) {
  DraftAnswers out = all;
  answer.usual = false;
  out.set(ask, std::move(answer));
  out = with_usual_anew(out);
  for (const DraftQuestion* q : asked_questions(out))
    if (!out.find(q->ask) || trouble_with(q->ask, out)) return {};
  return out;
}

void change_size(const DraftAnswers& all, const DraftQuestion& q, std::vector<TapeChange>& out) {
  const GivenSize& now = all.at(q.ask).sizes.front();
  for (const double by : {q.tape, -q.tape}) {
    DraftAnswer other = all.at(q.ask);
    other.sizes = {written_like(now.value + by, now.text)};
    if (now.value + by < q.least || now.value + by > q.most) continue;
    if (auto answers = changed_answers(all, q.ask, std::move(other))) {
      out.push_back({q.ask, by, 0, std::move(*answers)});
      return;
    }
  }
}

std::vector<GivenSize> rib_places(const DraftAnswers& all) {
  if (all.is(Ask::even, draft_no)) return all.at(Ask::stations).sizes;
  const GivenSize& span = all.at(Ask::span).sizes.front();
  const int bays = all.at(Ask::bays).value;
  std::vector<GivenSize> out;
  for (int i = 0; i < bays; ++i) out.push_back(written_like(span.value * i / bays, span.text));
  out.push_back(span);
  return out;
}

/// The widest bay wider, by the rib that is no end rib.
void change_bay(DraftAnswers all, std::vector<TapeChange>& out) {
  std::vector<GivenSize> y = rib_places(all);
  if (y.size() < 3) return;
  std::size_t widest = 1;
  for (std::size_t i = 2; i < y.size(); ++i)
    if (y[i].value - y[i - 1].value > y[widest].value - y[widest - 1].value + 1e-6) widest = i;
  const bool last = widest + 1 == y.size();
  GivenSize& rib = y[last ? widest - 1 : widest];
  rib = written_like(rib.value + (last ? -rib_off : rib_off), rib.text);
  DraftAnswer uneven;
  uneven.value = draft_no;
  all.set(Ask::even, uneven);
  DraftAnswer stations;
  stations.sizes = std::move(y);
  if (auto answers = changed_answers(all, Ask::stations, std::move(stations)))
    out.push_back({Ask::stations, rib_off, static_cast<int>(widest), std::move(*answers)});
}

bool bars_a_stage(const LimitReading& r) { return kind_of(r.limit) != LimitKind::finish; }

const LimitReading* worst_of(const StageVerdict& v) {
  const LimitReading* worst = nullptr;
  for (const LimitReading& r : v.limits)
    if (bars_a_stage(r) && !r.gave_way && std::isfinite(r.use) && (!worst || r.use > worst->use)) worst = &r;
  return worst;
}

/// The easiest rule, as stated, up to a stage.
ReplayResult worked_by_rule(const Case& c, int last_stage) {
  const Model m(c, scenario_mesh());
  std::vector<Step> steps = steps_of(c, m.panel, order_families(m.panel).front());
  std::erase_if(steps, [&](const Step& s) { return s.stage > last_stage; });
  ReplayOptions options;
  options.at_once = zones_at_once;
  return replay(m, steps, options);
}

double size_of(const TapeEffect& e) { return e.change ? std::abs(*e.change) : std::numeric_limits<double>::infinity(); }

/// The use of the limit that governs; none where the frame gives way before.
std::optional<double> use_again(const Case& c, const FirstLook& look) {
  const ReplayResult r = worked_by_rule(c, look.stage);
  for (const StageVerdict& v : r.stages) {
    if (v.buckled) return {};
    if (v.stage != look.stage) continue;
    double use = -1;
    for (const LimitReading& l : v.limits)
      if (l.limit == look.governs.limit && !l.gave_way) use = std::max(use, l.use);
    if (use >= 0) return use;
  }
  return {};
}

}  // namespace

std::vector<TapeChange> tape_changes(const DraftAnswers& answers) {
  std::vector<TapeChange> out;
  for (const DraftQuestion* q : asked_questions(answers)) {
    if (q->ask == Ask::span && answers.is(Ask::even, draft_no)) continue;  // its end rib goes with it
    if (q->tape > 0) change_size(answers, *q, out);
  }
  change_bay(answers, out);
  out.push_back({Ask::cloth, Spreads{}.pull(), 0, answers});
  return out;
}

Case with_more_pull(Case c, double share) {
  for (ShrinkPoint& p : c.cloth.curve) p.pull.warp *= 1 + share, p.pull.fill *= 1 + share;
  return c;
}

std::optional<FirstLook> first_look(const Case& c) {
  const ReplayResult r = worked_by_rule(c, static_cast<int>(c.stages.size()) - 1);
  std::optional<FirstLook> look;
  for (const StageVerdict& v : r.stages) {
    if (v.buckled) break;
    if (const LimitReading* worst = worst_of(v)) look = FirstLook{v.stage, *worst};
    if (look && look->governs.use > 1) break;
  }
  if (look && !(look->governs.use > 0)) return {};
  return look;
}

std::vector<TapeEffect> tape_effects(const FirstLook& look, const std::vector<TapeChange>& changes,
                                     const std::vector<Case>& cases, const ParallelFor& parallel,
                                     const std::function<void()>& done) {
  std::vector<std::optional<TapeEffect>> found(cases.size());
  const auto run = [&](int i) {
    const auto n = static_cast<std::size_t>(i);
    TapeEffect e{changes[n].ask, changes[n].by, changes[n].rib, {}};
    try {
      if (const auto use = use_again(cases[n], look)) e.change = *use / look.governs.use - 1;
      found[n] = e;
    } catch (const NotConverged&) {  // nothing can be said of that size
    }
    if (done) done();
  };
  if (parallel) parallel(static_cast<int>(cases.size()), run);
  else one_by_one(static_cast<int>(cases.size()), run);
  std::vector<TapeEffect> out;
  for (const auto& e : found)
    if (e) out.push_back(*e);
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return size_of(a) > size_of(b); });
  return out;
}

}  // namespace evenpull
