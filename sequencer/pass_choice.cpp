#include "sequencer/pass_choice.hpp"

#include "sequencer/choice.hpp"
#include "sequencer/tally.hpp"

#include <algorithm>

namespace evenpull {
namespace {

// What a pass over the whole panel must gain in use of limits to be worth its time; judgement.
constexpr double price_of_pass = 0.01;
constexpr int most_light_passes = 4;

// The order of the trial: the easiest that keeps the sides together.
Order trial_order(const Panel& p) {
  const std::vector<Order> families = order_families(p);
  const auto found = std::find_if(families.begin(), families.end(), [](const Order& o) {
    return o.name == "centre-out halving, sides alternating";
  });
  return found == families.end() ? families.front() : *found;
}

PassTrial tried(Case c, std::vector<double> doses) {
  c.stages.front().doses = doses;
  const Model m(c, {search_nodes});
  Tried t;
  t.order = trial_order(m.panel);
  t.result = replay(m, steps_of(c, m.panel, t.order), {});
  const OrderResult r = summarise(t, m.panel);
  PassTrial out;
  out.doses = std::move(doses);
  out.stages_passed = r.stages_passed;
  out.use = r.worst_use;
  out.difference = std::max(r.worst_pull_difference_chordwise, r.worst_pull_difference_spanwise);
  out.slip = r.worst_slip;
  Tally tally;
  tally.use = out.use, tally.difference = out.difference, tally.slip = out.slip, tally.unevenness = r.unevenness_final;
  out.cost = cost_of(tally, {}) + price_of_pass * static_cast<double>(out.doses.size());
  return out;
}

}  // namespace

PassChoice choose_passes(const Case& c, const ParallelFor& parallel) {
  PassChoice out{c, {}};
  if (!c.passes_open || c.light_dose >= 1) return out;
  // Only passes that this iron and this hand can give alike enough.
  const bool can = can_be_had(pass_heat(c, c.stages.front().temperature, c.light_dose));
  const int most = can ? most_light_passes : 0;
  out.trials.resize(most + 1);
  parallel(most + 1, [&](int light) {
    std::vector<double> doses(static_cast<std::size_t>(light), c.light_dose);
    doses.push_back(c.stages.front().doses.back());
    out.trials[light] = tried(c, std::move(doses));
  });
  PassTrial* best = &out.trials.front();
  for (PassTrial& t : out.trials)
    if (t.stages_passed > best->stages_passed || (t.stages_passed == best->stages_passed && t.cost < best->cost)) best = &t;
  best->chosen = true;
  out.the_case.stages.front().doses = best->doses;
  return out;
}

}  // namespace evenpull
