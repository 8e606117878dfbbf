// What a search for an order walks through: a model that says what one more zone does to a prefix. The state depends on
// the order, not only on the set of zones (ratchet, load line, friction), so a prefix is a state of its own; it never
// changes once made and may be shared by threads.
#pragma once

#include "sequencer/numbers/parallel_for.hpp"
#include "sequencer/plan/search_report.hpp"
#include "sequencer/replay/tally.hpp"

#include <memory>
#include <vector>

namespace evenpull::inline sequencer {

/// A prefix of an order: what was worked so far and what it cost. Models derive their states from it.
struct Prefix {
  virtual ~Prefix() = default;
  int last = -1;       ///< zone worked last; -1: none yet
  int steps = 0;       ///< zones worked
  bool stands = true;  ///< false: the frame gave way, or it is not known whether it does; nothing may follow
  bool solved = true;  ///< false: no equilibrium was found, so it does not stand and nothing is known of its loads
  Tally tally;         ///< its end entries are those of a job that ended here
};
using PrefixPtr = std::shared_ptr<const Prefix>;

class StepModel {
 public:
  virtual ~StepModel() = default;
  /// How many things are put in order; each comes once in a pass.
  virtual int size() const = 0;
  /// Passes that follow one another in the same order; the first is the one that is decided.
  virtual int passes() const = 0;
  virtual PrefixPtr begin() const = 0;
  /// One more: thread-safe, and the same bits whenever it is asked.
  virtual PrefixPtr step(const PrefixPtr& from, int which) const = 0;
  /// After the last pass of a stage: settled, with the end entries filled in.
  virtual PrefixPtr finish(const PrefixPtr& whole) const { return whole; }
  /// No order that begins with this prefix ends with a use below this one, in this model; 0 where nothing is known.
  virtual double least_end_use(const Prefix&) const { return 0; }
  /// A long search keeps prefixes of this many things and of its multiples; a step is so cheap that it makes those between
  /// them anew.
  virtual int kept_every() const { return 1; }
  /// Which model an answer or a bound holds for.
  virtual SearchModel kind() const = 0;
};

/// Walks all passes in one order from a prefix of its first pass (`from` holds the first `from->steps` of it).
PrefixPtr walk(const StepModel& m, PrefixPtr from, const std::vector<int>& order);

}  // namespace evenpull::inline sequencer
