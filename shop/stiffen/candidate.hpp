// Ways to stiffen a panel so that it bears a hotter stage, as values: what, where, of what size, and whether it is
// there only while the panel is ironed.
#pragma once

#include "solver/statement/case.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace evenpull {

/// In the order of their cost, the cheapest first. Judgement: work of an hour on the bench before sticks, sticks that
/// stay before a part built anew, all of them before cloth bought anew.
enum class StiffenKind {
  bench_fixture,   ///< padded jaws on the bench that hold the trailing edge, while it is ironed
  outside_batten,  ///< clamped along the outside of an end rib
  outside_bridge,  ///< strut from side to side of a pocket, outside
  pocket_bridge,   ///< the same, staying in
  end_batten,      ///< along an end rib, staying
  bay_blocks,      ///< from leading to trailing edge amid a bay
  edge_batten,     ///< along the trailing edge, within the cloth
  rib_strip,       ///< along the span through all ribs, near their middles
  diagonals,       ///< from leading to trailing edge across the end bays
  stiffer_rib,     ///< the end rib built anew in the next usual size
  lighter_cloth    ///< of the next lighter usual weight
};
/// What a kind costs, the cheapest 1. Judgement.
double cost_of(StiffenKind kind);

/// Materials and cloth as they are sold: what candidates are made of.
struct UsualStock {
  Material wood;                    ///< clear spruce
  Material light_tube, steel_tube;  ///< of light alloy, of steel
  std::vector<double> cloth;        ///< areal masses [kg/m^2]
};

struct Candidate {
  int number = 0;  ///< from 1, as it is asked for
  StiffenKind kind = StiffenKind::outside_batten;
  bool comes_out = false;
  // What it adds; `material` is what all of it is made of, and stands for the index in each make.
  std::optional<Material> material{};
  SectionShape section{};
  std::vector<Batten> battens{};
  std::vector<Brace> braces{};
  std::vector<Support> supports{};     ///< more of those while it is ironed
  std::optional<SpanMember> strip{};   ///< one more span member
  std::optional<int> rib{};            ///< index of the one built anew with `section`, of its own material
  std::optional<double> areal_mass{};  ///< of the lighter cloth [kg/m^2]
};

/// The case with it. The candidate is of this case.
Case with_candidate(const Case& c, const Candidate& k);

/// A straight piece of it from above, x from the root's leading edge, y along the span [m]; jaws are points.
struct PlanPiece {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};
std::vector<PlanPiece> pieces_of(const Case& c, const Candidate& k);

/// What it weighs, where that lies, and what that does about the hinge line. Of a part built anew: what it weighs more.
struct AddedMass {
  double mass = 0;                     ///< kg
  std::array<double, 2> centre{0, 0};  ///< x from the root's leading edge, y along the span [m]
  std::optional<double>
      behind_hinge{};  ///< x behind the hinge line at that station [m]; none: the case names no hinges
};
AddedMass added_mass(const Case& c, const Candidate& k);

}  // namespace evenpull
