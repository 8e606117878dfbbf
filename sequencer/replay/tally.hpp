// What an order of zones costs (docs/model.md, section 8). Three kinds of entries:
//   worst on the way   use of limits, pull difference, slip: a longer prefix never lowers them;
//   at the end         unevenness: known when the last zone is done, never below 0;
//   sums               turn-overs and the way the iron travels: they only grow.
// So the cost of a prefix, its end entries left out, is never above that of any order that begins with it: the searches
// prune by that. A new entry joins one of the three kinds (DEVELOPERS.md, "a cost").
#pragma once

#include "solver/statement/case.hpp"

namespace evenpull::inline sequencer {

struct Tally {
  double use = 0;         ///< worst use of the limits that hold on the way
  double difference = 0;  ///< worst pull difference, chordwise or spanwise [N/m]
  double slip = 0;        ///< worst slip [m]
  double unevenness = 0;  ///< at the end, share
  double travel = 0;      ///< of the iron between zones [m]
  int turn_overs = 0;
};

/// What one unit of each entry costs, in use of limits: the one score of all orders. As usual 100 N/m of pull difference are worth
/// 0.05 of use, unevenness of a quarter as much, 50 turn-overs too. Slip is among the limits and costs nothing beside.
struct Prices {
  double unevenness = Score{}.unevenness;       ///< per 1
  double difference = Score{}.pull_difference;  ///< per N/m
  double turn_over = Score{}.turn_over;         ///< each; 0 where both sides can be reached
  double travel = 2e-5;                         ///< per m, of 2 s: between orders alike in all else; judgement
  double no_rule = Score{}.no_rule_turn_overs * Score{}.turn_over;  ///< a pass of an order without a rule in words
};

/// As the case sets them.
Prices prices_of(const Case& c);
/// Where turning over is no trouble.
Prices without_turn_overs(Prices p);

/// Cost of a whole order.
double cost_of(const Tally& t, const Prices& p);

/// Least cost of any order that begins with the prefix of this tally: the end entries are left out.
double least_cost_of(const Tally& t, const Prices& p);

/// Both walked one after the other: worst of each, end entries of the later one, sums added.
Tally joined(const Tally& before, const Tally& after);

}  // namespace evenpull::inline sequencer
