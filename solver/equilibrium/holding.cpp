#include "solver/equilibrium/holding.hpp"

#include <algorithm>

namespace evenpull::inline solver {

namespace {

const std::vector<Spring>& springs_of(const Model& m, Held h) { return m.springs[static_cast<int>(h)]; }

// visit(unknown) for each creep of cloth that a fastening holds.
template <class Visit>
void each_fastened(const Model& m, const Covering& s, const Visit& visit) {
  for (std::size_t i = 0; i < s.attached.size(); ++i)
    if (s.attached[i])
      for (int k = 0; k < m.unknowns.sliding[i].unknowns; ++k) visit(m.unknowns.sliding[i].first_unknown + k);
}

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

std::vector<int> held_in(const Model& m, const Covering& s) {
  std::vector<int> held = m.held[static_cast<int>(s.held)];
  each_fastened(m, s, [&](int unknown) { held.push_back(unknown); });
  std::sort(held.begin(), held.end());
  held.erase(std::unique(held.begin(), held.end()), held.end());
  return held;
}

void hold(const Model& m, const Covering& s, Eigen::VectorXd& r) {
  for (int i : m.held[static_cast<int>(s.held)]) r[i] = 0;
  each_fastened(m, s, [&](int unknown) { r[unknown] = 0; });
}

void clear_held(const Model& m, const Covering& s, Sparse& k) {
  for (int at : m.held_positions[static_cast<int>(s.held)]) k.valuePtr()[at] = 0;
  for (std::size_t i = 0; i < s.attached.size(); ++i)
    if (s.attached[i])
      for (int at : m.sliding_positions[i]) k.valuePtr()[at] = 0;
}

void hold(const Model& m, const Covering& s, Sparse& k) {
  constexpr double unit = 1e5;  // any number of the size of the other diagonals
  clear_held(m, s, k);
  for (int i : m.held[static_cast<int>(s.held)]) k.valuePtr()[m.diagonal[i]] = unit;
  each_fastened(m, s, [&](int unknown) { k.valuePtr()[m.diagonal[unknown]] = unit; });
  for (const Spring& spring : springs_of(m, s.held)) k.valuePtr()[m.diagonal[spring.unknown]] += spring.stiffness;
}

}  // namespace evenpull::inline solver
