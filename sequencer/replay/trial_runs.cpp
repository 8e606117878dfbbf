#include "sequencer/replay/trial_runs.hpp"

namespace evenpull::inline sequencer {

void TrialRuns::run(std::size_t i, const RunId& id, const std::function<void()>& work) {
  ids_[i] = id;
  try {
    if (before_) before_(id);
    work();
  } catch (const NotConverged& e) {
    failures_[i] = e;
  }
}

std::vector<RunId> TrialRuns::unsolved() const {
  std::vector<RunId> out;
  for (std::size_t i = 0; i < ids_.size(); ++i)
    if (failures_[i]) out.push_back(ids_[i]);
  return out;
}

std::optional<NotConverged> TrialRuns::first_failure() const {
  for (const std::optional<NotConverged>& f : failures_)
    if (f) return f;
  return {};
}

}  // namespace evenpull::inline sequencer
