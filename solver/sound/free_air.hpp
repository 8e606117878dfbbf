// Mass of the air that moves with a thin surface that stands free, both faces open, nothing beyond its edge, at
// frequencies so low that the air is as good as incompressible. The surface carries a jump phi of the potential that
// is zero at its edge (a layer of dipoles; Lamb, Hydrodynamics, chapter on motion of solids, from memory):
//   normal velocity w = -1/(4 pi) f.p. int phi'/R^3 dA',   kinetic energy 1/2 rho int phi w dA.
// Weakly, by parts (derived here; the jump is zero at the edge):
//   D(eta, phi) = 1/(4 pi) int int (grad eta . grad' phi')/R dA dA' = int eta w dA   for every eta.
// phi is linear in triangles, two a quad. The inner integral of 1/R over a triangle is exact in closed form, the outer
// one by three points where triangles are near, by one else. At the edge phi falls as the root of the distance, so the
// whole is of first order in the size of the quads, from below (a finer phi finds more energy; measured:
// verification.md). The surface is taken as lying in its mean plane.
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/SparseCore>

#include <array>
#include <vector>

namespace evenpull::inline solver {

class FreeAir {
 public:
  /// `nodes` [m]; corners of a quad go round it, either way; all quads face much the same way. The whole surface: what
  /// rests of it keeps the air from going round.
  FreeAir(const std::vector<Eigen::Vector3d>& nodes, const std::vector<std::array<int, 4>>& quads);

  /// Unit normal of the mean plane.
  const Eigen::Vector3d& normal() const { return normal_; }
  /// Over both faces together, for a velocity along the normal at each node, times the velocity's unit squared [m^3]:
  /// times the density, the moving mass.
  double volume(const Eigen::VectorXd& velocity) const;

 private:
  Eigen::Vector3d normal_;
  Eigen::SparseMatrix<double> mass_;  // inner nodes x nodes [m^2]
  Eigen::LLT<Eigen::MatrixXd> jump_;  // D over inner nodes [m]
};

}  // namespace evenpull::inline solver
