// The steps of a plan grouped as a person works them: stage, order (passes that share it), run.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// What is worked between two turn-overs.
struct Run {
  int number = 1;
  std::vector<int> zones;     ///< indices into Panel::zones, as worked
  std::vector<int> places;    ///< place of each in the pass
  std::vector<double> doses;  ///< of each, in the first pass that follows this order
  std::vector<char> done{};   ///< of each: worked before the plan was made
};

/// An order and the passes of a stage that follow it.
struct StageOrder {
  std::vector<int> passes;    ///< from 1
  std::vector<double> doses;  ///< of each pass
  bool mixed = false;         ///< the zones of the (only) pass have different doses: say them zone by zone
  std::vector<Run> runs;
};

/// In the order of the first pass that uses each. Passes that were done before the plan was made are left out; in the pass
/// begun, zones that are done stay and are marked.
std::vector<StageOrder> orders_of_stage(const Plan& plan, int stage);
/// True if every stage up to and including `last` works every pass in one and the same order.
bool one_order_throughout(const Plan& plan, int last);
/// "TOP", "BOTTOM" or "BOTH".
std::string run_side(const Panel& panel, const Run& run);
/// Said of a run whose zones are all done.
inline constexpr const char* run_done = "done";
/// "T7 T10 T4"; "T7 light T10 full" when the doses are mixed.
std::string run_zones(const Panel& panel, const Run& run, bool with_doses);
/// Places of each zone in an order as words: "7", "7, 31" when it is worked twice, "" when it is left out, "done".
std::vector<std::string> places_by_zone(const Panel& panel, const StageOrder& order);

}  // namespace evenpull::viz
