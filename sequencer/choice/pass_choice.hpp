// How many passes each stage gets and how light they are, where the case leaves it open (docs/model.md, section 8). Light
// passes first let loose cloth come up everywhere before any of it pulls hard: they gain more than most orders do.
#pragma once

#include "sequencer/numbers/parallel_for.hpp"
#include "sequencer/plan/note.hpp"
#include "sequencer/plan/pass_trial.hpp"
#include "sequencer/replay/trial_runs.hpp"
#include "solver/statement/case.hpp"

#include <vector>

namespace evenpull::inline sequencer {

struct PassChoice {
  Case the_case;                  ///< with the passes chosen
  std::vector<PassTrial> trials;  ///< by stage; empty: the case states all its passes
  std::vector<RunId> unsolved{};  ///< trials that found no equilibrium: they are not among `trials`
};

/// Chooses the number and dose of light passes of each open stage, from the first on, and gives each as many full ones as
/// common practice asks for. From the stage at which the job then ends on, as many as this iron needs to bring the wanted
/// share of the area to full shrink. Light passes are only tried where this iron and this hand give them alike enough.
/// A stage none of whose trials finds an equilibrium keeps the passes of the case.
PassChoice choose_passes(const Case& c, const ParallelFor& parallel, const BeforeRun& before = {});

/// The same case where the stages that the job may end with, as a trial on a coarse mesh tells, have as many full passes as
/// this iron needs; only stages whose passes the case leaves open. Where that trial finds no equilibrium all of them have.
PassChoice with_enough_full_passes(const Case& c, const BeforeRun& before = {});

/// What was chosen and what it gains, by stage; empty where nothing was tried.
note::PassesChosen pass_gains(const Case& c, const std::vector<PassTrial>& trials);

}  // namespace evenpull::inline sequencer
