#include "sequencer/planner/planner.hpp"

#include "sequencer/choice/choice.hpp"
#include "sequencer/choice/extra_stage.hpp"
#include "sequencer/choice/front.hpp"
#include "sequencer/choice/heat_plan.hpp"
#include "sequencer/choice/mid_work.hpp"
#include "sequencer/choice/pass_choice.hpp"
#include "sequencer/numbers/meter.hpp"
#include "sequencer/orders/families.hpp"
#include "sequencer/planner/advice.hpp"
#include "sequencer/planner/plan_notes.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "sequencer/search/order_finder.hpp"
#include "sequencer/sure/chance_study.hpp"
#include "sequencer/sure/error_bars.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <memory>
#include <numeric>

namespace evenpull {
namespace {

// Always run in full beside the best two: a rule that most would follow, and the public handbook's jumping.
constexpr Family usual_orders[] = {Family::halving, Family::jumping};

// The coarse mesh may be off by as much as is left to the limit.
constexpr double hangs_by_a_hair = 0.9;

class Planner {
 public:
  Planner(const Case& c, const PlanOptions& o) : case_(c), options_(o), meter_(options_.progress), full_(c, plan_mesh(c, o.accuracy)) {
    if (!options_.parallel) options_.parallel = one_by_one;
  }

  Plan plan(PassChoice passes) {
    trials_ = std::move(passes.trials);
    left_out_ = std::move(passes.unsolved);
    rank();
    replay_finalists();
    return finish();
  }

  Plan go_on_from(std::vector<Step> done) {
    check_goes_on(case_, full_.panel, done);
    done_ = std::move(done);
    number_steps(full_.panel, done_);
    rank();
    replay_finalists();
    return finish();
  }

  Plan replay_given(std::vector<Step> steps) {
    meter_.span(0, 0.4, 1, "running your order");
    Tried t;
    t.order.name = "as given";
    t.order.rule = "The order you gave.";
    ReplayWish wish;
    wish.snapshots = wish.states = wish.certified = true;
    wish.progress = meter_.job(0);
    number_steps(full_.panel, steps);
    t.result = replay(full_, steps, wish);
    t.full = true;
    given_ = std::move(steps);
    full_tried_.push_back(std::move(t));
    Plan p = finish();
    p.replayed = true;
    return p;
  }

  const Panel& panel() const { return full_.panel; }

 private:
  bool quick() const { return options_.accuracy == AccuracyWish::quick; }

  // Families and the searched orders on the coarse mesh.
  void rank() {
    const Model coarse(case_, {quick() ? search_nodes : coarse_nodes});
    meter_.span(0, 0.15, 1, "searching for an order");
    std::vector<Order> orders = order_families(coarse.panel);
    if (!done_.empty()) {
      // The side worked last, once more first, saves a turn-over.
      if (options_.turn_overs)
        for (const Order& o : order_families(coarse.panel)) orders.push_back(mirrored(coarse.panel, o, true, false));
      search_rest_of_pass(orders);
    } else if (!options_.only_rules) {
      const bool searched = one_run("the search for an order", [&] {
        finder_ = std::make_unique<OrderFinder>(case_, options_.accuracy, options_.parallel);
        for (Order& o : finder_->find()) orders.push_back(std::move(o));
      });
      if (!searched) finder_.reset();
    }
    run_coarse(coarse, orders, 0.15, 0.27);
    if (ranked_.empty()) throw *failure_;
    if (options_.turn_overs) keep_within(*options_.turn_overs);
    rank_mirrored(coarse);
  }

