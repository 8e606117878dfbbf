// What an order of zones costs (docs/model.md, section 8). Three kinds of entries:
//   worst on the way   use of limits, pull difference, slip: a longer prefix never lowers them;
//   at the end         unevenness: known when the last zone is done, never below 0;
//   sums               turn-overs and the way the iron travels: they only grow.
// So the cost of a prefix, its end entries left out, is never above that of any order that begins with it: the searches
// prune by that. A new entry joins one of the three kinds (DEVELOPERS.md, "a cost").
#pragma once

namespace evenpull::inline sequencer {

struct Tally {
  double use = 0;         ///< worst use of the limits that hold on the way
  double difference = 0;  ///< worst pull difference, chordwise or spanwise [N/m]
  double slip = 0;        ///< worst slip [m]
  double unevenness = 0;  ///< at the end, share
  double travel = 0;      ///< of the iron between zones [m]
  int turn_overs = 0;
};

/// What one unit of each entry costs, in use of limits: the use weighs most, the rest decides between orders of like use.
/// Judgement, ours. They follow what choice.cpp holds for close: 0.02 of use is worth 0.1 of unevenness, 100 N/m of
/// pull difference or 2 mm of slip; half an hour of turning over and walking is worth the same.
struct Prices {
  double unevenness = 0.2;     ///< per 1
  double difference = 0.2e-3;  ///< per N/m
  double slip = 10;            ///< per m
  double turn_over = 1e-3;     ///< each, of 90 s; 0 where both sides can be reached
  double travel = 2e-5;        ///< per m, of 2 s
};

/// Prices with turn-overs of so many seconds each.
Prices prices_for(double turn_over_seconds);

/// Cost of a whole order.
double cost_of(const Tally& t, const Prices& p);

/// Least cost of any order that begins with the prefix of this tally: the end entries are left out.
double least_cost_of(const Tally& t, const Prices& p);

/// Both walked one after the other: worst of each, end entries of the later one, sums added.
Tally joined(const Tally& before, const Tally& after);

}  // namespace evenpull::inline sequencer
