// What an order comes to once it was run in full: error bars, chances, and how hot it may go.
#pragma once

#include "sequencer/planner/study.hpp"
#include "sequencer/sure/chance_study.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

struct Verdict {
  Studied studied;
  std::optional<int> nominal;  ///< the hottest stage that holds as stated
  Chances chances{};
  OutcomeModel outcomes{};
  std::vector<StageSafety> safety{};

  std::optional<int> ceiling() const { return hottest_safe(safety); }
};

/// `study`: the runs behind its error bars, where they were made beside it.
Verdict judge_order(const PlanJob& job, const Panel& p, const Tried& order, StudyRuns study);

/// The stage that only chances stand against, of damage or of the shape; none if something else does, or nothing.
std::optional<int> held_back_by_chance(const Verdict& v);

}  // namespace evenpull::inline sequencer