  // A panel need not be alike on both sides and at both ends: the best order is also tried in the mirror, the other rules
  // from the other end. Only what is clearly better than the best as it was stays.
  void rank_mirrored(const Model& coarse) {
    const int best = best_of(summaries(ranked_), count_turn_overs());
    const Order order = ranked_[best].order;
    const OrderResult plain = summarise(ranked_[best], coarse.panel);
    const std::size_t unmirrored = ranked_.size();
    std::vector<Order> mirrors = {mirrored(coarse.panel, order, true, false), mirrored(coarse.panel, order, false, true),
                                  mirrored(coarse.panel, order, true, true)};
    for (const Order& rule : order_families(coarse.panel))
      if (rule.name != order.name && is_ranked(rule.name)) mirrors.push_back(mirrored(coarse.panel, rule, false, true));
    std::erase_if(mirrors, [&](const Order& m) { return is_ranked_as(m.zones); });
    run_coarse(coarse, mirrors, 0.27, 0.3);
    for (std::size_t i = ranked_.size(); i-- > unmirrored;)
      if (to_come_a_pass(ranked_[i]) > most_turn_overs_ ||
          !clearly_better(summarise(ranked_[i], coarse.panel), plain, count_turn_overs()))
        ranked_.erase(ranked_.begin() + static_cast<std::ptrdiff_t>(i));
    if (!front_orders_.empty())
      front_orders_.insert(front_orders_.end(), ranked_.begin() + static_cast<std::ptrdiff_t>(unmirrored), ranked_.end());
  }

  bool is_ranked(const std::string& name) const {
    return std::any_of(ranked_.begin(), ranked_.end(), [&](const Tried& t) { return t.order.name == name; });
  }

  bool is_ranked_as(const std::vector<int>& zones) const {
    return std::any_of(ranked_.begin(), ranked_.end(),
                       [&](const Tried& t) { return t.order.by_stage.empty() && t.order.zones == zones; });
  }

  int to_come_a_pass(const Tried& t) const { return turn_overs_a_pass(t.result.planned, last_stage()); }

  // Orders with more turn-overs a pass than wanted step back; if all have more, those with the fewest stay.
  void keep_within(int wanted) {
    int fewest = std::numeric_limits<int>::max();
    for (const Tried& t : ranked_) fewest = std::min(fewest, to_come_a_pass(t));
    if (fewest > wanted) turn_over_note_ = too_few_turn_overs(wanted, fewest);
    most_turn_overs_ = std::max(wanted, fewest);
    front_orders_ = ranked_;
    std::erase_if(ranked_, [&](const Tried& t) { return to_come_a_pass(t) > most_turn_overs_; });
  }

  int last_stage() const { return static_cast<int>(case_.stages.size()) - 1; }

  // Going on: the searched order of what the pass begun still lacks, then the usual order.
  void search_rest_of_pass(std::vector<Order>& orders) {
    RestFound found;
    if (!one_run("the search for the rest of the pass",
                 [&] { found = search_rest(case_, done_, quick() ? 1 : 4, options_.parallel); }))
      return;
    begun_note_ = steps_done_note(found);
    waits_ = found.waits;
    if (found.rest.empty()) return;
    for (Order o : order_families(full_.panel)) {
      if (o.family != Family::halving) continue;
      o.family = Family::none;
      o.name = "searched for the rest of the pass";
      o.rule = "The rest of this pass has no rule: follow the numbers. Then: " + o.rule;
      o.rest = found.rest;
      o.ease = 9;
      orders.push_back(std::move(o));
    }
  }

  std::vector<Step> steps_for(const Panel& p, const Order& o) const {
    return done_.empty() ? steps_of(case_, p, o) : go_on(case_, p, done_, o);
  }

  // One run by itself; false where it found no equilibrium, which is told in a note.
  bool one_run(const std::string& name, const std::function<void()>& work) {
    TrialRuns runs(1, options_.before_run);
    runs.run(0, name, work);
    note_unsolved(runs);
    return runs.solved(0);
  }

  void note_unsolved(const TrialRuns& runs) {
    for (std::string& name : runs.unsolved()) left_out_.push_back(std::move(name));
    if (!failure_) failure_ = runs.first_failure();
  }

  void run_coarse(const Model& coarse, const std::vector<Order>& orders, double from, double to) {
    std::vector<Tried> tried(orders.size());
    TrialRuns runs(orders.size(), options_.before_run);
    meter_.span(from, to, static_cast<int>(orders.size()), "ranking orders on a coarse mesh");
    options_.parallel(static_cast<int>(orders.size()), [&](int i) {
      ReplayWish wish;
      wish.progress = meter_.job(i);
      tried[i].order = orders[i];
      runs.run(static_cast<std::size_t>(i), "coarse mesh: " + orders[i].name,
               [&] { tried[i].result = replay(coarse, steps_for(coarse.panel, orders[i]), wish); });
    });
    for (std::size_t i = 0; i < tried.size(); ++i)
      if (runs.solved(i)) ranked_.push_back(std::move(tried[i]));
    note_unsolved(runs);
  }

