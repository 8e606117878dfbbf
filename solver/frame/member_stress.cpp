#include "solver/frame/member_stress.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

double root_of_squares(double a, double b) { return std::sqrt(a * a + b * b); }

}  // namespace

EndUse end_use(const Material& m, const Limits& l, const Section& s, const BeamForces& f, int end, bool weld) {
  const double share = m.kind == Strength::yield ? l.yield_share : l.rupture_share;
  double pulled = m.strength, pressed = m.compression_strength > 0 ? m.compression_strength : m.strength;
  EndUse out;
  if (weld && m.welded_strength > 0) {
    out.at_weld = m.welded_strength < pulled;
    pulled = std::min(pulled, m.welded_strength), pressed = std::min(pressed, m.welded_strength);
  }
  // Each part of the stress by end_stress itself, so that there is one formula of bending and of torsion.
  BeamForces bent = f, twisted{};
  bent.axial = bent.twist = 0;
  twisted.twist = f.twist;
  const double bending = end_stress(s, bent, end), shear = end_stress(s, twisted, end), direct = f.axial / s.area;
  const double pull = root_of_squares(std::max(0.0, bending + direct), shear) / pulled;
  const double push = std::max(0.0, -direct);
  const double press =
      m.kind == Strength::yield
          ? root_of_squares(std::max(0.0, bending - direct), shear) / pressed
          : root_of_squares(std::max(0.0, bending - std::max(0.0, direct)) / pulled + push / pressed, shear / pulled);
  out.compression = press > pull && pressed != pulled;
  out.use = std::max(pull, press) / share;
  out.allowed = share * (out.compression && m.kind == Strength::yield ? pressed : pulled);
  return out;
}

EndUse wire_use(const Material& m, const Limits& l, double pull) {
  EndUse out;
  out.allowed = (m.kind == Strength::yield ? l.yield_share : l.rupture_share) * m.strength;
  out.use = std::max(0.0, pull) / out.allowed;
  return out;
}

}  // namespace evenpull::inline solver
