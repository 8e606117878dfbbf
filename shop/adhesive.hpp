// The adhesive that holds the cloth before it is ironed, as its maker and the user state it.
#pragma once

#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull {

struct Adhesive {
  double coverage = 0;      ///< area that one coat covers over the volume it takes [m^2/m^3]
  double coverage_off = 0;  ///< of that, one sigma in the logarithm
  int pre_coats = 0;        ///< on the frame, left to dry before the cloth is laid on
  int lay_in_coats = 0;     ///< into which the cloth is laid
  int brush_through_coats = 0;
  double lost = 0;                   ///< share of what is taken from the tin that stays in brush and pot
  double lap = 0;                    ///< width glued along an edge at which two pieces or ends meet, from [seam] [m]
  double tuck_round = 0;             ///< what is turned round an end rib or into a pocket, from [seam] [m]
  double dry_mass = 0;               ///< of one coat when dry [kg/m^2]
  std::optional<double> waiting{};   ///< s that the maker wants from the last coat to the iron; none: not stated
  std::optional<double> between{};   ///< s that the maker wants from one coat to the next; none: not stated
  std::optional<double> hottest{};   ///< K that it bears by its maker; none: not stated
  std::optional<double> peel{};      ///< pull per width at which a strip comes off, square to what it is glued to [N/m]
  std::optional<double> shear{};     ///< of a lap, mean over its area [Pa]
  std::vector<double> left_out{};    ///< K: stages of the case that are hotter: not planned
  std::vector<DefaultUsed> taken{};  ///< what the case left out
  int coats() const { return pre_coats + lay_in_coats + brush_through_coats; }
};

/// Temperatures of a stage and of what an adhesive bears that are one and the same [K]: half a step of a dial thermometer.
/// Judgement.
inline constexpr double same_for_adhesive = 0.5;

}  // namespace evenpull
