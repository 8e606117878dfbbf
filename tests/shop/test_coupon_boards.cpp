// How far the boards of a coupon's square give, and what that costs.
#include "shop/coupon_boards.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {
constexpr double stiffness = 100e3, poisson = 0.2;
}

TEST_CASE("boards bow by 5 q L^4/(384 E I) where nothing else gives") {
  // So slim that shear, twist and pressing are little: 2 x 16/25 of the bow in the middle over the side.
  const CouponBoards slim{0.01, 0.01};
  const double inertia = 1e-8 / 12, bow = 5 * 1.0 / (384 * 9e9 * inertia);
  CHECK(boards_give(1, slim) == Approx(2 * 0.64 * bow).epsilon(0.01));
}

TEST_CASE("boards of 38 x 89 mm lying flat cost a square of 400 mm less than 1 %, on edge more") {
  CHECK(cost_of_boards(0.4, {0.089, 0.038}, stiffness, poisson).expected < boards_may_cost);
  CHECK(cost_of_boards(0.4, {0.038, 0.089}, stiffness, poisson).expected > boards_may_cost);
  CHECK(boards_for(0.4, stiffness, poisson).width == 0.089);
}

TEST_CASE("wider squares want wider boards, and each kind of board costs less the wider it is") {
  double last = 0;
  for (const double side : {0.25, 0.4, 0.6, 0.9}) {
    const double width = boards_for(side, stiffness, poisson).width;
    CHECK(width >= last);
    last = width;
  }
  CHECK(boards_give(0.4, {0.140, 0.038}) < boards_give(0.4, {0.089, 0.038}));
  CHECK(boards_give(0.5, {0.089, 0.038}) > boards_give(0.4, {0.089, 0.038}));
}

TEST_CASE("thin strips of wood cost too much to be read through") {
  CHECK(cost_of_boards(0.4, {0.020, 0.010}, stiffness, poisson).expected > boards_cost_too_much);
}