  bool count_turn_overs() const { return !case_.both_sides_reachable; }

  std::vector<OrderResult> summaries(const std::vector<Tried>& tried) const {
    std::vector<OrderResult> out;
    for (const Tried& t : tried) out.push_back(summarise(t, full_.panel));
    return out;
  }

  // Where a stage hangs by a hair the easiest of nearly equal orders may lose it: then the one with the least use goes on
  // too.
  void choose_strictest(const std::function<void(int)>& choose) const {
    const std::vector<OrderResult> all = summaries(ranked_);
    const auto best = std::min_element(all.begin(), all.end(), [](const OrderResult& a, const OrderResult& b) {
      return a.stages_passed != b.stages_passed ? a.stages_passed > b.stages_passed : a.worst_use < b.worst_use;
    });
    if (best != all.end() && best->worst_use >= hangs_by_a_hair) choose(static_cast<int>(best - all.begin()));
  }

  // The finalists on the full mesh. Those that find no equilibrium there drop out; if none is left the next best are run.
  void replay_finalists() {
    while (full_tried_.empty()) {
      if (ranked_.empty()) throw *failure_;
      run_in_full(finalists());
    }
  }

  // The best of the ranking and, unless it has to be quick, the two usual orders, in the order of their ease.
  std::vector<int> finalists() const {
    std::vector<OrderResult> left = summaries(ranked_);
    std::vector<int> index(ranked_.size());
    std::iota(index.begin(), index.end(), 0);
    std::vector<int> chosen;
    const auto choose = [&](int i) {
      if (std::find(chosen.begin(), chosen.end(), i) == chosen.end()) chosen.push_back(i);
    };
    // The quick ranking is the coarser one: what it holds for nearly as good goes on too.
    const int wanted = quick() ? 3 : 2;
    for (int k = 0; k < wanted && !left.empty(); ++k) {
      const int best = best_of(left, count_turn_overs());
      choose(index[best]);
      left.erase(left.begin() + best);
      index.erase(index.begin() + best);
    }
    if (!quick()) choose_strictest(choose);
    if (!quick())
      for (std::size_t i = 0; i < ranked_.size(); ++i)
        for (const Family usual : usual_orders)
          if (ranked_[i].order.family == usual) choose(static_cast<int>(i));
    std::sort(chosen.begin(), chosen.end());
    return chosen;
  }

  void run_in_full(const std::vector<int>& which) {
    std::vector<Tried> tried(which.size());
    TrialRuns runs(which.size(), options_.before_run);
    meter_.span(0.3, 0.6, static_cast<int>(which.size()), "running the best orders in full");
    options_.parallel(static_cast<int>(which.size()), [&](int i) {
      ReplayWish wish;
      wish.snapshots = wish.states = wish.certified = true;
      wish.progress = meter_.job(i);
      Tried& t = tried[i];
      t.order = ranked_[which[i]].order;
      t.full = true;
      runs.run(static_cast<std::size_t>(i), "full mesh: " + t.order.name,
               [&] { t.result = replay(full_, steps_for(full_.panel, t.order), wish); });
    });
    note_unsolved(runs);
    for (std::size_t i = 0; i < tried.size(); ++i) {
      if (runs.solved(i)) {
        full_tried_.push_back(std::move(tried[i]));
        continue;
      }
      const auto same = [&](const Tried& t) { return t.order.name == tried[i].order.name; };
      std::erase_if(ranked_, same);
      std::erase_if(front_orders_, same);
    }
  }

