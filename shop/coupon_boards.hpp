// The wooden square of a coupon gives a little under the pull: how much that costs, and boards that are stiff enough.
#pragma once

#include <vector>

namespace evenpull {

/// Boards lie flat round the opening, the cloth on their upper face.
struct CouponBoards {
  double width = 0;   ///< in the plane of the cloth [m]: what keeps them from bowing
  double height = 0;  ///< upright [m]
};

/// How far opposite boards come together, mean along the side, as a share of the side, for each N/m of pull: bow,
/// shear, twist (the cloth pulls at the upper face) and what the boards across are pressed by. Ends taken free to turn.
/// Softwood for building, E 9 GPa, G = E/16 (from memory). Beam formulas of any handbook; torsion of a rectangle
/// J = a b^3 (1/3 - 0.21 b/a (1 - b^4/(12 a^4))) (Roark's table, from memory).
double boards_give(double side, const CouponBoards& boards);

/// Share of the pull that this costs: expected, and how far off that may be (one sigma). At most the cloth loses all of
/// it by its stiffness, cold: give E/(1 - nu); while hot it shrinks after, and loses next to nothing. Half of the most
/// is taken, give or take as much (judgement).
struct CostOfBoards {
  double expected = 0, sigma = 0;
};
CostOfBoards cost_of_boards(double side, const CouponBoards& boards, double stiffness, double poisson);

/// What boards may cost before the reading is bent: judgement.
inline constexpr double boards_may_cost = 0.01, boards_cost_too_much = 0.10;

/// The narrowest boards of stock, 38 mm (1 1/2 in) thick, that cost less than 1 %; the widest there are where none
/// does.
CouponBoards boards_for(double side, double stiffness, double poisson);

}  // namespace evenpull
