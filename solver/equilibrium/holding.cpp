#include "solver/equilibrium/holding.hpp"

namespace evenpull::inline solver {

void hold(const Model& m, Held h, Eigen::VectorXd& r) {
  for (int i : m.held[static_cast<int>(h)]) r[i] = 0;
}

void hold(const Model& m, Held h, Sparse& k) {
  constexpr double unit = 1e5;  // any number of the size of the other diagonals
  for (int at : m.held_positions[static_cast<int>(h)]) k.valuePtr()[at] = 0;
  for (int i : m.held[static_cast<int>(h)]) k.valuePtr()[m.diagonal[i]] = unit;
}

}  // namespace evenpull::inline solver
