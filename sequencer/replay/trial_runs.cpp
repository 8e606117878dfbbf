#include "sequencer/replay/trial_runs.hpp"

namespace evenpull {

void TrialRuns::run(std::size_t i, const std::string& name, const std::function<void()>& work) {
  names_[i] = name;
  try {
    if (before_) before_(name);
    work();
  } catch (const NotConverged& e) {
    failures_[i] = e;
  }
}

std::vector<std::string> TrialRuns::unsolved() const {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < names_.size(); ++i)
    if (failures_[i]) names.push_back(names_[i]);
  return names;
}

std::optional<NotConverged> TrialRuns::first_failure() const {
  for (const std::optional<NotConverged>& f : failures_)
    if (f) return f;
  return {};
}

}  // namespace evenpull