  // Error bars and bounds of the chosen order: gives its stages with the bars.
  std::vector<StageVerdict> study(const Tried& chosen) {
    if (quick()) return chosen.result.stages;
    Case free = case_, glued = case_;
    free.blanket.inner_ribs = RibTie::free;
    glued.blanket.inner_ribs = RibTie::glued;
    struct Job {
      const Case* the_case;
      MeshWish wish;
      std::string name;
    };
    std::vector<Job> jobs;
    for (const MeshWish& wish : study_meshes_of(case_, options_.accuracy))
      jobs.push_back({&case_, wish, "error bars: mesh " + std::to_string(wish.fineness) + ", zones in " +
                                        std::to_string(wish.zone_parts)});
    const std::size_t levels = jobs.size();
    const MeshWish plain = plan_mesh(case_, options_.accuracy);
    if (full_.panel.bays > 1)
      jobs.push_back({&free, plain, "inner ribs free"}), jobs.push_back({&glued, plain, "inner ribs glued"});
    // A stage in which the plan's own mesh gave way is run whole elsewhere: a part of it says nothing of its end.
    std::vector<Step> steps = chosen.result.planned;
    std::erase_if(steps, [&](const Step& s) { return s.stage > chosen.result.stages.back().stage; });
    std::vector<StudyRun> runs(jobs.size());
    TrialRuns trials(jobs.size(), options_.before_run);
    meter_.span(0.6, 0.75, static_cast<int>(jobs.size()), "error bars: other meshes, smaller zones, other rib ties");
    options_.parallel(static_cast<int>(jobs.size()), [&](int i) {
      trials.run(static_cast<std::size_t>(i), jobs[i].name, [&] {
        runs[i] = run_for_study(*jobs[i].the_case, jobs[i].wish, full_.panel, steps, meter_.job(i));
      });
      if (!trials.solved(static_cast<std::size_t>(i))) runs[i] = unsolved_study(jobs[i].wish);
    });
    for (std::size_t i = levels; i < runs.size(); ++i) {
      if (runs[i].unsolved) left_out_.push_back(jobs[i].name);
      else bounds_.push_back(bound(jobs[i].name, runs[i].stages));
    }
    runs.resize(levels);
    for (const StudyRun& r : runs) {
      if (r.unsolved) unsolved_from_ = std::min(unsolved_from_, r.stages.empty() ? 0 : r.stages.back().stage + 1);
      else if (!r.stages.empty() && r.stages.back().buckled) gave_way_from_ = std::min(gave_way_from_, r.stages.back().stage);
    }
    runs.push_back(as_study_run(full_.panel, plain, chosen.result.stages));
    note_levels(runs);
    return with_error_bars(chosen.result.stages, runs);
  }

  StudyRun unsolved_study(const MeshWish& wish) const {
    StudyRun r = as_study_run(build_panel(case_, wish), wish, {});
    r.unsolved = true;
    return r;
  }

  void note_levels(const std::vector<StudyRun>& runs) {
    for (const StudyRun& r : runs) levels_.push_back({r.nodes, r.edge, r.zone_parts});
    std::sort(levels_.begin(), levels_.end(), [](const StudyLevel& a, const StudyLevel& b) {
      return a.zone_parts != b.zone_parts ? a.zone_parts < b.zone_parts : a.edge > b.edge;
    });
  }

  static BoundRun bound(const std::string& name, const std::vector<StageVerdict>& stages) {
    BoundRun b;
    b.name = name;
    for (const StageVerdict& v : stages) {
      if (v.limits.empty()) {
        b.first_stage = v.stage + 1;
        continue;
      }
      b.worst_use.push_back(v.buckled ? std::nullopt : std::optional(governing(v.limits).use));
      b.worst_slip = std::max(b.worst_slip, v.worst_slip);
      for (const LimitReading& l : v.limits)
        if (l.limit == Limit::unevenness) b.unevenness_final = l.value;
    }
    return b;
  }

  std::optional<double> setting(const Tried& chosen, const std::vector<StageVerdict>& judged,
                                std::optional<int> ceiling) {
    const int next = ceiling ? *ceiling + 1 : 0;
    if (next >= static_cast<int>(judged.size())) return {};
    std::vector<Step> steps = given_.empty() ? steps_for(full_.panel, chosen.order) : given_;
    std::erase_if(steps, [&](const Step& s) { return s.stage != next; });
    // Cloth that has met the hotter stage already cannot be worked at a setting below it.
    if (std::any_of(steps.begin(), steps.end(), [](const Step& s) { return s.done; })) return {};
    meter_.span(0.75, 0.8, 1, "looking for the hottest setting");
    std::optional<double> found;
    one_run("the hottest setting between the stages", [&] {
      Ironing ironing(full_);
      const Covering before = ceiling ? chosen.result.stage_end[*ceiling] : ironing.begin();
      found = setting_between(ironing, before, judged, chosen.result.stages, ceiling, steps);
    });
    return found;
  }

