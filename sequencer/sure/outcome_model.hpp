// What scenarios came to as one joint normal distribution of logarithms: what the frame bore, and how the bays pulled at
// the ends of the stages. From it follows what a reading of some bays says of a stage still to come (docs/model.md, 10).
#pragma once

#include "sequencer/plan/chances.hpp"
#include "sequencer/sure/outturn.hpp"
#include "sequencer/sure/tail_fit.hpp"

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

struct OutcomeModel {
  /// A limit of damage or distortion at a stage.
  struct Use {
    int stage = 0;
    Limit limit = Limit::stress;
    double share =
        1;  ///< what its use is multiplied by: damage, a share of where damage begins (share_of_damage); else 1
    double stated = 0, bar = 0;  ///< with the values as stated, on the finest mesh
    StrengthOf strength{};       ///< of what bears it; distortion: none
  };
  /// A bay at the end of a stage.
  struct Pull {
    int stage = 0, gauge = 0;  ///< gauge_of_bay
  };
  std::vector<Use> uses;
  std::vector<Pull> pulls;
  /// uses, then pulls, then shapes: log of the use times `share`, over 0 is damaged or distorted; log of the pull, and of a
  /// bow, twist or slip, over that of the run as planned.
  Eigen::VectorXd mean;
  Eigen::MatrixXd covariance;
  Eigen::MatrixXd seen;  ///< runs x pulls: the logs of pulls as scenarios had them; none: not kept
  /// By stage, added to uses of damage and of distortion up to it, so that without a reading the model promises no more than
  /// chances say (docs/model.md, 9). None: it cannot be made to.
  std::vector<std::optional<double>> damage_shift, shape_shift;
  int last = 0;                   ///< stage
  int runs = 0;                   ///< fitted
  double worst_check = 0;         ///< scatter of runs not fitted over that of those fitted, the worst of all numbers
  std::vector<bool> can_be_last;  ///< by stage: not loose at its end, no run behind the bars gave way
  /// A bow, twist or slip at the end of a stage, where it is more than a ruler tells.
  struct Shape {
    int stage = 0;
    Limit limit = Limit::edge_bow;
    double least = 0;  ///< half of what a ruler tells, in the unit of ShapeReading: nothing smaller is told apart
  };
  std::vector<Shape> shapes{};
  Eigen::MatrixXd slopes{};  ///< all numbers x what draws a scenario, in sigmas; none: not kept
  bool known() const { return runs > 0; }
};

struct OutcomeInput {
  const Case& the_case;
  const Panel& panel;
  const std::vector<Outturn>& runs;            ///< scenarios on the reduced model
  const Outturn& planned;                      ///< the run as planned on it
  const std::vector<CorrectionByLimit>& read;  ///< how its uses are read
  const std::vector<StageVerdict>& judged;     ///< as printed
  const Chances& chances;                      ///< of the same scenarios
};

/// Not known where too few scenarios came to their end for a fit, or where half of them foretell the other half with more than
/// twice the scatter.
OutcomeModel outcome_model(const OutcomeInput& in);

}  // namespace evenpull::inline sequencer
