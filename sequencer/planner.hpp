// The main job: from a case to a plan.
#pragma once

#include "sequencer/order_steps.hpp"
#include "sequencer/plan.hpp"
#include "sequencer/step_model.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace evenpull {

struct PlanOptions {
  AccuracyWish accuracy = AccuracyWish::normal;
  std::optional<int> turn_overs;  ///< most in a pass that is wanted
  bool only_rules = false;   ///< no order is searched: only those that can be said in a sentence
  ParallelFor parallel;      ///< unset: one after the other
  std::function<void(double share_done, const std::string& what)> progress;  ///< may be called from any thread
};

/// Ranks orders, replays the best ones in full, judges, and reports. Throws CaseError, NotConverged.
Plan make_plan(const Case& c, const PlanOptions& options);

/// Goes on from work half done: `done` are the steps worked so far. Only what is still to come is judged. Throws as
/// make_plan, and CaseError (key "order") when a step names what the panel does not have.
Plan make_plan_from(const Case& c, const std::vector<OrderStep>& done, const PlanOptions& options);

/// Runs the order somebody chose. Throws CaseError (key "order") when a step names what the panel does not have.
Plan replay_order(const Case& c, const std::vector<OrderStep>& order, const PlanOptions& options);

}  // namespace evenpull
