// One number of a plan on several meshes and with smaller zones: what is printed, and how far off it may be
// (docs/model.md, section 9).
#pragma once

#include "sequencer/numbers/mesh_study.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// The number with each zone cut in so many, on the mesh of the edge length given.
struct ZoneLevel {
  int parts = 1;
  double size = 0;  ///< mean edge length [m]
  double value = 0;
  double change = 0;  ///< against whole zones on the same mesh
};

/// Empty `mesh`: not studied.
struct NumberStudy {
  std::vector<MeshLevel> mesh;  ///< mean edge length [m] and number, from coarse to fine; the finest is printed
  std::vector<ZoneLevel> zones;
  Approach approach = Approach::unchanging;
  double order = 0;            ///< observed, or assumed; 0 where there is none
  double extrapolated = 0;     ///< to an endlessly fine mesh; the finest number where no order was observed
  double mesh_plus_minus = 0;  ///< grid convergence index, as a distance
  double zone_plus_minus = 0;  ///< largest change by smaller zones: zone size is physics, so nothing is extrapolated
  bool gave_way = false;  ///< on one of the meshes, or with smaller zones, the frame gave way or no equilibrium was
                          ///< found: there is no number

  double plus_minus() const { return mesh_plus_minus + zone_plus_minus; }
};

}  // namespace evenpull::inline sequencer
