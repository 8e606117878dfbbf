// An order as a search finds it, and what every search asks of a prefix.
#pragma once

#include "sequencer/search/step_model.hpp"

#include <limits>
#include <vector>

namespace evenpull::inline sequencer {

/// An order and what is known about it. Costs as priced by Prices; everything holds for `model` alone.
struct Found {
  std::vector<int> order;
  Tally tally;  ///< of the whole order, all passes
  double cost = 0;
  double least_cost = 0;  ///< no order costs less
  double least_use = 0;   ///< no order has a lower worst use
  bool exact = false;     ///< nothing was left out: least_cost = cost
  bool stands = false;    ///< false: the frame gives way in every order that was tried
  long steps = 0;         ///< model steps taken
  SearchModel model = SearchModel::coarse_mesh;

  /// (cost - least_cost)/cost.
  double gap() const { return cost > 0 ? (cost - least_cost) / cost : 0; }
};

/// Cost of one whole order.
Found evaluate(const StepModel& m, const Prices& prices, const std::vector<int>& order);

/// Cost of what does not stand.
inline constexpr double never = std::numeric_limits<double>::infinity();
/// Cheaper by less than this is the same: it keeps searches from walking in circles on rounding.
inline constexpr double same_cost = 1e-9;

/// No order that begins with this prefix costs less, or has a lower worst use.
double least_of(const StepModel& m, const Prefix& p, const Prices& prices);
double least_use_of(const StepModel& m, const Prefix& p);

/// A whole order that ended so.
Found whole(const StepModel& m, const Prices& prices, std::vector<int> order, const Prefix& end);

/// Of n things those that an order does not hold yet, rising.
std::vector<int> left_of(int n, const std::vector<int>& order);

}  // namespace evenpull::inline sequencer
