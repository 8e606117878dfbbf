// How the cloth is cut and lapped, as the case states it: tables [bolt] and [seam]. Lengths in m.
#pragma once

#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull {

// Common practice, no source, where nothing else is said.
namespace practice {
inline constexpr double inch = 0.0254;
inline constexpr double bolt_width = 60 * inch;  ///< from memory
inline constexpr double selvedge = 0.5 * inch;   ///< judgement
inline constexpr double least_overlap = 1.5 * inch, overlap = 2 * inch;
inline constexpr double wing_nose_overlap = 3 * inch;  ///< on a wing's leading edge without a sewn seam
inline constexpr double tuck = 2 * inch;               ///< round end ribs and into cut-outs; judgement
inline constexpr double trim = 0.5 * inch;             ///< for the shears; judgement
/// AC 43.13-1B par. 2-7 b, of doped seams: at least 4 in on the leading, 3 in on the trailing edge.
inline constexpr double nose_tape = 4 * inch, edge_tape = 3 * inch;
inline constexpr double rib_tape = 2 * inch;
/// A tape hides a cut edge when it reaches so far past it on both sides; judgement.
inline constexpr double past_the_edge = 0.5 * inch;
}  // namespace practice

struct Bolt {
  double width = practice::bolt_width;   ///< with both selvedges
  double selvedge = practice::selvedge;  ///< each side, cut off
  bool warp_either_way = false;          ///< a piece may lie with warp and fill exchanged
  double usable() const { return width - 2 * selvedge; }
};

struct SeamStatement {
  std::optional<double> overlap{};  ///< of cloth on cloth, at every seam
  double tuck = practice::tuck;
  double trim = practice::trim;
  bool sewn = false;                       ///< the seam on the leading edge is sewn
  bool wing = false;                       ///< the panel is a wing's, by [seam] or since it goes on beyond an end
  double nose_tape = practice::nose_tape;  ///< 0: none
  double edge_tape = practice::edge_tape, rib_tape = practice::rib_tape;
  double nose_overlap() const {
    return overlap.value_or(wing && !sewn ? practice::wing_nose_overlap : practice::overlap);
  }
  double edge_overlap() const { return overlap.value_or(practice::overlap); }
};

struct Trimming {
  Bolt bolt{};
  SeamStatement seam{};
  std::vector<DefaultUsed> defaults_used{};
};

}  // namespace evenpull
