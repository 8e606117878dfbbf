#include "sequencer/search/order_floor.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

using Eigen::ArrayXd;
using Eigen::ArrayXXd;

// Adam's ascent (Kingma and Ba, 2015), steps falling to nothing; sizes found by trial on the panels of bench/.
constexpr double step_of_lines = 0.02, step_of_sums = 0.06,
                 step_of_shares = 0.001;  // shares: at 48 things, fewer if more
constexpr double usual_things = 48;
constexpr double first_moment = 0.9, second_moment = 0.99, fall = 1.5, no_division_by_zero = 1e-6;
constexpr double first_sum = 3;  // logarithm of the weight that the most promising sum begins with
constexpr double rounding = 1e-9;

class Ascent {
 public:
  explicit Ascent(ArrayXXd start) : at(std::move(start)), m_(ArrayXXd::Zero(at.rows(), at.cols())), v_(m_) {}
  void step(const ArrayXXd& slope, double size, int round) {
    m_ = first_moment * m_ + (1 - first_moment) * slope;
    v_ = second_moment * v_ + (1 - second_moment) * slope.square();
    at += size * (m_ / (1 - std::pow(first_moment, round))) /
          ((v_ / (1 - std::pow(second_moment, round))).sqrt() + no_division_by_zero);
  }
  ArrayXXd at;

 private:
  ArrayXXd m_, v_;
};

// Proof. Let p be weights of the sums, p >= 0, sum p = 1, and w = p effect: the largest sum is at least p start + w x. With
// any multipliers L_i of the lines (L_i >= 0 where a cell may fall off its line, so that x_i >= ... is all that is known)
//   w x >= sum L_i room_i + sum (w_i - L_i) x_i - sum over j before i of L_i h_ij x_j.
// The last sum splits into pairs of things, of which one comes first: if it is a, the pair gives sum over i of a of
// E_ib x_i with E_ib = - sum over j of b of L_j h_ji; if it is b, the same with a and b exchanged. For any shares S_ib
//   pair >= sum over i of a of S_ib x_i + sum over j of b of S_ja x_j + G_ab,
//   G_ab = min of [least of (E_ib - S_ib) x_i + least of (- S_ja) x_j] and [the same with a and b exchanged]
// where "least" is taken over l <= x <= u, cell by cell. So
//   w x >= sum L_i room_i + sum over i of least of (w_i - L_i + own_i + sum over b of S_ib) x_i + sum of the G_ab
// with own_i what cell i does to those after it, or together with it, in its own thing. Lowest gains: l_i = room_i - sum
// of the positive h_ij u_j; below 0 the cell may fall off its line. Where cells may gain more afterwards x in w x is not
// that of the line: a negative w_i is then taken at u_i, a positive one is the larger the more is gained.
class Dual {
 public:
  explicit Dual(const OrderedGains& g)
      : g_(g), cells_(g.room.size()), things_(*std::max_element(g.thing.begin(), g.thing.end()) + 1) {
    const Eigen::VectorXd least = g.room - g.h.cwiseMax(0) * g.most;
    on_line_ = (least.array() > 0).cast<double>();
    low_ = least.cwiseMax(0), high_ = g.most;
    within_ = g.h.transpose(), across_ = within_;
    other_ = ArrayXXd::Ones(cells_, things_);
    for (Eigen::Index i = 0; i < cells_; ++i) {
      other_(i, thing(i)) = 0;
      for (Eigen::Index j = 0; j < cells_; ++j) {
        const bool same = thing(i) == thing(j);
        if (same) across_(j, i) = 0;
        if (!same || g.zone[static_cast<std::size_t>(j)] > g.zone[static_cast<std::size_t>(i)]) within_(j, i) = 0;
      }
    }
  }

  Eigen::Index cells() const { return cells_; }
  Eigen::Index things() const { return things_; }
  // Multipliers that the lines may have.
  ArrayXXd allowed(const ArrayXXd& lines) const { return (on_line_ > 0).select(lines, lines.max(0)); }

