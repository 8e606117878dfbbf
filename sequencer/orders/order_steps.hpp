// An order as a file states it, in the terms of a panel's mesh.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// A step as an order file states it: free of any mesh. Counted from 1, as the reader sees it.
struct OrderStep {
  double temperature = 0;  ///< K, one of the case's stages
  int pass = 1;
  Side side = Side::top;
  int bay = 1;
  int strip = 1;
  double dose = 1;
};

/// Throws CaseError (key "order") for a step that names what case or panel do not have, for stages that fall or are left
/// out, and for none.
std::vector<Step> steps_from(const Case& c, const Panel& p, const std::vector<OrderStep>& order);

}  // namespace evenpull::inline sequencer
