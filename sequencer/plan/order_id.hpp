// Which order this is: what it is called by and followed by. Name and rule are made of it in viz/words/order_words.hpp.
#pragma once

#include "solver/geometry/panel.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// Rules that a person can keep, orders that a search found, and one that somebody gave.
enum class Family {
  none,
  one_side,           ///< all of the top from root to tip, then all of the bottom
  root_to_tip,        ///< bay by bay, sides alternating
  halving,            ///< the centre bay, then the middle of each gap; sides alternating
  jumping,            ///< one end, the other, the middle, then the middle of each gap; sides alternating
  halving_in_runs,    ///< as halving, `bays_in_run` bays on a side before the panel is turned over
  halving_one_side,   ///< as halving, all of the top before the bottom
  halving_by_strips,  ///< as halving, sides alternating strip by strip
  strips_then_bays,   ///< in the first stage, where cloth slides, halving_by_strips; then halving
  searched,           ///< for the first stage
  searched_for_last,
  searched_by_stage,   ///< each stage has its own
  searched_few_turns,  ///< turn-overs priced dearly
  searched_rest,       ///< for the rest of the pass begun, then halving
  as_given
};

/// Whether it can be said in words and remembered.
constexpr bool has_rule(Family f) { return f < Family::searched; }

/// How an order was mirrored.
enum class Mirror { sides, ends, both };

/// A bay on one side.
struct BayOfSide {
  Side side = Side::top;
  int bay = 0;  ///< from 0
};

struct OrderId {
  Family family = Family::none;
  int bays_in_run = 0;             ///< of `halving_in_runs`
  std::vector<Mirror> mirrored{};  ///< one after the other; empty: as the family has it
  std::vector<BayOfSide> bays{};   ///< a searched order of whole bays, before it was mirrored; else empty

  /// The rule itself and not its mirror.
  bool is(Family f) const { return family == f && mirrored.empty(); }
  /// Orders with the same name; searched ones are what one search found.
  friend bool operator==(const OrderId& a, const OrderId& b) {
    return a.family == b.family && a.bays_in_run == b.bays_in_run && a.mirrored == b.mirrored;
  }
};

}  // namespace evenpull::inline sequencer
