#include "shop/coupon_boards.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

// Softwood for building (spruce, pine, fir), along the grain: from memory; 8 to 11 GPa.
constexpr double wood = 9e9, wood_shear = wood / 16;  // Pa
// Dressed boards of stock: 1 1/2 in thick, 2 1/2 to 7 1/4 in wide (common practice).
constexpr double stock_height = 0.038;
constexpr double stock_widths[] = {0.064, 0.089, 0.140, 0.184};  // m

// Mean over the middle of a side: of a pinned beam under an even load, and of a parabola.
constexpr double mean_of_bow = 0.64, mean_of_parabola = 2.0 / 3;
constexpr double shear_of_rectangle = 1.2;

double torsion_of_rectangle(double x, double y) {
  const double a = std::max(x, y), b = std::min(x, y), slim = b / a;
  return a * b * b * b * (1.0 / 3 - 0.21 * slim * (1 - std::pow(slim, 4) / 12));
}

}  // namespace

double boards_give(double side, const CouponBoards& boards) {
  const double area = boards.width * boards.height, inertia = boards.height * std::pow(boards.width, 3) / 12;
  const double bow = mean_of_bow * 5 * std::pow(side, 4) / (384 * wood * inertia);
  const double shear = mean_of_parabola * shear_of_rectangle * side * side / (8 * wood_shear * area);
  const double lever = boards.height / 2;  // from the board's middle up to the cloth
  const double twist = mean_of_parabola * lever * lever * side * side /
                       (8 * wood_shear * torsion_of_rectangle(boards.width, boards.height));
  const double pressed = side / 2 / (wood * area);
  return 2 * (bow + shear + twist) / side + pressed;
}

CostOfBoards cost_of_boards(double side, const CouponBoards& boards, double stiffness, double poisson) {
  const double most = boards_give(side, boards) * stiffness / (1 - poisson);
  return {most / 2, most / 2};
}

CouponBoards boards_for(double side, double stiffness, double poisson) {
  CouponBoards boards;
  for (const double width : stock_widths) {
    boards = {width, stock_height};
    if (cost_of_boards(side, boards, stiffness, poisson).expected < boards_may_cost) break;
  }
  return boards;
}

}  // namespace evenpull
