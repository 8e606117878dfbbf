// Structural materials known by name. A case may override any number, or describe a material of its own.
#pragma once

#include "solver/statement/case.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct KnownMaterial {
  Material values;
  const char* why;               ///< where the numbers come from
  const char* called = nullptr;  ///< the name a case uses, where strength goes with the wall; unset: that of `values`
  double up_to_wall = 0;         ///< of a member's wall [m]; 0: any
  const char* name() const { return called ? called : values.name.c_str(); }
};

/// In the order in which a wall is looked for.
const std::vector<KnownMaterial>& known_materials();
/// Names as cases use them, each once.
std::vector<std::string> known_material_names();
/// The material called `name` of a member with that wall [m] (0: it has none, or it is not known); null: none is called so.
const KnownMaterial* find_material(const std::string& name, double wall);
/// The same name, whatever the spelling of small and capital letters, hyphens and commas.
bool same_material(const std::string& a, const std::string& b);

/// Share of its yield that a metal keeps beside a weld where that is not stated: that of 6061-T6, which loses most.
inline constexpr double welded_share = 105.0 / 241;
/// What wood gives in all, over at once, where that is not stated.
inline constexpr double wood_lasting = 2;

}  // namespace evenpull
