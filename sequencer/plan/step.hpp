// One zone-step of an order.
#pragma once

namespace evenpull::inline sequencer {

/// This zone, in this pass of this stage, with this dose.
struct Step {
  int stage = 0;  ///< index into Case::stages
  int pass = 1;   ///< from 1 within the stage
  int run = 1;    ///< from 1 within the pass; a new run begins with each turn-over
  int place = 1;  ///< from 1 within the pass
  int zone = 0;   ///< index into Panel::zones
  double dose = 1;
  bool done = false;  ///< worked before the plan was made: computed, and not judged

  bool operator==(const Step&) const = default;
};

}  // namespace evenpull::inline sequencer
