// What tests of plans from half-done work and of chosen orders share.
#pragma once

#include "sequencer/planner/planner.hpp"

#include <algorithm>
#include <variant>
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

inline PlanOptions quick_options(bool only_rules = false) {
  PlanOptions o;
  o.accuracy = Accuracy::quick;
  o.only_rules = only_rules;
  return o;
}

/// Whether a plan has a note of this kind, and the first of them.
template <class T>
bool has_note(const Plan& plan) {
  return std::any_of(plan.notes.begin(), plan.notes.end(), [](const Note& n) { return std::holds_alternative<T>(n); });
}
template <class T>
const T& note_in(const Plan& plan) {
  return std::get<T>(
      *std::find_if(plan.notes.begin(), plan.notes.end(), [](const Note& n) { return std::holds_alternative<T>(n); }));
}

}  // namespace evenpull
