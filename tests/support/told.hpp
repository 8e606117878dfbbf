// A plan with no more in it than the advice about some stages, to be put into words.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "sequencer/planner/advice.hpp"
#include "sequencer/sure/safety.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull::sample {

inline Plan told(const Case& c, const Panel& p, const std::vector<StageVerdict>& stages, std::optional<int> ceiling,
                 std::optional<double> setting = {}, Accuracy accuracy = Accuracy::normal) {
  Plan plan;
  plan.the_case = c;
  plan.panel = p;
  plan.accuracy = accuracy;
  plan.ceiling = plan.nominal = ceiling;
  plan.setting = setting;
  plan.advice = advise(c, stages, stage_safety(stages, {}), ceiling, setting);
  return plan;
}

/// A stage with one reading of stress.
inline StageVerdict verdict(int stage, double use, double bar = 0) {
  StageVerdict v;
  v.stage = v.summary.stage = stage;
  LimitReading l;
  l.limit = Limit::stress, l.when = Moment::on_the_way, l.stage = stage;
  l.value = l.use = use, l.allowed = 1, l.use_plus_minus = bar;
  v.limits = {l};
  return v;
}

inline std::string all(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& s : sentences) text += s + "\n";
  return text;
}

}  // namespace evenpull::sample
