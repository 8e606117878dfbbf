// The main job: from a case to a plan.
#pragma once

#include "sequencer/numbers/parallel_for.hpp"
#include "sequencer/orders/order_steps.hpp"
#include "sequencer/plan/plan.hpp"
#include "sequencer/planner/plan_part.hpp"
#include "sequencer/replay/trial_runs.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

struct KeptRuns;
struct OutcomeModel;

struct PlanOptions {
  Accuracy accuracy = Accuracy::normal;
  /// Most turn-overs wanted in a pass, of those still to come. A pass that works both sides has one at least; where no
  /// order has so few, those with the fewest are compared and the plan says so.
  std::optional<int> turn_overs;
  std::vector<Measured> measured{};  ///< sags read so far, of stages that are done
  bool only_rules = false;           ///< no order is searched: only those that can be said in a sentence
  const KeptRuns* kept = nullptr;    ///< of an interrupted plan of the same case and options by the same build; or none
  ParallelFor parallel;              ///< unset: one after the other
  PlanProgress progress;
  BeforeRun before_run;  ///< of each trial; unset but in tests
  /// Told what scenarios of the chosen order came to, as one distribution; unset but in tests and reports.
  std::function<void(const OutcomeModel&, const std::vector<Step>& planned)> outcomes;
};

/// Ranks orders, replays the best ones in full, judges, and reports. A trial that finds no equilibrium is left out and told
/// of in a note. Throws CaseError, and NotConverged where no order is left.
Plan make_plan(const Case& c, const PlanOptions& options);

/// Goes on from work half done: `done` are the steps worked so far. Only what is still to come is judged. Throws as
/// make_plan, and CaseError (key "order") when a step names what the panel does not have or nothing is left to do.
Plan make_plan_from(const Case& c, const std::vector<OrderStep>& done, const PlanOptions& options);

/// Runs the order somebody chose. Throws CaseError (key "order") when a step names what the panel does not have.
Plan replay_order(const Case& c, const std::vector<OrderStep>& order, const PlanOptions& options);

/// Runs an order on the mesh of a plan of that accuracy, to be set beside one: steps, moments, stages and the one entry of
/// `orders`, all as stated. Nothing is judged safe by it: no ceiling, no error bars, no chances, no advice. Throws as
/// replay_order.
Plan run_beside(const Case& c, const std::vector<OrderStep>& order, const PlanOptions& options);

}  // namespace evenpull::inline sequencer
