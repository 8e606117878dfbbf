// A frame of a few beams in space, assembled densely from the solver's element matrices, for closed forms.
#pragma once

#include "solver/frame/beam.hpp"

#include <Eigen/Dense>

#include <vector>

namespace evenpull::published {

struct SmallFrame {
  struct Piece {
    int from, to;
    BeamShape shape;
  };
  std::vector<Eigen::Vector3d> joints;
  std::vector<Piece> pieces;

  /// A round bar or tube between two joints; `up` as in BeamShape.
  void add(int from, int to, const Section& s, double youngs_modulus, double shear_modulus, const Eigen::Vector3d& up,
           bool hinge_from = false, bool hinge_to = false) {
    BeamShape b;
    b.from = joints[static_cast<std::size_t>(from)];
    b.to = joints[static_cast<std::size_t>(to)];
    b.up = up;
    b.section = s;
    b.youngs_modulus = youngs_modulus;
    b.shear_modulus = shear_modulus;
    if (hinge_from) b.turn_from = hinge_end;
    if (hinge_to) b.turn_to = hinge_end;
    pieces.push_back({from, to, b});
  }

  /// Displacements (6 a joint) under joint loads (6 a joint), with all unknowns of `clamped` joints held.
  Eigen::VectorXd solve(const Eigen::VectorXd& load, const std::vector<int>& clamped) const {
    const int n = 6 * static_cast<int>(joints.size());
    Eigen::MatrixXd k = Eigen::MatrixXd::Zero(n, n);
    for (const Piece& p : pieces) {
      const BeamMatrix e = beam_stiffness(p.shape);
      const int at[2] = {6 * p.from, 6 * p.to};
      for (int i = 0; i < 2; ++i)
        for (int j = 0; j < 2; ++j) k.block<6, 6>(at[i], at[j]) += e.block<6, 6>(6 * i, 6 * j);
    }
    Eigen::VectorXd f = load;
    for (int joint : clamped)
      for (int i = 6 * joint; i < 6 * joint + 6; ++i) {
        k.row(i).setZero();
        k.col(i).setZero();
        k(i, i) = 1;
        f[i] = 0;
      }
    return k.fullPivLu().solve(f);
  }

  BeamForces forces(int piece, const Eigen::VectorXd& u) const {
    const Piece& p = pieces[static_cast<std::size_t>(piece)];
    BeamVector ends;
    ends << u.segment<6>(6 * p.from), u.segment<6>(6 * p.to);
    return beam_forces(p.shape, ends, 0);
  }
};

}  // namespace evenpull::published
