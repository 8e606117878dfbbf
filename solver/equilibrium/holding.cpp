#include "solver/equilibrium/holding.hpp"

namespace evenpull::inline solver {

namespace {

const std::vector<Spring>& springs_of(const Model& m, Held h) { return m.springs[static_cast<int>(h)]; }

}  // namespace

void add_give(const Model& m, const Covering& s, Eigen::VectorXd& r) {
  const std::vector<Spring>& springs = springs_of(m, s.held);
  for (std::size_t i = 0; i < springs.size(); ++i) {
    const double from = i < s.springs_from.size() ? s.springs_from[i] : 0;
    r[springs[i].unknown] += springs[i].stiffness * (s.unknowns[springs[i].unknown] - from);
  }
}

void change_hands(const Model& m, Held h, Covering& s) {
  s.held = h;
  for (std::size_t b = 0; b < s.axial.size(); ++b)
    if (!m.stands(b, h)) s.axial[b] = 0;
  s.springs_from.clear();
  for (const Spring& spring : springs_of(m, h)) s.springs_from.push_back(s.unknowns[spring.unknown]);
}

void hold(const Model& m, Held h, Eigen::VectorXd& r) {
  for (int i : m.held[static_cast<int>(h)]) r[i] = 0;
}

void hold(const Model& m, Held h, Sparse& k) {
  constexpr double unit = 1e5;  // any number of the size of the other diagonals
  for (int at : m.held_positions[static_cast<int>(h)]) k.valuePtr()[at] = 0;
  for (int i : m.held[static_cast<int>(h)]) k.valuePtr()[m.diagonal[i]] = unit;
  for (const Spring& s : springs_of(m, h)) k.valuePtr()[m.diagonal[s.unknown]] += s.stiffness;
}

}  // namespace evenpull::inline solver
