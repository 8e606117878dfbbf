// Asks for a quick plan of two bays: every zone comes once, and what is over its limit is not called safe.
#include "invented_panel.hpp"

#include <evenpull/sequencer/planner/planner.hpp>

#include <cstdio>
#include <set>

int main() {
  evenpull::PlanOptions options;
  options.accuracy = evenpull::Accuracy::quick;
  options.only_rules = true;
  const evenpull::Plan plan = evenpull::make_plan(invented::tailplane(2), options);

  std::set<int> zones;
  for (const evenpull::Step& step : plan.steps) zones.insert(step.zone);
  bool within = true;
  for (const evenpull::LimitReading& reading : plan.limits) within = within && reading.use <= 1;
  std::printf("%zu steps, %s\n", plan.steps.size(), plan.ceiling ? "safe" : "no stage is safe");
  return plan.steps.size() == 4 && zones.size() == 4 && (within || !plan.ceiling) ? 0 : 1;
}
