// Which of the measured sizes the answer hangs on most: each is changed by what a tape reads off wrong, and the first
// look at the job is taken again.
#pragma once

#include "sequencer/numbers/parallel_for.hpp"
#include "sequencer/plan/limit.hpp"
#include "shop/draft/answers.hpp"
#include "solver/statement/case.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace evenpull {

/// One answer read off otherwise.
struct TapeChange {
  Ask ask{};               ///< `stations`: the distance of two ribs; `cloth`: its pull
  double by = 0;           ///< m, below zero: less; of the pull a share
  int rib = 0;             ///< of `stations`: the second of the two, from 0
  DraftAnswers answers{};  ///< with that change, and with usual answers that follow from it
};

/// Every answer with a tape error that is asked, the widest bay, and the pull of the cloth; a change that clashes
/// with another answer is taken the other way round, and left out if that clashes too.
std::vector<TapeChange> tape_changes(const DraftAnswers& answers);

/// Cloth that pulls more by this share, at every temperature.
Case with_more_pull(Case c, double share);

/// The limit of damage or shape that decides how far a job by a plain rule gets: the worst of the first stage that
/// passes one, or of the last.
struct FirstLook {
  int stage = 0;
  LimitReading governs{};
};
/// None where the frame gives way before any stage is done. On the mesh of scenarios. Throws CaseError, NotConverged.
std::optional<FirstLook> first_look(const Case& c);

struct TapeEffect {
  Ask ask{};
  double by = 0;
  int rib = 0;
  std::optional<double> change{};  ///< of the use of what governs, as a share of it; none: the frame gives way
};
/// Of each case beside the change that made it, largest effect first; those that find no equilibrium are left out.
/// `done` is told after each run.
std::vector<TapeEffect> tape_effects(const FirstLook& look, const std::vector<TapeChange>& changes,
                                     const std::vector<Case>& cases, const ParallelFor& parallel,
                                     const std::function<void()>& done = {});

}  // namespace evenpull
