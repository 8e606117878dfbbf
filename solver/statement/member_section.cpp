#include "solver/statement/member_section.hpp"

#include <algorithm>

namespace evenpull::inline solver {
namespace {

// Allowed of yield (1/2) over allowed of rupture (1/3), where a web of wood joins metal or metal wood: the defaults of
// the limits (docs/model.md, section 7).
constexpr double yield_over_rupture = 1.5;

double strength_beside(const Material& m) {
  return m.kind == Strength::yield ? yield_over_rupture * m.strength : m.strength;
}

}  // namespace

SectionRatios ratios_of(const MemberMake& make, const std::vector<Material>& materials) {
  const Material& own = materials[static_cast<std::size_t>(make.material)];
  SectionRatios r;
  r.e_over_g = own.youngs_modulus / own.shear_modulus;
  if (make.web_material < 0) return r;
  const Material& web = materials[static_cast<std::size_t>(make.web_material)];
  r.web_stretch = web.youngs_modulus / own.youngs_modulus;
  r.web_shear = web.shear_modulus / own.shear_modulus;
  r.web_demand = r.web_stretch * strength_beside(own) / strength_beside(web);
  return r;
}

const SectionShape& shape_at(const MemberMake& make, double station) {
  const SectionShape* here = &make.shape;
  for (const ShapeFrom& change : make.changes)
    if (change.station <= station) here = &change.shape;
  return *here;
}

bool is_as_deep_as_its_place(const SectionShape& s) {
  using Kind = SectionShape::Kind;
  const bool may_be = s.kind == Kind::bar || s.kind == Kind::sheet_rib || s.kind == Kind::channel ||
                      s.kind == Kind::i_section || s.kind == Kind::capstrip_rib || s.kind == Kind::truss_rib;
  return may_be && s.height == 0;
}

const Section& weaker(const Section& a, const Section& b) {
  const auto least = [](const Section& s) {
    return std::min(s.inertia_up / s.reach_up, s.inertia_flat / s.reach_flat);
  };
  return least(b) < least(a) ? b : a;
}

double stiffness_estimate(const SectionShape& s) {
  if (s.kind == SectionShape::Kind::truss_rib) return 0.20;
  return s.hole > 0 ? 0.10 : 0;
}

}  // namespace evenpull::inline solver
