// A run made for a plan, by what it was made for: to name one that found no equilibrium.
#pragma once

#include "sequencer/plan/order_id.hpp"
#include "solver/statement/case.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// At which end of their range the joints of the frame are, and what the supports give.
enum class JointEnd { softest, stiffest };

struct RunId {
  enum class Kind {
    last_stage,  ///< the trial that says at which stage the job may end
    passes,      ///< `stage`, `doses`
    search,
    search_rest,    ///< of the pass begun
    coarse_order,   ///< `order` on the coarse mesh
    between_order,  ///< `order` on the mesh on which the best meet
    full_order,     ///< `order` on the plan's mesh
    error_bars,     ///< `fineness`, `zone_parts`
    bound,          ///< `inner_ribs`
    joint_bound,    ///< `joints`
    setting         ///< the hottest between the stages
  };
  Kind kind = Kind::search;
  OrderId order{};
  int stage = 0;
  std::vector<double> doses{};
  int fineness = 0, zone_parts = 1;
  RibTie inner_ribs = RibTie::free;
  JointEnd joints = JointEnd::softest;
};

}  // namespace evenpull::inline sequencer
