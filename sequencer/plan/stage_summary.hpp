// How cloth and frame stand after a stage.
#pragma once

#include "sequencer/numbers/number_study.hpp"
#include "sequencer/plan/limit.hpp"
#include "sequencer/plan/place.hpp"
#include "solver/readings/sag.hpp"
#include "solver/readings/unevenness.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// The shape into which the frame would bow without end if the pull were `factor` times what it is.
struct BucklingMode {
  double factor = 0;
  Moment when = Moment::stage_end;  ///< at stage end or released, whichever stands nearer to buckling
  Place where{};                    ///< where it moves most
  std::vector<float> joint;         ///< joints x 6: translations and turns; the largest translation of all is 1
  std::vector<float> node;          ///< cloth nodes x 3
  double residual = 0;              ///< of the eigenpair, as a share of factor - 1 (solver/equilibrium/buckling.hpp)
  bool least_proven = false;        ///< no lower factor exists
};

/// What can be measured of the shape when a stage is done, cold and off the rests, at once: wood gives more in time.
struct StageEnd {
  double edge_bow = 0;        ///< of the trailing edge between ribs, as a share of their distance
  double end_rib_bow = 0;     ///< of an end rib between its joints, as a share of their distance
  double twist = 0;           ///< rad
  double slip = 0;            ///< m
  double hinge_line_bow = 0;  ///< between the outermost hinges [m]; 0 where no member carries two
  double whole_edge_bow = 0;  ///< of the whole trailing edge, as a share of its length
  double pocket_closing = 0;  ///< what the pocket that loses most loses of its gap [m]
};

/// What one wire pulled in a stage, on the way and at its end, released or not.
struct WirePull {
  int brace = 0;               ///< index into Case::braces
  double least = 0, most = 0;  ///< N; least 0: it was slack at times
  double end = 0;              ///< N, settled, as it is held while it is ironed; 0: slack
};

/// Pull by side after a stage; index 0 top, 1 bottom. Where the frame gave way before the stage had settled nothing stands
/// here but what was met on the way (`worst_slip`).
struct StageSummary {
  int stage = 0;
  bool settled = true;    ///< false: the frame gave way before, and there is no end to read anything off
  bool gave_way = false;  ///< there or when it was released
  double mean_pull_warp[2] = {0, 0}, mean_pull_fill[2] = {0, 0};   ///< N/m
  double mean_pull_chord[2] = {0, 0}, mean_pull_span[2] = {0, 0};  ///< N/m
  Unevenness unevenness[2]{};
  double loose_share = 0;          ///< share of area still loose
  std::vector<int> loose_zones{};  ///< by Panel::zones, settled or released (solver/readings/readings.hpp); rising
  double worst_slip = 0;           ///< m
  double twist = 0;                ///< rad
  StageEnd end{};
  std::optional<double> buckling_factor{};      ///< none: the frame gave way
  std::optional<BucklingMode> buckling_mode{};  ///< none: nothing is in compression, or the frame gave way
  ThicknessLoss thickness_loss{};               ///< between ribs, the worst of the panel
  std::vector<ThicknessLoss> thickness_loss_by_bay{};
  std::vector<WirePull> wires{};  ///< of each wire of the frame; empty: it has none
  double worst_use = 0;           ///< of all limits, up to and including this stage
  bool passes = false;
  bool done = false;  ///< all its steps were done before the plan was made: computed and told, not judged
  NumberStudy pull_chord_study[2]{}, pull_span_study[2]{};  ///< of the mean pulls
  NumberStudy slip_study{};                                 ///< of worst_slip
};

}  // namespace evenpull::inline sequencer
