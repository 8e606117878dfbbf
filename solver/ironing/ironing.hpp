// The job step by step: lay on, iron a zone, settle at a stage end, take the fixture off. docs/model.md, 3, 5 and 7.
#pragma once

#include "solver/equilibrium/equilibrium.hpp"
#include "solver/heat/pass_heat.hpp"
#include "solver/statement/errors.hpp"

#include <array>
#include <map>
#include <optional>
#include <string>

namespace evenpull::inline solver {

/// How a step ended.
enum class Outcome { settled, buckled };

struct StepReport {
  Outcome outcome = Outcome::settled;
  SolveReport solve;
};

/// A zone and how it is heated; `heat` must outlive the step.
struct HotZone {
  int zone = 0;
  const PassHeat* heat = nullptr;
};

class Ironing {
 public:
  explicit Ironing(const Model& m) : Ironing(m, usual_options(m)) {}
  Ironing(const Model& m, const SolveOptions& a);

  /// Cloth as laid on, in equilibrium. Throws CaseError (key "supports.<set>") when a member can move freely.
  Covering begin();

  /// Solves once, nothing hot: after a change of shrink or load made by hand. Throws NotConverged.
  StepReport rebalance(Covering& s, const SolveName& label) { return attempt(normal_, s, {}, label); }

  /// One zone hot as this pass heats it, cloth over the nose by its own lines, all else cold; then its shrink is stored.
  /// `label` names the step in an error. Throws NotConverged.
  StepReport iron(Covering& s, int zone, const PassHeat& heat, const SolveName& label) {
    return iron(s, std::vector<HotZone>{{zone, &heat}}, label);
  }

  /// The same of several zones as if all were hot at one time: cheaper than one by one, and near it where no turn-over
  /// comes between them.
  StepReport iron(Covering& s, const std::vector<HotZone>& zones, const SolveName& label);

  /// Heat of a pass (from 1) of a stage, worked out once for each kind of pass. `full_passes`: how often the zone has then
  /// been worked full in this stage, this time included, 0 for a light pass. A full pass after others finds cloth that met
  /// higher points of the swing before: it counts with the mean of the highest. `temperature` [K] instead of the stage's.
  const PassHeat& heat(int stage, int pass, double dose, int full_passes, std::optional<double> temperature = {});

  /// What a pass does to a zone in the mean over its area, nose and open bay together.
  PassLine zone_line(int zone, int direction, const PassHeat& heat) const;

  /// Solves again, nothing hot, with the fine smoothing.
  StepReport settle(Covering& s, const SolveName& label);

  /// The same shrunk cloth with the fixture off and the supports of use.
  StepReport release(Covering& s, const SolveName& label);

  Buckling buckling(const Covering& s) { return fine_.buckling(s); }
  int iterations() const { return iterations_; }
  double worst_residual() const { return worst_residual_; }
  double worst_threshold_error() const { return worst_threshold_; }
  const Model& model() const { return model_; }
  const SolveOptions& options() const { return options_; }
  /// rms tension error bound [N/m] on the way and at settled states.
  double bound_on_the_way() const { return bound_way_; }
  double bound_settled() const { return bound_settled_; }

 private:
  bool stands_under_forces_of(const Covering& before, const std::vector<int>& hot, const SolveOptions& wished);
  StepReport attempt(Equilibrium& first, Covering& s, const std::vector<int>& hot, const SolveName& label);
  void note(const SolveReport& r);

  const Model& model_;
  SolveOptions options_;
  Equilibrium normal_, fine_;
  PanelLoadLines lines_;
  std::vector<char> over_nose_;                      ///< by quad
  std::map<std::array<double, 4>, PassHeat> heats_;  ///< by temperature, dose, contact, full passes so far
  int iterations_ = 0;
  double worst_residual_ = 0, worst_threshold_ = 0, bound_way_ = 0, bound_settled_ = 0;
};

}  // namespace evenpull::inline solver