  Plan finish() {
    const int best = best_of(summaries(full_tried_), count_turn_overs());
    Tried& chosen = full_tried_[best];
    std::vector<StageVerdict> judged = study(chosen);
    const std::optional<int> ceiling = stage_ceiling(judged, true);
    Plan p;
    p.the_case = case_;
    p.accuracy = options_.accuracy;
    p.ceiling = ceiling;
    p.setting = setting(chosen, judged, ceiling);
    p.advice = advise(case_, full_.panel, judged, ceiling, p.setting, quick());
    p.order_name = chosen.order.name;
    p.order_rule = chosen.order.rule;
    p.notes = notes_on(case_, full_.panel, judged, ceiling);
    tell_way_there(p, chosen, judged);
    list_orders(p, best, ceiling.value_or(0));
    tell_search(p, best);
    const std::optional<int> without_bars = stage_ceiling(judged, false);
    if (without_bars != ceiling && without_bars)
      p.notes.push_back(bars_decide(case_.stages[*without_bars].temperature, options_.accuracy));
    for (const StageVerdict& v : judged) {
      if (!gave_way_in_study(v)) continue;
      const double temperature = case_.stages[v.stage].temperature;
      if (v.stage >= gave_way_from_) p.notes.push_back(gave_way_elsewhere(temperature));
      if (v.stage >= unsolved_from_) p.notes.push_back(unsolved_elsewhere(temperature));
    }
    for (StageVerdict& v : judged) {
      for (const LimitReading& l : v.limits) p.limits.push_back(l);
      v.summary.worst_use = worst_use_up_to(judged, v.stage, true);
      v.summary.passes = ceiling && v.stage <= *ceiling;
      p.stages.push_back(v.summary);
    }
    p.bounds = bounds_;
    if (!quick()) {
      meter_.span(0.8, 1, 1, "how sure: the order in many ways the job may turn out");
      p.chances = study_chances(case_, chosen.result.planned, judged, chosen.result.stages, ceiling, options_.parallel,
                                meter_.job(0));
      if (!p.chances.note.empty()) p.notes.push_back(p.chances.note);
    }
    if (const std::string note = left_out(left_out_); !note.empty()) p.notes.push_back(note);
    p.solve = chosen.result.solve;
    p.certificates = std::move(chosen.result.certificates);
    p.study = levels_;
    const StageVerdict& last = judged[ceiling.value_or(0)];
    if (!quick() && !last.limits.empty()) {
      p.solve.mesh_change = mesh_change(last);
      p.solve.zone_change = zone_change(last);
    }
    p.steps = std::move(chosen.result.steps);
    p.snapshots = std::move(chosen.result.snapshots);
    p.stage_end_snapshot = std::move(chosen.result.stage_end_snapshot);
    p.panel = full_.panel;
    p.heat = plan_heat(case_, full_.panel);
    return p;
  }

  // Why the first stage that is not safe is not.
  void tell_way_there(Plan& p, const Tried& chosen, const std::vector<StageVerdict>& judged) const {
    const int next = p.ceiling ? *p.ceiling + 1 : 0;
    if (next >= static_cast<int>(judged.size()) || !given_.empty() || quick()) return;
    if (!is_over(judged[next])) return;  // loose cloth is no matter of the order
    const WayThere w = way_there(case_, chosen.order, done_, judged[next], chosen.result.stages[next]);
    const std::string text = way_there_text(case_, next, w);
    if (text.empty()) return;
    if (w.extra_stage) p.advice.advice.push_back(text);
    else p.advice.because += " " + text;
  }

