// Going on from a job half done: which zones the pass begun still lacks, how an order goes on from there, and which zones
// must wait.
#pragma once

#include "sequencer/orders/families.hpp"
#include "sequencer/plan/note.hpp"
#include "sequencer/search/order_search.hpp"
#include "solver/equilibrium/model.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// Where a job stands after the steps done.
struct Begun {
  int stage = 0, pass = 1;        ///< of the last step done
  std::vector<int> worked, left;  ///< zones of that pass
};

/// `done` is not empty.
Begun where_it_stands(const Panel& p, const std::vector<Step>& done);

/// Throws CaseError (key "order") where every pass of every stage is done, or where the pass begun is beyond those of the
/// case, so that nobody knows its dose.
void check_goes_on(const Case& c, const Panel& p, const std::vector<Step>& done);

/// The steps done, the zones left of the pass begun in the order's own order (Order::rest if it has one), then every later
/// pass whole. Steps done are marked so.
std::vector<Step> go_on(const Case& c, const Panel& p, const std::vector<Step>& done, const Order& order);

/// What a search on a coarse mesh says about the rest of the pass begun.
struct RestFound {
  std::vector<int> rest;  ///< zones left, best order found; empty: none left
  std::vector<note::MustWait> waits;
  double use_so_far = 0;  ///< worst use of the steps done
  bool stands = true;     ///< false: the frame gave way in the steps done
};
/// What the steps done have brought the frame to; none if that is within its limits.
std::optional<Note> note_on_done(const RestFound& found);

RestFound search_rest(const Case& c, const std::vector<Step>& done, int width, const ParallelFor& parallel);

}  // namespace evenpull::inline sequencer
