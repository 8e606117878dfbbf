// Error bars of the chosen order: its limits, its pull and its slip on several meshes and with smaller zones.
#pragma once

#include "sequencer/replay/replay.hpp"

#include <functional>
#include <vector>

namespace evenpull::inline sequencer {

/// The chosen order on one mesh with one size of zones.
struct StudyRun {
  int fineness = 2;    ///< MeshOptions::fineness
  int zone_parts = 1;  ///< into how many each zone was cut
  int nodes = 0;
  double edge = 0;  ///< m, mean_edge
  std::vector<StageVerdict> stages;
  bool unsolved = false;  ///< no equilibrium was found in the stage that follows the last of `stages`
};

/// Runs `steps`, which name zones of `whole`, on the mesh and with the zones wished for; a mesh whose rows do not allow
/// zones to be cut is made finer until they do. Where no equilibrium is found the run ends with the stage before. Throws
/// CaseError.
StudyRun run_for_study(const Case& c, MeshOptions mesh, const Panel& whole, const std::vector<Step>& steps,
                       const std::function<void(int steps_done, int steps)>& progress);

/// The plan's own run as one of a study.
StudyRun as_study_run(const Panel& p, const MeshOptions& mesh, const std::vector<StageVerdict>& stages);

/// `stages`, as run on the plan's own mesh, with the numbers of the finest mesh among `runs` (whole zones) in place of its
/// own, and the error bar of each limit, of the mean pull of each side and of slip. `runs` holds the plan's own run too. A
/// stage at which the frame gave way in any run, or that a run did not come to, gets bars that no limit holds.
std::vector<StageVerdict> with_error_bars(std::vector<StageVerdict> stages, const std::vector<StudyRun>& runs);

/// The bar to print after a use, both with two digits: rounded up so that use and bar as printed end where the ceiling
/// looks. "0.98 + 0.03" is over the limit exactly if use + plus_minus is.
double printed_bar(double use, double plus_minus);

/// Whether a stage that stands on the plan's own mesh gave way in another run or was not solved there.
bool gave_way_in_study(const StageVerdict& stage);

/// By how much the governing use of a stage changed from the last mesh but one to the finest, and by how much the
/// smallest zones change it; shares of it. 0 if it was not studied. The stage has limits.
double mesh_change(const StageVerdict& stage);
double zone_change(const StageVerdict& stage);

}  // namespace evenpull::inline sequencer
