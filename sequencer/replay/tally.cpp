#include "sequencer/replay/tally.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {

double least_cost_of(const Tally& t, const Prices& p) {
  return t.use + p.difference * t.difference + p.turn_over * t.turn_overs + p.travel * t.travel;
}

double cost_of(const Tally& t, const Prices& p) { return least_cost_of(t, p) + p.unevenness * t.unevenness; }

Prices prices_of(const Case& c) {
  Prices p;
  p.unevenness = c.score.unevenness;
  p.difference = c.score.pull_difference;
  p.turn_over = c.score.turn_over;
  p.no_rule = c.score.no_rule_turn_overs * c.score.turn_over;
  return c.both_sides_reachable ? without_turn_overs(p) : p;
}

Prices without_turn_overs(Prices p) {
  p.turn_over = 0;
  return p;
}

Tally joined(const Tally& before, const Tally& after) {
  Tally t = after;
  t.use = std::max(before.use, after.use);
  t.difference = std::max(before.difference, after.difference);
  t.slip = std::max(before.slip, after.slip);
  t.travel += before.travel;
  t.turn_overs += before.turn_overs;
  return t;
}

}  // namespace evenpull::inline sequencer
