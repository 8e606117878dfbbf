// The least that the worst of several weighted sums can come to, whatever the order: a linear relaxation of "of two things
// only one comes before the other", bounded from its dual side (proof in order_floor.cpp).
#pragma once

#include <Eigen/Core>

#include <vector>

namespace evenpull::inline sequencer {

/// Cells that gain x once each, in an order that is sought: a cell on its line has
///   x_i = room_i - sum over j before i, or together with it, of h_ij x_j;
/// one that may fall off its line (a ratchet, see `on_line`) has at least that.
struct OrderedGains {
  Eigen::VectorXd room;      ///< c
  Eigen::MatrixXd h;         ///< c x c, diagonal 0; any sign
  Eigen::VectorXd most;      ///< c: no cell gains more
  std::vector<int> thing;    ///< of each cell; the order is one of things, counted from 0
  std::vector<int> zone;     ///< of each cell: its place within the thing, where the order is fixed
  Eigen::VectorXd start;     ///< g
  Eigen::MatrixXd effect;    ///< g x c: the sums are start + effect x
  bool later_gains = false;  ///< cells may gain more afterwards, though never more than `most` in all
};

/// No order of the things ends with the largest of the sums below this: the best of `rounds` steps of ascent on the dual,
/// each of which is a bound. About c*(c + things) operations a round.
double floor_of_orders(const OrderedGains& g, int rounds);

}  // namespace evenpull::inline sequencer
