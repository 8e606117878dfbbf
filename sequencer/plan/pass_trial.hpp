// What a trial of passes gave.
#pragma once

#include <vector>

namespace evenpull::inline sequencer {

/// One way to pass over a stage, tried on a coarse mesh through the whole job.
struct PassTrial {
  int stage = 0;  ///< index into Case::stages
  std::vector<double> doses;
  int stages_passed = 0;
  double use = 0;         ///< worst of the whole history up to the last stage that passes (of the first, if none does)
  double difference = 0;  ///< N/m
  double slip = 0;        ///< m
  double cost = 0;        ///< priced, the passes of this stage included
  bool chosen = false;
};

}  // namespace evenpull::inline sequencer
