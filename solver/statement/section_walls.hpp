// Sections of thin walls: straight pieces of sheet joined at nodes, as an open tree or as one closed cell.
// Vlasov's theory of thin-walled bars (Thin-Walled Elastic Beams, from memory): sectorial coordinate, shear centre and
// warping constant of open walls; shear areas by the energy of the shear flow. Checked in tests/published.
#pragma once

#include "solver/statement/section.hpp"

#include <vector>

namespace evenpull::inline solver {

/// A straight wall between two nodes.
struct SectionWall {
  int from = 0, to = 0;
  double thickness = 0;  ///< m
  double stretch = 1;    ///< its E over that of the section
  double shear = 1;      ///< its G over that of the section
};

/// Middle lines of walls; x back, z up [m].
struct WallSection {
  std::vector<SectionPoint> nodes;
  std::vector<SectionWall> walls;
};

struct OpenWalls {
  Section section;
  SectionPoint centre;        ///< of area
  SectionPoint shear_centre;  ///< where a load across does not twist
};

/// Open walls, a tree: n walls join n + 1 nodes, of which none goes round. Stress of a bending is that of unsymmetric
/// bending, so reach/inertia is exact whatever the section's symmetry; a section whose axes up and flat are not its
/// principal ones gets the lesser principal inertia for both bendings, the soft side.
OpenWalls open_section(const WallSection& w);

/// Walls one after the other along a line, all of one thickness [m].
WallSection one_line(const std::vector<SectionPoint>& line, double sheet);

/// The line with its corners rounded to a radius [m] of the middle line, in short chords; where a leg is too short the
/// radius is what it has room for.
std::vector<SectionPoint> rounded(const std::vector<SectionPoint>& corners, double radius);

/// Wall of a closed cell.
struct CellWall {
  double thickness = 0;  ///< m
  double stretch = 1;    ///< its E over that of the section
  double shear = 1;      ///< its G over that of the section
  double demand = 1;     ///< use of its strength over that of the section's material, strained alike
};

/// Thin closed wall of one cell, walls[i] from point i to the next one (the last one back to the first). Bredt's
/// formulas, J = 4 A^2 / (sum of s/t). "up" is bending along z, "flat" along x, both about the centroid without turning
/// to principal axes. The little that a closed cell warps is left out.
Section closed_section(const std::vector<SectionPoint>& outline, const std::vector<CellWall>& walls);

}  // namespace evenpull::inline solver
