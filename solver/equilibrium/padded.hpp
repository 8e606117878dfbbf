// Nodal vectors as the kernel of the quads keeps them, seen as vectors of three.
#pragma once

#include "solver/cloth/quads.hpp"

#include <Eigen/Core>

namespace evenpull::inline solver {

inline Eigen::Map<const Eigen::Vector3d> vector(const Padded& v) { return Eigen::Map<const Eigen::Vector3d>(v.data()); }

}  // namespace evenpull::inline solver
