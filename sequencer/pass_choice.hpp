// How many passes the first stage gets and how light they are, where the case leaves it open. Light passes first let loose
// cloth come up everywhere before any of it pulls hard: they gain more than most orders do (docs/model.md, section 3).
// Later stages keep the two passes that common practice asks for as a least (no source).
#pragma once

#include "sequencer/step_model.hpp"
#include "solver/case.hpp"

#include <vector>

namespace evenpull {

/// One way to pass over the first stage, tried on a coarse mesh through the whole job.
struct PassTrial {
  std::vector<double> doses;
  int stages_passed = 0;
  double use = 0;         ///< worst of the whole history up to the last stage that passes (of the first, if none does)
  double difference = 0;  ///< N/m
  double slip = 0;        ///< m
  double cost = 0;        ///< priced, the passes themselves included
  bool chosen = false;
};

struct PassChoice {
  Case the_case;                  ///< with the passes chosen
  std::vector<PassTrial> trials;  ///< empty: the case states its passes
};

/// Case::light_dose is the lightest pass the iron can do.
PassChoice choose_passes(const Case& c, const ParallelFor& parallel);

}  // namespace evenpull
