#include "solver/equilibrium/certify.hpp"

#include "solver/equilibrium/padded.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr double root2 = 1.41421356237309504880;
constexpr double pi = 3.14159265358979323846;

void add_cloth(const Model& m, const Answer& a, SolveReport& report) {
  const Covering& s = a.state;
  const Eigen::Matrix3d stiffness = m.compliance.inverse();
  for (std::size_t t = 0; t < a.points.size(); ++t) {
    const ClothPoint& p = a.points[t];
    const Mandel &n = s.tension[t].pull, &wrinkle = s.tension[t].wrinkle;
    Corners x;
    for (int i = 0; i < 3; ++i) x.row(i) = vector(a.places[m.panel.quads[t / 4].nodes[triangle_corners[t % 4][i]]]);
    Mandel e = green_lagrange(deformation(m.triangles[t], x)) - m.looseness;
    Mandel missed = m.compliance * n - e - wrinkle;
    for (int d = 0; d < 2; ++d) missed[d] -= shrink_after(p, d, n[d]);
    const Principal w = principal(wrinkle);
    const double along = w.angle + 0.5 * pi;
    const double cosine = std::cos(along), sine = std::sin(along);
    const Mandel smaller = w.minor * Mandel(cosine * cosine, sine * sine, root2 * cosine * sine);
    double best = n.dot(wrinkle) + 0.5 * missed.dot(stiffness * missed);
    for (const Mandel& taken : {wrinkle, smaller}) {
      const Mandel off = taken + missed;
      best = std::min(best, n.dot(wrinkle - taken) + 0.5 * off.dot(stiffness * off));
    }
    report.gap += m.triangles[t].weight * best;
    report.energy += m.triangles[t].weight * 0.5 * n.dot(m.compliance * n);
  }
}

void add_frame(const Model& m, const Answer& a, SolveReport& report) {
  for (std::size_t b = 0; b < a.frame.size(); ++b) {
    const BeamVector u = ends_of(m.panel.beams[b], a.state.unknowns);
    report.energy += 0.5 * u.dot(a.frame[b].lazyProduct(u).eval());
  }
  // Of a wire N^2/2k in all; a frame matrix holds k e^2/2 of it.
  for (const Wire& w : m.wires) {
    const double apart = w.apart.dot(ends_of(m.panel.beams[w.beam], a.state.unknowns));
    if (w.at_rest + w.rate * apart > 0) report.energy += w.at_rest * apart + 0.5 * w.at_rest * w.at_rest / w.rate;
  }
}

void add_springs(const Model& m, const Answer& a, SolveReport& report) {
  const std::vector<Spring>& springs = m.springs[static_cast<int>(a.state.held)];
  for (std::size_t i = 0; i < springs.size(); ++i) {
    const double from = i < a.state.springs_from.size() ? a.state.springs_from[i] : 0;
    const double moved = a.state.unknowns[springs[i].unknown] - from;
    report.energy += 0.5 * springs[i].stiffness * moved * moved;
  }
}

void add_friction(const Model& m, const Answer& a, SolveReport& report) {
  const Covering &s = a.state, &before = a.before;
  for (std::size_t i = 0; i < m.unknowns.sliding.size(); ++i) {
    const SlidingPoint& point = m.unknowns.sliding[i];
    const Eigen::Vector2d slip = slip_between(point, before.unknowns, s.unknowns);
    report.friction_gap += std::max(0.0, a.thresholds.in_use(i) * slip.norm() - s.friction[i].dot(slip));
  }
  report.gap += report.friction_gap;
}

}  // namespace

void certify(const Model& m, const Answer& a, SolveReport& report) {
  report.gap = report.friction_gap = report.energy = 0;
  add_cloth(m, a, report);
  add_frame(m, a, report);
  add_springs(m, a, report);
  add_friction(m, a, report);
  report.tension_bound = std::sqrt(2 * report.gap / (m.softest * m.cloth_area));
}

}  // namespace evenpull::inline solver
