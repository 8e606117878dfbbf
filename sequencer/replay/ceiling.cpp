#include "sequencer/replay/ceiling.hpp"

#include "sequencer/numbers/dial.hpp"
#include "sequencer/replay/loose_cloth.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

constexpr int most_tries = 4;

}  // namespace

bool breaks_history(const StageVerdict& v, bool pessimistic) {
  return v.buckled || history_use(v.limits, pessimistic) > 1;
}

std::optional<int> stage_ceiling(const std::vector<StageVerdict>& stages, bool pessimistic) {
  std::optional<int> best;
  for (const StageVerdict& v : stages) {
    if (breaks_history(v, pessimistic)) break;
    if (!is_loose(v)) best = v.stage;
  }
  return best;
}

double worst_use_up_to(const std::vector<StageVerdict>& stages, int last, bool pessimistic) {
  double use = 0;
  for (const StageVerdict& v : stages) {
    if (v.stage > last) break;
    use = std::max(use, history_use(v.limits, pessimistic));
  }
  return use;
}

std::optional<double> setting_between(Ironing& ironing, const Covering& before, const std::vector<StageVerdict>& stages,
                                      const std::vector<StageVerdict>& plain, std::optional<int> ceiling,
                                      const std::vector<Step>& steps) {
  const Case& c = ironing.model().the_case;
  const int next = ceiling ? *ceiling + 1 : 0;
  if (next >= static_cast<int>(stages.size()) || steps.empty()) return {};
  const StageVerdict& fails = stages[next];
  const double low = ceiling ? c.stages[*ceiling].temperature : c.cloth.curve.front().temperature;
  const double high = c.stages[next].temperature;
  const double at_low = ceiling ? history_use(stages[*ceiling].limits, true) : 0;
  const double at_high = history_use(fails.limits, true);
  if (at_high <= 1 || at_low >= 1) return {};
  // What mesh and zones add at the stage that failed serves for the settings just below it.
  const double bar = at_high / history_use(plain[next].limits, false);
  double setting = dial::at_most(std::min(high - dial_step, low + (1 - at_low) / (at_high - at_low) * (high - low)));
  for (int i = 0; i < most_tries && setting > low + 0.5 * dial_step; ++i) {
    const StageVerdict v = replay_stage(ironing, before, steps, setting);
    if (!v.buckled && !is_loose(v) && history_use(v.limits, false) * bar <= 1) return setting;
    setting -= dial_step * (i + 1);
    setting = dial::at_most(setting + 1e-6);
  }
  return {};
}

}  // namespace evenpull::inline sequencer
