// The covered surface unrolled into a plane: the cloth as it lies before anything is added or cut out.
#pragma once

#include "solver/geometry/surface.hpp"

#include <Eigen/Core>

#include <vector>

namespace evenpull {

/// What of the panel a piece of cloth covers.
enum class PieceOf { whole_panel, top, bottom };

/// One line of cloth along the span: of a side at a chord fraction, or round the trailing edge.
struct UnrolledRow {
  Side side = Side::top;
  double chord_fraction = 0;
  double round_edge = -1;  ///< angle from the top round the trailing edge [rad]; below 0: on the skin
};

/// Points of the cloth, index row * columns + column. In the plane u runs along the trailing edge from root to tip and v
/// across it: of the top from the leading edge to the trailing edge, of the bottom on from there. It is seen from outside.
struct Unrolled {
  PieceOf of = PieceOf::whole_panel;
  std::vector<UnrolledRow> rows;
  std::vector<SpanPlace> columns;
  std::vector<double> stations;       ///< of the columns [m]
  std::vector<int> rib_columns;       ///< of each rib
  std::vector<Eigen::Vector2d> flat;  ///< m
  double off = 0;     ///< by how much the length along a row differs between plane and panel, at most [m]
  double spread = 0;  ///< of that, as a share of the row's length, at most: what must be shrunk out or pleated
  int column_count() const { return static_cast<int>(columns.size()); }
  int row_count() const { return static_cast<int>(rows.size()); }
  const Eigen::Vector2d& at(int row, int column) const {
    return flat[static_cast<std::size_t>(row * column_count() + column)];
  }
  /// Row of a side at a chord fraction that the case names (seam, pocket front, end of a gap, trailing edge).
  int row_of(Side side, double chord_fraction) const;
  int column_at(double station) const;
};

/// Exact where the skin is a cylinder or a cone (edges straight); elsewhere every row keeps its distance from the next and
/// `off` says what is lost along it. A full wrap goes round the trailing edge in half a circle as wide as the panel is
/// deep there.
Unrolled unroll(const Case& c, PieceOf of);

/// Length round the leading edge from seam line to seam line at the widest place, the front taken for half a circle [m].
double round_the_nose(const Case& c);
/// The same round the trailing edge from skin to skin [m].
double round_the_trailing_edge(const Case& c);

}  // namespace evenpull