  // How good the order is, what turn-overs cost, what must wait.
  void tell_search(Plan& p, int best) {
    p.pass_trials = trials_;
    if (finder_) {
      p.searched = finder_->stages();
      for (const Tried& t : full_tried_) {
        const std::vector<ModelError> errors = finder_->foretell(t.order, t.result.steps, t.result.moments);
        for (std::size_t s = 0; s < errors.size(); ++s) {
          ModelError& worst = p.searched[s].error;
          worst.stage = errors[s].stage;
          worst.use = std::max(worst.use, errors[s].use);
          worst.difference = std::max(worst.difference, errors[s].difference);
          worst.slip = std::max(worst.slip, errors[s].slip);
        }
      }
      p.gap_sentence = gap_sentence(case_, p.searched, p.ceiling);
    }
    if (!ranked_.empty() && count_turn_overs() && done_.empty()) {
      std::vector<OrderResult> all;
      for (const Tried& t : front_orders_.empty() ? ranked_ : front_orders_) {
        all.push_back(summarise_up_to(t, full_.panel, p.ceiling.value_or(0)));
        all.back().chosen = t.order.name == full_tried_[best].order.name;
      }
      p.front = front_of(all);
      p.front_sentence = front_sentence(p.front);
    }
    std::string passes = passes_sentence(case_, trials_);
    for (std::string* s : {&begun_note_, &turn_over_note_, &passes, &p.front_sentence, &p.gap_sentence})
      if (!s->empty()) p.notes.push_back(*s);
    p.notes.insert(p.notes.end(), waits_.begin(), waits_.end());
  }

  void list_orders(Plan& p, int best, int last) const {
    const auto is_full = [&](const std::string& name) {
      return std::any_of(full_tried_.begin(), full_tried_.end(), [&](const Tried& t) { return t.order.name == name; });
    };
    for (std::size_t i = 0; i < full_tried_.size(); ++i) {
      p.orders.push_back(summarise_up_to(full_tried_[i], full_.panel, last));
      p.orders.back().chosen = static_cast<int>(i) == best;
    }
    for (const Tried& t : ranked_)
      if (!is_full(t.order.name)) p.orders.push_back(summarise_up_to(t, full_.panel, last));
    if (const std::string note = steady_against_jumping(ranked_, full_.panel, last); !note.empty()) p.notes.push_back(note);
    if (ranked_.empty() || quick()) return;
    const int coarse_best = best_of(summaries(ranked_), count_turn_overs());
    if (ranked_[coarse_best].order.name != full_tried_[best].order.name)
      p.notes.push_back("The coarse mesh ranked \"" + ranked_[coarse_best].order.name +
                        "\" first, the full model did not; the plan follows the full model.");
  }

  const Case case_;
  PlanOptions options_;
  Meter meter_;
  Model full_;
  std::vector<Tried> ranked_, full_tried_;
  std::vector<Tried> front_orders_;  // before turn-overs were limited
  std::unique_ptr<OrderFinder> finder_;
  std::vector<PassTrial> trials_;
  std::vector<Step> done_;
  std::vector<std::string> waits_;
  std::string begun_note_, turn_over_note_;
  std::vector<StudyLevel> levels_;
  std::vector<BoundRun> bounds_;
  std::vector<Step> given_;
  std::vector<std::string> left_out_;    // runs that found no equilibrium
  std::optional<NotConverged> failure_;  // of the first of them
  int most_turn_overs_ = std::numeric_limits<int>::max();  // in a pass, of those still to come
  // Stages from which a run behind the error bars gave way, or was not solved.
  int gave_way_from_ = std::numeric_limits<int>::max(), unsolved_from_ = std::numeric_limits<int>::max();
};

}  // namespace

Plan make_plan(const Case& c, const PlanOptions& options) {
  PassChoice passes = options.accuracy == AccuracyWish::quick
                          ? with_enough_full_passes(c, options.before_run)
                          : choose_passes(c, options.parallel ? options.parallel : one_by_one, options.before_run);
  const Case with_passes = passes.the_case;
  return Planner(with_passes, options).plan(std::move(passes));
}

Plan make_plan_from(const Case& c, const std::vector<OrderStep>& done, const PlanOptions& options) {
  Planner planner(c, options);
  return planner.go_on_from(steps_from(c, planner.panel(), done));
}

Plan replay_order(const Case& c, const std::vector<OrderStep>& order, const PlanOptions& options) {
  Planner planner(c, options);
  return planner.replay_given(steps_from(c, planner.panel(), order));
}

}  // namespace evenpull
