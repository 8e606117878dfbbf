// Families of orders that a person can follow by a rule, and how an order becomes steps.
#pragma once

#include "sequencer/plan/order_id.hpp"
#include "sequencer/plan/step.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <vector>

namespace evenpull::inline sequencer {

struct Order {
  OrderId id;
  std::vector<int> zones;                    ///< every zone once
  int ease = 0;                              ///< how easily it is said and followed, 0 = easiest
  std::vector<std::vector<int>> by_stage{};  ///< where stages have orders of their own; empty: `zones` throughout
  std::vector<int> rest{};                   ///< going on from half-done work: zones left of the pass begun, in order
};

/// Indices 0..n-1, centre first, then round by round the middle of each gap (bisection of a line).
std::vector<int> centre_out_halving(int n);

/// One end, the other end, the middle, then the middle of each gap (the public handbook's advice to jump).
std::vector<int> jumping(int n);

/// Bays in the order of centre_out_halving, worked in runs of `bays_in_run` bays: a run on one side, the same bays on the
/// other side, then the next bays, so that no run is longer. Blocks as in zones_of_blocks.
std::vector<int> halving_in_runs(int bays, int bays_in_run);

/// All families for a panel, easiest first. With more than one stage also those that change after the first.
std::vector<Order> order_families(const Panel& p, int stages = 1);

/// The same order seen in a mirror: sides exchanged, or root and tip, or both.
Order mirrored(const Panel& p, const Order& o, bool sides, bool ends);

/// Order from blocks: one bay of one side, its strips from the LE to the TE. block = side * bays + bay.
std::vector<int> zones_of_blocks(const Panel& p, const std::vector<int>& blocks);

/// The steps of a whole job: every pass of every stage; runs and places numbered.
std::vector<Step> steps_of(const Case& c, const Panel& p, const Order& o);

/// Numbers runs and places within each pass of a list of steps.
void number_steps(const Panel& p, std::vector<Step>& steps);

/// Turn-overs of all steps up to and including a stage. Those before a step that is done are made already and not counted.
int turn_overs(const Panel& p, const std::vector<Step>& steps, int last_stage);

/// Most turn-overs within one pass that are still to be made, up to and including a stage. A pass that works both sides has
/// one at least.
int turn_overs_a_pass(const std::vector<Step>& steps, int last_stage);

/// The longest stretch on one side within a pass of this stage, as a share of that side: of its area or of its zones, whichever is
/// less, since half the bays are half a side to whoever irons them.
double longest_run(const Panel& p, const std::vector<Step>& steps, int stage);

/// The same steps on a panel whose zones are cut in two or more along the span line: all parts in turn.
std::vector<Step> split_steps(const Panel& whole, const Panel& split, const std::vector<Step>& steps);

}  // namespace evenpull::inline sequencer
