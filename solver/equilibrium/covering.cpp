#include "solver/equilibrium/covering.hpp"

#include "solver/equilibrium/attaching.hpp"

#include <algorithm>

namespace evenpull::inline solver {

Covering laid_on(const Model& m) {
  Covering s;
  s.unknowns = Eigen::VectorXd::Zero(m.unknowns.count);
  Tension t;
  ClothPoint p;
  p.cold = &m.compliance;
  // A loose start: the wrinkle strain is the looseness, the pull a whisper.
  const double whisper = 1e-3;  // N/m, only a starting point
  solve_law(p, -m.looseness, whisper * std::max(1e-4, m.looseness.maxCoeff()), t);
  s.tension.assign(m.triangles.size(), t);
  s.shrink.assign(m.triangles.size(), {0, 0});
  s.friction.assign(m.unknowns.sliding.size(), Eigen::Vector2d::Zero());
  s.axial.assign(m.beams.size(), 0);
  s.nodal_force.assign(m.panel.nodes.size(), Eigen::Vector3d::Zero());
  attach_before(m, 0, s);
  return s;
}

}  // namespace evenpull::inline solver
