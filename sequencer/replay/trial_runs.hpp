// Runs of which some may find no equilibrium: such a one drops out and is told of, the others go on.
#pragma once

#include "sequencer/plan/run_id.hpp"
#include "solver/statement/errors.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// Called before each run. A NotConverged that it throws counts as the run's own: for tests.
using BeforeRun = std::function<void(const RunId& run)>;

class TrialRuns {
 public:
  TrialRuns(std::size_t count, BeforeRun before) : ids_(count), failures_(count), before_(std::move(before)) {}

  /// Number i; each once, from any thread. What else is thrown than NotConverged goes on its way.
  void run(std::size_t i, const RunId& id, const std::function<void()>& work);

  bool solved(std::size_t i) const { return !failures_[i]; }
  /// Those that found no equilibrium, by their number.
  std::vector<RunId> unsolved() const;
  /// Of the lowest number; none: all were solved.
  std::optional<NotConverged> first_failure() const;

 private:
  std::vector<RunId> ids_;
  std::vector<std::optional<NotConverged>> failures_;
  BeforeRun before_;
};

}  // namespace evenpull::inline sequencer