  // The bound and its slopes.
  struct Value {
    double bound = 0;
    ArrayXXd sums, lines, shares;
  };
  Value at(const ArrayXd& p, const ArrayXd& lines, const ArrayXXd& shares) const {
    Value out;
    const ArrayXd w = (g_.effect.transpose() * p.matrix()).array();
    const ArrayXd lost = g_.later_gains ? ArrayXd(w.min(0)) : ArrayXd::Zero(cells_);
    const ArrayXd c = w - lost - lines - (within_ * lines.matrix()).array() + shares.rowwise().sum();
    const ArrayXd x = (c > 0).select(low_, high_);

    // Of cell i and thing b: what i is worth at its least if its own thing comes first, and if b does.
    ArrayXXd effect = ArrayXXd::Zero(cells_, things_);
    for (Eigen::Index j = 0; j < cells_; ++j) effect.col(thing(j)) -= lines[j] * across_.col(j).array();
    const ArrayXXd x_first = least_at(effect - shares), x_later = least_at(-shares);
    const ArrayXXd worth_first = by_thing(other_ * (effect - shares) * x_first);
    const ArrayXXd a_first = worth_first + by_thing(-other_ * shares * x_later).transpose();
    out.bound = (p * g_.start.array()).sum() + (lines * g_.room.array()).sum() + (lost * high_).sum() + (c * x).sum() +
                0.5 * a_first.min(a_first.transpose()).sum();

    // Where both ways are worth the same, half of each.
    const ArrayXXd comes_first =
        0.5 * ((a_first < a_first.transpose()).cast<double>() + (a_first <= a_first.transpose()).cast<double>());
    ArrayXXd first(cells_, things_);
    for (Eigen::Index i = 0; i < cells_; ++i) first.row(i) = comes_first.row(thing(i)) * other_.row(i);
    const ArrayXXd taken = first * x_first;
    out.shares = other_ * (x.replicate(1, things_) - taken - (1 - first) * x_later);
    out.lines = g_.room.array() - x - (within_.transpose() * x.matrix()).array();
    for (Eigen::Index j = 0; j < cells_; ++j) out.lines(j) -= (across_.col(j).array() * taken.col(thing(j))).sum();
    const ArrayXd x_sum = g_.later_gains ? ArrayXd((w < 0).select(high_, x)) : x;
    out.sums = (g_.start + g_.effect * x_sum.matrix()).array();
    return out;
  }

 private:
  Eigen::Index thing(Eigen::Index cell) const { return g_.thing[static_cast<std::size_t>(cell)]; }
  ArrayXXd least_at(const ArrayXXd& c) const {
    return (c > 0).select(low_.replicate(1, things_), high_.replicate(1, things_));
  }
  ArrayXXd by_thing(const ArrayXXd& of_cells) const {
    ArrayXXd out = ArrayXXd::Zero(things_, things_);
    for (Eigen::Index i = 0; i < cells_; ++i) out.row(thing(i)) += of_cells.row(i);
    return out;
  }

  const OrderedGains& g_;
  Eigen::Index cells_, things_;
  ArrayXd on_line_, low_, high_;
  Eigen::MatrixXd within_, across_;  // h transposed: within things, as their order is fixed, and between things
  ArrayXXd other_;                   // 0 for the thing that the cell is of
};

// Gains in shares of the most, sums in shares of the largest effect that one cell has: step sizes then fit any panel.
struct Scaled {
  OrderedGains gains;
  double sum = 1;
};
Scaled scaled(OrderedGains g) {
  const Eigen::VectorXd unit = (g.most.array() > 0).select(g.most, 1.0);
  g.room = g.room.cwiseQuotient(unit).eval();
  g.h = (unit.cwiseInverse().asDiagonal() * g.h * unit.asDiagonal()).eval();
  g.effect = (g.effect * unit.asDiagonal()).eval();
  g.most = g.most.cwiseQuotient(unit).eval();
  const double sum = g.effect.cwiseAbs().maxCoeff();
  if (!(sum > 0)) return {std::move(g), 1};
  g.start /= sum, g.effect /= sum;
  return {std::move(g), sum};
}

}  // namespace

double floor_of_orders(const OrderedGains& g, int rounds) {
  const Scaled scale = scaled(g);
  const Dual dual(scale.gains);
  const Eigen::Index sums = g.start.size();
  ArrayXXd shares = ArrayXXd::Zero(dual.cells(), dual.things());
  ArrayXXd lines, log_weights = ArrayXXd::Zero(sums, 1);
  // Each sum by itself, every loss at its largest: the most promising is where the ascent begins.
  double best = 0;
  for (Eigen::Index s = 0; s < sums; ++s) {
    ArrayXd p = ArrayXd::Zero(sums);
    p[s] = 1;
    const ArrayXd alone = scale.gains.effect.row(s).transpose().cwiseMax(0).array();
    const double bound = dual.at(p, alone, shares).bound;
    if (s > 0 && bound <= best) continue;
    best = bound, lines = alone;
    log_weights.setZero(), log_weights(s, 0) = first_sum;
  }
  const double share_step = step_of_shares * std::min(1.0, usual_things / static_cast<double>(dual.things()));
  Ascent by_sum(log_weights), by_line(lines), by_share(shares);
  for (int r = 1; r <= rounds; ++r) {
    const ArrayXd e = (by_sum.at.col(0) - by_sum.at.maxCoeff()).exp();
    const ArrayXd p = e / e.sum();
    const Dual::Value v = dual.at(p, by_line.at.col(0), by_share.at);
    best = std::max(best, v.bound);
    const double left = std::pow(1 - r / (rounds + 1.0), fall);
    by_sum.step(p * (v.sums.col(0) - (p * v.sums.col(0)).sum()), step_of_sums * left, r);
    by_line.step(v.lines, step_of_lines * left, r);
    by_line.at = dual.allowed(by_line.at);
    by_share.step(v.shares, share_step * left, r);
  }
  return scale.sum * (best - rounding * std::max(1.0, std::abs(best)));
}

}  // namespace evenpull::inline sequencer
