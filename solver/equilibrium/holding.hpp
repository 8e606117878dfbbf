// Unknowns that supports and fastenings hold: no force is out of balance there, and the tangent leaves them where they are.
#pragma once

#include "solver/equilibrium/covering.hpp"
#include "solver/equilibrium/model.hpp"

#include <Eigen/Core>

#include <vector>

namespace evenpull::inline solver {

/// Adds the force of the supports that give: against what the panel has moved since they were put on [N].
void add_give(const Model& m, const Covering& s, Eigen::VectorXd& residual);

/// From now on held so: supports that give are put on where the panel stands.
void change_hands(const Model& m, Held h, Covering& s);

/// What supports and fastenings hold of a state: unknowns, rising.
std::vector<int> held_in(const Model& m, const Covering& s);

/// Zero where supports and fastenings hold.
void hold(const Model& m, const Covering& s, Eigen::VectorXd& residual);

/// Rows and columns of what is held: nothing but one number on the diagonal; the stiffness of supports that give is added.
/// Lower triangle, pattern of Model::pattern.
void hold(const Model& m, const Covering& s, Sparse& tangent);

/// Zeroes in rows and columns of what is held.
void clear_held(const Model& m, const Covering& s, Sparse& a);

}  // namespace evenpull::inline solver
