#include "sequencer/ceiling.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

constexpr double setting_step = 5 / 1.8;  // K: what can be set and read off by thermometer
constexpr int most_tries = 4;

const LimitReading* find(const std::vector<StageVerdict>& stages, int stage, const std::string& name) {
  for (const StageVerdict& v : stages)
    if (v.stage == stage && !v.buckled)
      for (const LimitReading& l : v.limits)
        if (l.name == name) return &l;
  return nullptr;
}

bool holds_history(const StageVerdict& v, bool pessimistic) {
  return !v.buckled && history_use(v.limits, pessimistic) <= 1;
}

double change_of(const LimitReading& l, const std::vector<StageVerdict>& other) {
  const LimitReading* o = find(other, l.stage, l.name);
  return o ? std::abs(o->use - l.use) : l.use;
}

}  // namespace

std::optional<int> stage_ceiling(const std::vector<StageVerdict>& stages, bool pessimistic) {
  std::optional<int> best;
  for (const StageVerdict& v : stages) {
    if (!holds_history(v, pessimistic)) break;
    if (unevenness_use(v.limits, pessimistic) <= 1) best = v.stage;
  }
  return best;
}

double worst_use_up_to(const std::vector<StageVerdict>& stages, int last, bool pessimistic) {
  double use = 0;
  for (const StageVerdict& v : stages) {
    if (v.stage > last) break;
    use = std::max(use, history_use(v.limits, pessimistic));
    if (v.stage == last) use = std::max(use, unevenness_use(v.limits, pessimistic));
  }
  return use;
}

void set_error_bars(std::vector<StageVerdict>& stages, const std::vector<StageVerdict>& finer,
                    const std::vector<StageVerdict>& split) {
  for (StageVerdict& v : stages)
    for (LimitReading& l : v.limits) l.use_plus_minus = change_of(l, finer) + change_of(l, split);
}

double governing_change(const StageVerdict& stage, const std::vector<StageVerdict>& other) {
  const LimitReading& l = governing(stage.limits);
  const LimitReading* o = find(other, stage.stage, l.name);
  return o && l.use > 0 ? o->use / l.use - 1 : 1;
}

std::optional<double> setting_between(Ironing& ironing, const Covering& before, const std::vector<StageVerdict>& stages,
                                      std::optional<int> ceiling, const std::vector<Step>& steps) {
  const Case& c = ironing.model().the_case;
  const int next = ceiling ? *ceiling + 1 : 0;
  if (next >= static_cast<int>(stages.size()) || steps.empty()) return {};
  const StageVerdict& fails = stages[next];
  const double low = ceiling ? c.stages[*ceiling].temperature : c.cloth.curve.front().temperature;
  const double high = c.stages[next].temperature;
  const double at_low = ceiling ? history_use(stages[*ceiling].limits, true) : 0;
  const double at_high = std::max(history_use(fails.limits, true), unevenness_use(fails.limits, true));
  if (at_high <= 1 || at_low >= 1) return {};
  // Error bars of the stage that failed serve for the settings just below it.
  const double bar = at_high / std::max(history_use(fails.limits, false), unevenness_use(fails.limits, false));
  const auto whole = [](double kelvin) {
    const double f = kelvin * 1.8 - 459.67;
    return (std::floor(f / 5 + 1e-9) * 5 + 459.67) / 1.8;
  };
  double setting = whole(std::min(high - setting_step, low + (1 - at_low) / (at_high - at_low) * (high - low)));
  for (int i = 0; i < most_tries && setting > low + 0.5 * setting_step; ++i) {
    const StageVerdict v = replay_stage(ironing, before, steps, setting);
    if (!v.buckled && std::max(history_use(v.limits, false), unevenness_use(v.limits, false)) * bar <= 1) return setting;
    setting -= setting_step * (i + 1);
    setting = whole(setting + 1e-6);
  }
  return {};
}

}  // namespace evenpull
