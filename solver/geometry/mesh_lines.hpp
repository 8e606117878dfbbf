// Where the mesh lines lie: rows along the chord, columns along the span, strips of zones. docs/model.md, section 1.
#pragma once

#include "solver/geometry/panel.hpp"
#include "solver/geometry/surface.hpp"

namespace evenpull::inline solver {

struct MeshLines {
  std::vector<double> rows;  ///< chord fractions, from the seam to 1
  std::vector<SpanPlace> columns;
  std::vector<int> rib_columns;
  std::vector<int> strip_rows;
  int strips = 0;
};

/// Zones along the chord of a bay: max(1, round(bay area / hot area)), none narrower than the sole.
int strips_per_bay(const Case& c, const Surface& s);

MeshLines lay_mesh_lines(const Case& c, const Surface& s, const MeshOptions& options);

}  // namespace evenpull::inline solver
