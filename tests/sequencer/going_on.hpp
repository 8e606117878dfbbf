// What tests of plans from half-done work and of chosen orders share.
#pragma once

#include "sequencer/planner/planner.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// Steps as an order file states them.
inline std::vector<OrderStep> as_order(const Case& c, const Panel& p, const std::vector<Step>& steps) {
  std::vector<OrderStep> out;
  for (const Step& s : steps) {
    const Zone& z = p.zones[s.zone];
    out.push_back({c.stages[s.stage].temperature, s.pass, z.side, z.bay + 1, z.strip + 1, s.dose});
  }
  return out;
}

inline PlanOptions quick_wish(bool only_rules = false) {
  PlanOptions o;
  o.accuracy = AccuracyWish::quick;
  o.only_rules = only_rules;
  return o;
}

/// All notes of a plan as one text, to be searched.
inline std::string notes_of(const Plan& plan) {
  std::string all;
  for (const std::string& n : plan.notes) all += n + "\n";
  return all;
}

}  // namespace evenpull
