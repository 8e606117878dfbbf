// Runs the chosen order through many ways the job may turn out, on a reduced model, and says how sure the plan is
// (docs/model.md, section 9). The reduced model is the coarse mesh of the same model; each use that it finds is
// multiplied by what the full model said of it in the run as planned, and a few scenarios go through both.
#pragma once

#include "sequencer/numbers/parallel_for.hpp"
#include "sequencer/plan/plan.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/sure/kept_runs.hpp"
#include "sequencer/sure/outcome_model.hpp"

#include <vector>

namespace evenpull::inline sequencer {

struct ChanceStudy {
  Chances chances;
  OutcomeModel outcomes;  ///< of the same scenarios: what readings are set beside
};

/// `steps`: the whole order; `judged`: its stages on the full model as printed; `full_stages`: the same on the plan's own
/// mesh. Follows the order up to `nominal`, the hottest stage that holds with the values as stated, and one beyond it, which a
/// reading may open; or up to the first stage. Steps that
/// are done are not judged. Where what is asked for cannot be told by so many scenarios up to four times as many are run.
/// Does not depend on the number of threads.
ChanceStudy study_chances(const Case& c, const std::vector<Step>& steps, const std::vector<StageVerdict>& judged,
                          const std::vector<StageVerdict>& full_stages, std::optional<int> nominal,
                          const ParallelFor& parallel, const KeptRuns* kept,
                          const std::function<void(int done, int all)>& progress);

}  // namespace evenpull::inline sequencer
