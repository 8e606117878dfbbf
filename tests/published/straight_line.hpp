// A straight row of beam elements along x that bends up and down only: the smallest frame that closed forms speak
// about. Built from the solver's own element matrices; unknowns of joint i are the deflection w (2i) and the rotation
// (2i + 1).
#pragma once

#include "solver/frame/beam.hpp"

#include <Eigen/Dense>

#include <vector>

namespace evenpull::published {

class StraightLine {
 public:
  StraightLine(double length, int elements, const Section& section, double youngs_modulus)
      : step_(length / elements), elements_(elements) {
    shape_.from = Eigen::Vector3d::Zero();
    shape_.to = Eigen::Vector3d(step_, 0, 0);
    shape_.up = Eigen::Vector3d::UnitZ();
    shape_.section = section;
    shape_.youngs_modulus = youngs_modulus;
    shape_.shear_modulus = youngs_modulus / 2.6;  // counts where the section has a shear area
  }

  void set_shear_modulus(double shear_modulus) { shape_.shear_modulus = shear_modulus; }
  /// The two ends of the line turn against their joints on springs.
  void let_ends_turn(const EndTurn& first, const EndTurn& last) { first_ = first, last_ = last; }

  int unknowns() const { return 2 * (elements_ + 1); }
  Eigen::MatrixXd elastic() const {
    return assemble([](const BeamShape& b) { return beam_stiffness(b); });
  }
  Eigen::MatrixXd geometric(double axial_force) const {
    return assemble([&](const BeamShape& b) { return beam_geometric_stiffness(b, axial_force); });
  }

  /// Consistent joint loads of a uniform load q [N/m] upwards. Rotation about y is positive where w falls with x.
  Eigen::VectorXd uniform_load(double q) const {
    Eigen::VectorXd f = Eigen::VectorXd::Zero(unknowns());
    for (int e = 0; e < elements_; ++e) {
      f[2 * e] += q * step_ / 2;
      f[2 * e + 2] += q * step_ / 2;
      f[2 * e + 1] -= q * step_ * step_ / 12;
      f[2 * e + 3] += q * step_ * step_ / 12;
    }
    return f;
  }

  /// The same load put on the joints without moments, as cloth puts it there.
  Eigen::VectorXd lumped_load(double q) const {
    Eigen::VectorXd f = Eigen::VectorXd::Zero(unknowns());
    for (int e = 0; e < elements_; ++e) {
      f[2 * e] += q * step_ / 2;
      f[2 * e + 2] += q * step_ / 2;
    }
    return f;
  }

  /// Moment [N m] at the first end of element e under displacements u, less what the uniform load q adds there.
  double moment_at(int e, const Eigen::VectorXd& u, double axial_force, double q) const {
    BeamVector ends = BeamVector::Zero();
    ends[2] = u[2 * e];
    ends[4] = u[2 * e + 1];
    ends[8] = u[2 * e + 2];
    ends[10] = u[2 * e + 3];
    return beam_forces(piece(e), ends, axial_force).bend_up[0] + q * step_ * step_ / 12;
  }

 private:
  BeamShape piece(int e) const {
    BeamShape b = shape_;
    if (e == 0) b.turn_from = first_;
    if (e == elements_ - 1) b.turn_to = last_;
    return b;
  }

  template <class Matrix>
  Eigen::MatrixXd assemble(const Matrix& of) const {
    static constexpr int bending[4] = {2, 4, 8, 10};
    Eigen::MatrixXd all = Eigen::MatrixXd::Zero(unknowns(), unknowns());
    for (int e = 0; e < elements_; ++e) {
      const BeamMatrix k = of(piece(e));
      for (int i = 0; i < 4; ++i)
        for (int j = 0; j < 4; ++j) all(2 * e + i, 2 * e + j) += k(bending[i], bending[j]);
    }
    return all;
  }

  BeamShape shape_;
  EndTurn first_{}, last_{};
  double step_;
  int elements_;
};

/// Rows and columns of the unknowns that are not held.
inline std::vector<int> free_of(int unknowns, const std::vector<int>& held) {
  std::vector<bool> is_held(static_cast<std::size_t>(unknowns), false);
  for (int i : held) is_held[static_cast<std::size_t>(i)] = true;
  std::vector<int> out;
  for (int i = 0; i < unknowns; ++i)
    if (!is_held[static_cast<std::size_t>(i)]) out.push_back(i);
  return out;
}

/// Solves k u = f with the held unknowns at zero.
inline Eigen::VectorXd solve_held(const Eigen::MatrixXd& k, const Eigen::VectorXd& f, const std::vector<int>& held) {
  const std::vector<int> open = free_of(static_cast<int>(k.rows()), held);
  const Eigen::MatrixXd small = k(open, open);
  const Eigen::VectorXd load = f(open);
  Eigen::VectorXd u = Eigen::VectorXd::Zero(k.rows());
  const Eigen::VectorXd solved = small.ldlt().solve(load);
  u(open) = solved;
  return u;
}

/// A section as the tables have it, of beams that do not give in shear (Bernoulli); what shear adds stands in test_shear.
inline Section without_shear(Section s) {
  s.shear_up = s.shear_flat = 0;
  return s;
}

/// A round tube as the tables of this folder use it, drawn aluminium, E = 68.9 GPa.
constexpr double tube_modulus = 68.9e9;
inline Section tube_with_shear(double outside, double wall) {
  SectionShape shape;
  shape.kind = SectionShape::Kind::tube;
  shape.outside_diameter = outside;
  shape.wall = wall;
  return section_of(shape, 0);
}
inline Section tube_section(double outside, double wall) { return without_shear(tube_with_shear(outside, wall)); }

}  // namespace evenpull::published
