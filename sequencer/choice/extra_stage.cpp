#include "sequencer/choice/extra_stage.hpp"

#include "sequencer/choice/mid_work.hpp"
#include "sequencer/numbers/dial.hpp"
#include "sequencer/replay/loose_cloth.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

double halfway(double low, double high) { return dial::nearest(0.5 * (low + high)); }

}  // namespace

bool opens_the_way(const std::vector<StageVerdict>& stages, int next, double bar) {
  const std::size_t wanted = static_cast<std::size_t>(next) + 2;
  if (stages.size() != wanted || stages.back().buckled || is_loose(stages.back())) return false;
  return std::max(history_use(stages.back().limits, false), history_use(stages[wanted - 2].limits, false)) *
             std::max(bar, 1.0) <=
         1;
}

WayThere way_there(const Case& c, const Order& order, const std::vector<Step>& done, const StageVerdict& judged,
                   const StageVerdict& plain) {
  WayThere w;
  w.stage = judged.stage;
  w.gives_way = judged.buckled;
  if (judged.buckled) return w;
  const double bar =
      history_use(plain.limits, false) > 0 ? history_use(judged.limits, true) / history_use(plain.limits, false) : 1;
  w.fails_on_the_way = plain.end_use * bar <= 1;
  const int next = judged.stage;
  const double low = next > 0 ? c.stages[next - 1].temperature : c.cloth.curve.front().temperature;
  const double between = halfway(low, c.stages[next].temperature);
  const bool begun = !done.empty() && done.back().stage >= next;
  if (between <= low + 1 || between >= c.stages[next].temperature - 1 || begun) return w;

  Case more = c;
  more.stages.insert(more.stages.begin() + next, Stage{between, {1.0}});
  more.stages.resize(static_cast<std::size_t>(next) + 2);
  Order longer = order;
  if (!longer.by_stage.empty()) longer.by_stage.insert(longer.by_stage.begin() + next, longer.by_stage[next]);
  const Model m(more, {coarse_nodes});
  ReplayOptions options;
  options.unsolved_ends_it = true;
  const std::vector<Step> steps = done.empty() ? steps_of(more, m.panel, longer) : go_on(more, m.panel, done, longer);
  if (opens_the_way(replay(m, steps, options).stages, next, bar)) w.extra_stage = between;
  return w;
}

}  // namespace evenpull::inline sequencer
