// One way the job may turn out: the case with its uncertain inputs drawn, and an iron that swings under a hand that
// wavers (docs/model.md, section 9).
#pragma once

#include "sequencer/plan/chances.hpp"
#include "sequencer/plan/step.hpp"
#include "solver/heat/pass_heat.hpp"
#include "solver/statement/case.hpp"

#include <map>
#include <vector>

namespace evenpull::inline sequencer {

/// Draws beyond this many sigmas say more about the shape of the distribution than about the bench: they count as it.
inline constexpr double most_sigmas = 2.5;

/// Numbers that draw one scenario: those of `Unsure`, then what each yarn's pull and that at each point of the curve has of
/// its own, then those of the frame's joints and supports (frame_range.hpp).
int numbers_of(const Case& c);

/// What the governing use is regressed on: the numbers of `Unsure`, the pull with what is its own at this temperature [K],
/// the joints only where they were drawn.
std::vector<double> regressors(const Case& c, const std::vector<double>& sigmas, double temperature);

/// How far off an input may be: a log sigma, or K for the sole.
double spread_of(const Spreads& s, Unsure u);

/// The same at a temperature [K]: of the pull, what its curve has there.
double spread_of(const Case& c, Unsure u, double temperature);

/// What of it the pull has in common at all stages, as it shows at a temperature [K].
double common_pull_spread(const Case& c, double temperature);

/// The case with its inputs moved by `sigmas` (numbers_of; those left out are 0). Values are multiplied by exp(spread x sigma), so
/// that none turns negative; a pull that the free shrink could not hold is taken down to what it can.
Case drawn_case(const Case& c, const std::vector<double>& sigmas);

/// Heat of each step of a scenario: the sole is off by its own error, stands somewhere in its swing at each zone, and the
/// hand stays too long or too short. Which phase and how long hang on `number` alone.
class ScenarioHeat {
 public:
  /// `drawn`: the case as it turned out; `meant`: as it was planned for, whose contact times are worked to.
  ScenarioHeat(const Case& meant, const Case& drawn, double sole_off, unsigned number, std::size_t steps);
  PassHeat of(const Step& step, std::size_t index);

 private:
  struct Grid {
    PassHeat pass;
    std::vector<std::vector<PassHeat>> at;  ///< by warmer, longer
  };
  const Grid& grid(const Step& step);

  const Case& meant_;
  const Case& drawn_;
  double sole_off_;                      ///< K
  std::vector<double> warmer_, longer_;  ///< by step: share of the swing; sigmas of the hand
  std::map<std::vector<double>, Grid> grids_;
};

}  // namespace evenpull::inline sequencer
