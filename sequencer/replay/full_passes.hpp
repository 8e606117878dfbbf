// How often each zone has been worked full in the stage at hand: by that the top of the swing counts (docs/model.md,
// section 4). Counted from what was worked, step by step, whatever the case lists.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <vector>

namespace evenpull::inline sequencer {

class FullPasses {
 public:
  explicit FullPasses(std::size_t zones) : met_(zones, 0) {}

  /// One more step, in the order worked: the full passes that its zone has then met in this stage; 0 for a light step.
  int with(const Step& s);

  /// By zone, in this stage so far; none in a stage that has not begun.
  std::vector<int> in_stage(int stage) const;

 private:
  int stage_ = -1;
  std::vector<int> met_;  // by zone
};

/// Most full passes that any zone gets in a stage.
int most_full_passes(const std::vector<Step>& steps, int stage);

/// Full passes that each zone has met after `passes` passes of these doses over the whole panel; 0 if the last is light.
int full_passes_of(const std::vector<double>& doses, int passes);

}  // namespace evenpull::inline sequencer
