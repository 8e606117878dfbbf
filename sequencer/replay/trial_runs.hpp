// Runs of which some may find no equilibrium: such a one drops out and is told of, the others go on.
#pragma once

#include "solver/statement/errors.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace evenpull {

/// Called before each run with its name. A NotConverged that it throws counts as the run's own: for tests.
using BeforeRun = std::function<void(const std::string& run)>;

class TrialRuns {
 public:
  TrialRuns(std::size_t count, BeforeRun before) : names_(count), failures_(count), before_(std::move(before)) {}

  /// Number i; each once, from any thread. What else is thrown than NotConverged goes on its way.
  void run(std::size_t i, const std::string& name, const std::function<void()>& work);

  bool solved(std::size_t i) const { return !failures_[i]; }
  /// Names of those that found no equilibrium, by their number.
  std::vector<std::string> unsolved() const;
  /// Of the lowest number; none: all were solved.
  std::optional<NotConverged> first_failure() const;

 private:
  std::vector<std::string> names_;
  std::vector<std::optional<NotConverged>> failures_;
  BeforeRun before_;
};

}  // namespace evenpull
