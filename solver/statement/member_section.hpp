// The section of a member where it stands: its shape there, its materials, the depth of the panel.
#pragma once

#include "solver/statement/case.hpp"

#include <vector>

namespace evenpull::inline solver {

/// Elastic constants of a section of two materials, and what a lattice needs.
struct SectionRatios {
  double web_stretch = 1;  ///< E of the web over E of the section's material
  double web_shear = 1;    ///< G likewise
  double e_over_g = 2.6;   ///< E/G of the section's material; metals have 2.6
  double web_demand = 1;   ///< use of the web's strength over that of the section's material, strained alike
  double web_weakness() const { return web_demand / web_stretch; }
};

SectionRatios ratios_of(const MemberMake& make, const std::vector<Material>& materials);

/// As section_of of a shape, with its web of another material: all properties are those of a section wholly of the
/// first one that is as stiff (transformed section); the stress of bending and twist is that of whichever part uses
/// more of its own strength, to be held against the first one's. Not for closed_nose.
Section section_of(const SectionShape& shape, double local_depth, const SectionRatios& ratios);

/// Shape at `station` [m] of a member that may change along its length.
const SectionShape& shape_at(const MemberMake& make, double station);

/// The shape leaves its height to the panel.
bool is_as_deep_as_its_place(const SectionShape& shape);

/// The one that yields or breaks under the lesser moment.
const Section& weaker(const Section& a, const Section& b);

/// Share by which the stiffness of a built-up or pierced section may be off, beside that of its material; 0 where it is
/// exact theory. Judgement.
double stiffness_estimate(const SectionShape& shape);

}  // namespace evenpull::inline solver
