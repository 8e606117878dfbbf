// The main job: from a case to a plan.
#pragma once

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
  ParallelFor parallel;      ///< unset: one after the other
  std::function<void(double share_done, const std::string& what)> progress;  ///< may be called from any thread
};

/// A step as an order file states it: free of any mesh. Counted from 1, as the reader sees it.
struct OrderStep {
  double temperature = 0;  ///< K, one of the case's stages
  int pass = 1;
  Side side = Side::top;
  int bay = 1;
  int strip = 1;
  double dose = 1;
};

/// Estimate of what `make_plan` will take on this class of machine, for `survey`.
struct RunEstimate {
  int nodes = 0, zones = 0, steps = 0;
  double seconds = 0;
};
RunEstimate estimate_run(const Case& c, AccuracyWish a);

/// Ranks orders, replays the best ones in full, judges, and reports. Throws CaseError, NotConverged.
Plan make_plan(const Case& c, const PlanOptions& options);

/// Goes on from work half done: `done` are the steps worked so far. Only what is still to come is judged. Throws as
/// make_plan, and CaseError (key "order") when a step names what the panel does not have.
Plan make_plan_from(const Case& c, const std::vector<OrderStep>& done, const PlanOptions& options);

/// Runs the order somebody chose. Throws CaseError (key "order") when a step names what the panel does not have.
Plan replay_order(const Case& c, const std::vector<OrderStep>& order, const PlanOptions& options);

}  // namespace evenpull
