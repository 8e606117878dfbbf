// From a temperature history to heat shrink: rate law and the line that a history leaves (docs/model.md, section 4).
#pragma once

#include "solver/cloth/fabric_law.hpp"
#include "solver/heat/heat_history.hpp"

#include <array>

namespace evenpull {

/// k(T) = ln 2 / half time x exp(-Ea/R (1/T - 1/T_stage)) [1/s]: at its own temperature every stage goes at the same
/// rate, since what a stage can do sits in its free shrink and pull; on the way there it goes slower.
double shrink_rate(const Cloth& cloth, double temperature, double stage_temperature);

/// What a history does to one yarn direction: s_end = max(s_old, kept s_old + a - b N).
struct PassLine {
  double kept = 1;        ///< share of the shrink so far that stays in the sum
  double a = 0;           ///< shrink of unshrunk cloth with no pull on it [strain]
  double b = 0;           ///< shrink lost per pull [m/N]
  double creep_pull = 0;  ///< Nc at the hottest moment [N/m]
};
using PassLines = std::array<PassLine, 2>;  ///< warp, fill

/// ds/dt = k (s_eq(N) - s) when positive, with the pull held at N: the shrink in the end.
double shrink_through(const Cloth& cloth, const Eigen::Matrix3d& compliance, const SpotHistory& h,
                      double stage_temperature, int direction, double pull, double shrink_so_far);

/// Which yarns a stage shrinks: the others have no say in how long to stay and in what is done.
std::array<bool, 2> yarns_with_a_say(const Cloth& cloth, const Eigen::Matrix3d& compliance, double stage_temperature);

/// Shrink of unshrunk cloth with no pull on it, mean over the sole, as a share of the stage's free shrink. The slower yarn
/// decides what is done, the faster is the one that pulls; only yarns with a say count, 0 where there is none.
struct Dose {
  double slower = 0, faster = 0;
};

struct FittedLines {
  PassLines lines;
  double fit_error = 0;  ///< largest distance of the lines from the answers they stand for, as a share of free shrink
  Dose dose;
};

/// Mean over the spots of the sole of the lines that a history draws, with its fit error.
FittedLines fit_lines(const Cloth& cloth, const Eigen::Matrix3d& compliance, const HeatHistory& h,
                      double stage_temperature);

/// The dose alone.
Dose dose_of(const Cloth& cloth, const Eigen::Matrix3d& compliance, const HeatHistory& h, double stage_temperature);

/// The line of one direction of a triangle with shrink so far.
LoadLine load_line(const PassLine& h, double shrink_so_far, double creep_share);

}  // namespace evenpull
