// Searches for the order that costs least, on any StepModel, with what is proven about it.
#pragma once

#include "sequencer/search/step_model.hpp"

#include <optional>

namespace evenpull {

struct SearchEffort {
  int exact_size = 9;             ///< up to so many things branch and bound goes through to the end if steps allow
  long most_steps = 2'000'000;    ///< model steps of branch and bound
  int width = 8;                  ///< of the beam
  long most_tries = 20'000;       ///< model steps of the local moves
};

/// An order and what is known about it. Costs as priced by Prices; everything holds for `model` alone.
struct Found {
  std::vector<int> order;
  Tally tally;            ///< of the whole order, all passes
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

/// Depth first, the cheapest next step first; a prefix is left where even its least cost is no better than the best
/// known. Exact if it comes to its end within the steps allowed; else what is left open gives the bound.
Found branch_and_bound(const StepModel& m, const Prices& prices, long most_steps, const std::vector<int>& known = {});

/// Level by level, keeping the `width` cheapest prefixes; of two that hold the same things and end with the same one the
/// cheaper is kept (dominance: a rule of thumb here, since states differ with the order).
Found beam_search(const StepModel& m, const Prices& prices, int width, const ParallelFor& parallel);

/// Swaps two, reverses a piece, moves a piece elsewhere, while it gets cheaper. The same result on any number of threads.
Found improve(const StepModel& m, const Prices& prices, const std::vector<int>& from, long most_tries,
              const ParallelFor& parallel);

/// Bound by best-first search: always the prefix of least cost goes on. Ends early with `exact` when that one is whole.
Found bound_best_first(const StepModel& m, const Prices& prices, long most_steps, const Found& best);

/// All of it: seeds, beam and local moves, then proof as far as the effort allows. `seeds` are orders to begin with.
Found search_orders(const StepModel& m, const Prices& prices, const SearchEffort& effort, const ParallelFor& parallel,
                    const std::vector<std::vector<int>>& seeds);

/// Every order there is, one after the other: for tests and benchmarks, up to 8 things.
Found try_all(const StepModel& m, const Prices& prices);

/// Cost of one whole order.
Found evaluate(const StepModel& m, const Prices& prices, const std::vector<int>& order);

}  // namespace evenpull
