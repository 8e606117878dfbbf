// From a temperature history to heat shrink: rate law and the pass lines that a history leaves (docs/model.md, section 4).
#pragma once

#include "solver/cloth/pass_line.hpp"
#include "solver/heat/heat_history.hpp"

#include <array>

namespace evenpull::inline solver {

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

}  // namespace evenpull::inline solver
