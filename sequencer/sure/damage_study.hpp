// How often something real is damaged: the scenarios' uses set beside where damage begins (docs/model.md, section 9).
#pragma once

#include "sequencer/plan/chances.hpp"
#include "sequencer/sure/outturn.hpp"
#include "sequencer/sure/tail_fit.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// Of a limit: what its use is multiplied by to be a share of where damage begins. Metal is damaged at yield, thin flats where they cripple, wood at
/// crushing (0.55 of its modulus of rupture, judgement). Buckling: at a factor of 1.25 (judgement: a perfect frame at 1 is too
/// late).
double share_of_damage(const Case& c, Limit limit);
/// Log sigma of what bears a limit of damage. Buckling scatters as the most scattered material among the members, and with it.
StrengthOf strength_of(const Case& c, const Panel& p, Limit limit);

class DamageStudy {
 public:
  /// `read`: by stage, how a use of the reduced model is read; `last`: the last stage studied. `limits`: those judged.
  DamageStudy(const Case& c, const Panel& p, const std::vector<Outturn>& runs,
              const std::vector<CorrectionByLimit>& read, const Outturn& judged, int last);

  /// Scenarios that lie where the fit puts the edge; none where nothing was judged or too few were run for a fit.
  std::vector<std::vector<double>> at_the_edge() const;
  /// The chances by stage, given those scenarios as they turned out.
  std::vector<DamageChance> chances(const std::vector<Outturn>& at_edge, EdgeCheck& check) const;

 private:
  struct Number {
    int stage = 0;
    Limit limit = Limit::stress;
    double share = 1;
    StrengthOf strength{};
  };
  std::vector<double> columns(const Outturn& o) const;
  double logarithm(const Outturn& o, const Number& n) const;

  const std::vector<CorrectionByLimit>& read_;
  const std::vector<Outturn>& runs_;
  int last_, columns_;
  std::vector<Number> numbers_;
  std::optional<TailFit> fit_;
};

}  // namespace evenpull::inline sequencer
