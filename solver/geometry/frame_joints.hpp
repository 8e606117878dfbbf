// The frame of a panel: joints, beams and members laid on the mesh lines, and which joint stands where.
#pragma once

#include "solver/geometry/mesh_lines.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/geometry/surface.hpp"

#include <vector>

namespace evenpull::inline solver {

/// Two chord fractions closer than this are the same line.
inline constexpr double same_line = 1e-9;

/// Joints of the frame by where they stand.
struct FrameJoints {
  std::vector<std::vector<int>> span;  ///< [span member][column]
  std::vector<std::vector<int>> rib;   ///< [rib][k], at chord fraction rib_at[k]
  std::vector<double> rib_at;

  /// The joint of a rib that carries the cloth at a chord fraction; -1 if none stands there.
  int of_rib(int which, double chord_fraction) const;
};

/// Whether the cloth ends at a column of the mesh: at an end rib, unless the wing goes on beyond it.
bool ends_at(const Case& c, int column, int columns);

/// The span member on a line; -1 if there is none.
int span_member_at(const Case& c, double chord_fraction);

/// Adds joints, beams, members and the joints of the trailing edge to the panel.
FrameJoints lay_frame(const Case& c, const Surface& surface, const MeshLines& lines, Panel& p);

}  // namespace evenpull::inline solver
