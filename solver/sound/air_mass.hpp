// Mass of the air that moves with a vibrating surface set in a rigid plane wall (baffle), one side of it, at
// frequencies so low that the air is as good as incompressible. Rayleigh's integral (Theory of Sound, section 278, from
// memory): the potential is that of sources v/(2 pi R), so the kinetic energy of the air is 1/2 rho times
//   V(v, v) = 1/(2 pi) int int v v' / R dA dA'.
// In the plane 1/R = -div div' R; two integrations by parts (derived here) leave nothing singular,
//   V(v, v) = -1/(2 pi) int int (grad v . grad' v') R dA dA',
// with v n along a border that moves counted as a gradient gathered on it. The flux of each quad and border edge, exact
// for the bilinear v, is put in its middle. The distance between a point and itself is 0, so no self term is left to
// treat; what that omits is of third order in the size of the quads, the whole is of second order. Since the fluxes add
// up to nothing and -R is positive on such sets, V is symmetric and positive whatever the mesh.
// Range: overrates the mass of a rigid disc of diameter D by (k D)^2/15, k = 2 pi f/c (series of its reactance); a tap
// tone of 100 Hz on 0.3 m: 2 %. The surface is taken as lying in its mean plane.
#pragma once

#include <Eigen/SparseCore>

#include <array>
#include <vector>

namespace evenpull::inline solver {

class AirMass {
 public:
  /// `nodes` [m]; corners of a quad go round it, either way; all quads face much the same way.
  AirMass(const std::vector<Eigen::Vector3d>& nodes, const std::vector<std::array<int, 4>>& quads);

  /// Unit normal of the mean plane.
  const Eigen::Vector3d& normal() const { return normal_; }
  /// Largest distance of a used node from the mean plane [m]: small against the width, or the mass means nothing.
  double out_of_plane() const { return out_of_plane_; }
  /// V for a velocity along the normal at each node, times the velocity's unit squared [m^3]: times the density, the
  /// moving mass of one side.
  double volume(const Eigen::VectorXd& velocity) const;
  /// Derivative of half of V: symmetric matrix (nodes x nodes) times velocity [m^3].
  Eigen::VectorXd times(const Eigen::VectorXd& velocity) const;

 private:
  Eigen::Vector3d normal_;
  double out_of_plane_ = 0;
  std::vector<Eigen::Vector2d> at_;              // middles of quads, then of border edges
  Eigen::SparseMatrix<double> flux_x_, flux_y_;  // of each of them, from velocities of nodes
};

}  // namespace evenpull::inline solver
