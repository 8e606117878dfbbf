// The main job: from a case to a plan.
#pragma once

#include "sequencer/plan.hpp"

#include <functional>
#include <string>
#include <vector>

namespace evenpull {

/// Runs work(0) ... work(n - 1), in any order, on as many threads as the caller likes. Results do not depend on it.
using ParallelFor = std::function<void(int n, const std::function<void(int)>& work)>;

struct PlanOptions {
  AccuracyWish accuracy = AccuracyWish::normal;
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

/// Runs the order somebody chose. Throws CaseError (key "order") when a step names what the panel does not have.
Plan replay_order(const Case& c, const std::vector<OrderStep>& order, const PlanOptions& options);

}  // namespace evenpull
