// Constant-strain membrane triangle in space, total Lagrangian (docs/model.md, section 2).
// Shape gradients are taken in the yarn axes of the placed shape, so E comes out in warp/fill axes.
#pragma once

#include "solver/cloth/fabric_law.hpp"

#include <Eigen/Core>

namespace evenpull::inline solver {

struct Triangle {
  double weight = 0;                     ///< placed area that this triangle stands for [m^2]
  Eigen::Matrix<double, 3, 2> gradient;  ///< rows: dN_i/d(warp), dN_i/d(fill) [1/m]
};

/// Positions of the corners [m], one a row.
using Corners = Eigen::Matrix3d;

/// Triangle from its placed corners; `span` is the direction that warp_angle [rad] is measured from, towards the TE.
/// `area_share` scales the weight (quads lay two triangulations over each other, half each).
Triangle make_triangle(const Corners& placed, const Eigen::Vector3d& span, double warp_angle, double area_share);

/// Deformation gradient F, columns = current images of the unit warp and fill vectors.
Eigen::Matrix<double, 3, 2> deformation(const Triangle& t, const Corners& current);

/// Green-Lagrange strain in Mandel form.
Mandel green_lagrange(const Eigen::Matrix<double, 3, 2>& f);

/// dE = B du, du = (x0, y0, z0, x1, ...): 3 x 9.
Eigen::Matrix<double, 3, 9> strain_matrix(const Triangle& t, const Eigen::Matrix<double, 3, 2>& f);

/// g_i . N g_j: the scalar that multiplies the 3x3 identity in the geometric stiffness, times the weight: 3 x 3 [N/m].
Eigen::Matrix3d geometric_stiffness(const Triangle& t, const Mandel& pull);

}  // namespace evenpull::inline solver
