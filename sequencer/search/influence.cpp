#include "sequencer/search/influence.hpp"

#include "sequencer/search/order_floor.hpp"

#include <algorithm>
#include <cassert>
#include <numeric>

namespace evenpull::inline sequencer {
namespace {

constexpr int most_floors = 8;  // gauges of which the end is bounded: the rest promise lower ones
constexpr int cell_rounds = 8;  // cells of one zone settle with each other; their coupling is weak
constexpr int upper_rounds = 50;
constexpr int floor_rounds = 1000;
constexpr double floor_work = 3e7;       // cells times things times rounds: a second or two at most
constexpr double most_lengthening = 10;  // of its own room: beyond, nothing is said about a cell

}  // namespace

struct InfluenceModel::Reached : Prefix {
  Eigen::VectorXd gauges, gained, pull;
  Eigen::VectorXd left, cells_left;  // 1 for each thing, each cell not worked in the first pass yet, else 0
  Eigen::VectorXd pairs_left;        // of each floor: what the pairs among them may cost
};

InfluenceModel::InfluenceModel(Influence influence, Ways ways, std::vector<double> doses)
    : influence_(std::move(influence)), ways_(std::move(ways)), doses_(std::move(doses)) {
  const auto cells = influence_.shrink.size();
  assert(influence_.effect.rows() == influence_.start.size() && influence_.effect.cols() == cells);
  assert(influence_.push.rows() == cells && influence_.push.cols() == cells);
  thing_of_.assign(static_cast<std::size_t>(cells), -1);
  zone_of_ = thing_of_;
  for (std::size_t t = 0; t < influence_.things.size(); ++t)
    for (std::size_t z = 0; z < influence_.things[t].size(); ++z)
      for (int c : influence_.things[t][z]) thing_of_[c] = static_cast<int>(t), zone_of_[c] = static_cast<int>(z);
  if (doses_.front() == 1) prepare_floor();
}

// Proof of the bound. When a full pass first comes to cell i, the law gives it at least
//   x_i >= room_i - sum over j of h_ij x_j,     room_i = (free - give N - s)_i/k_i at the start,  h_ij = give_i push_ij/k_i,
//   k_i = 1 + give_i push_ii,
// with x_j as they stand then, and x never falls. With u_j >= x_j the most that cell j can reach, a gauge with weights
// w ends at
//   sum w_i x_i >= sum w_i room_i - sum over i, and j before or together with i, of w_i h_ij u_j      (w_i, h_ij > 0)
// Of two things only one comes before the other, so each pair costs at most the larger of its two losses; cells of one
// zone cost both, those of a later zone of the same thing nothing to an earlier one. A cell of negative weight is taken at u, its losses left out. For a prefix what was worked is known, and
// its effect on what is left as well. The worst of all use gauges is no less than any of them.
void InfluenceModel::prepare_floor() {
  const Influence& f = influence_;
  const auto cells = f.shrink.size();
  const Eigen::VectorXd k = Eigen::VectorXd::Ones(cells) + f.give.cwiseProduct(f.push.diagonal());
  Eigen::MatrixXd h = (f.give.cwiseQuotient(k)).asDiagonal() * f.push;
  h.diagonal().setZero();
  const Eigen::VectorXd room = (f.free_shrink - f.give.cwiseProduct(f.pull) - f.shrink).cwiseQuotient(k);
  Eigen::VectorXd most = room.cwiseMax(0);
  for (int r = 0; r < upper_rounds; ++r) most = room.cwiseMax(0) + (-h).cwiseMax(0) * most;
  if (!most.allFinite() || (most.array() > most_lengthening * room.cwiseAbs().maxCoeff()).any()) return;
  most_gain_ = most;
  const Eigen::MatrixXd taken = h.cwiseMax(0) * most.asDiagonal();

  stiffer_ = k;
  for (int g = 0; g < f.layout.uses; ++g) {
    Floor floor;
    floor.gauge = g;
    floor.gains = f.effect.row(g).transpose().cwiseMax(0);
    floor.losses = f.effect.row(g).transpose().cwiseMin(0);
    floor.own = Eigen::VectorXd::Zero(size());
    Eigen::MatrixXd loss = Eigen::MatrixXd::Zero(size(), size());
    for (Eigen::Index i = 0; i < cells; ++i) {
      const double w = floor.gains[i];
      if (w <= 0) continue;
      for (Eigen::Index j = 0; j < cells; ++j)
        if (thing_of_[i] != thing_of_[j]) loss(thing_of_[i], thing_of_[j]) += w * taken(i, j);
        else if (zone_of_[j] <= zone_of_[i]) floor.own[thing_of_[i]] += w * taken(i, j);
    }
    floor.pair = loss.cwiseMax(loss.transpose());
    floor.pair.diagonal().setZero();
    floor.at_begin =
        f.start[g] + floor.gains.dot(room) + floor.losses.dot(most) - floor.own.sum() - 0.5 * floor.pair.sum();
    floors_.push_back(std::move(floor));
    std::stable_sort(floors_.begin(), floors_.end(),
                     [](const Floor& a, const Floor& b) { return a.at_begin > b.at_begin; });
    if (static_cast<int>(floors_.size()) > most_floors) floors_.pop_back();
  }

  OrderedGains gains{room, h, most, thing_of_, zone_of_, f.start.head(f.layout.uses), f.effect.topRows(f.layout.uses)};
  gains.later_gains = doses_.size() > 1;
  const double a_round = static_cast<double>(cells) * size();
  floor_of_all_ = floor_of_orders(gains, static_cast<int>(std::min<double>(floor_rounds, floor_work / a_round)));
}

double InfluenceModel::least_end_use(const Prefix& prefix) const {
  const Reached& p = static_cast<const Reached&>(prefix);
  if (p.steps >= size()) return p.tally.use;
  if (floors_.empty()) return 0;
  const Influence& f = influence_;
  const Eigen::VectorXd room =
      (f.free_shrink - f.give.cwiseProduct(p.pull) - f.shrink).cwiseQuotient(stiffer_).cwiseProduct(p.cells_left);
  const Eigen::VectorXd most = most_gain_.cwiseProduct(p.cells_left);
  double best = floor_of_all_;
  for (std::size_t k = 0; k < floors_.size(); ++k) {
    const Floor& floor = floors_[k];
    best = std::max(best, p.gauges[floor.gauge] + floor.gains.dot(room) + floor.losses.dot(most) -
                              floor.own.dot(p.left) - p.pairs_left[static_cast<Eigen::Index>(k)]);
  }
  return best;
}

PrefixPtr InfluenceModel::begin() const {
  auto p = std::make_shared<Reached>();
  p->gauges = influence_.start;
  p->pull = influence_.pull;
  p->gained = Eigen::VectorXd::Zero(influence_.shrink.size());
  p->left = Eigen::VectorXd::Ones(size());
  p->cells_left = Eigen::VectorXd::Ones(influence_.shrink.size());
  p->pairs_left.resize(static_cast<Eigen::Index>(floors_.size()));
  for (std::size_t k = 0; k < floors_.size(); ++k)
    p->pairs_left[static_cast<Eigen::Index>(k)] = 0.5 * floors_[k].pair.sum();
  take_gauges(influence_.layout, p->gauges, p->tally);
  return p;
}

PrefixPtr InfluenceModel::step(const PrefixPtr& from, int which) const {
  const Influence& f = influence_;
  auto p = std::make_shared<Reached>(static_cast<const Reached&>(*from));
  const double dose = doses_[static_cast<std::size_t>(p->steps / size())];
  for (const std::vector<int>& zone : f.things[which]) {
    // Gauss and Seidel's iteration over the cells of the zone; old shrink is the floor of each (the ratchet).
    std::vector<double> old(zone.size()), before(zone.size());
    for (std::size_t n = 0; n < zone.size(); ++n) old[n] = before[n] = f.shrink[zone[n]] + p->gained[zone[n]];
    std::vector<double> now = old;
    for (int r = 0; r < (zone.size() > 1 ? cell_rounds : 1); ++r)
      for (std::size_t n = 0; n < zone.size(); ++n) {
        const int i = zone[n];
        double pull = p->pull[i];  // at the old shrink of this cell and the present one of the others
        for (std::size_t m = 0; m < zone.size(); ++m)
          if (m != n) pull += f.push(i, zone[m]) * (now[m] - old[m]);
        const double line =
            (1 - dose) * old[n] + dose * (f.free_shrink[i] - f.give[i] * (pull - f.push(i, i) * old[n]));
        now[n] = std::max(old[n], line / (1 + dose * f.give[i] * f.push(i, i)));
      }
    for (std::size_t n = 0; n < zone.size(); ++n) {
      const double gain = now[n] - before[n];
      if (gain <= 0) continue;
      p->gained[zone[n]] += gain;
      p->gauges += gain * f.effect.col(zone[n]);
      p->pull += gain * f.push.col(zone[n]);
    }
    take_gauges(f.layout, p->gauges, p->tally);
  }
  if (p->last >= 0 && ways_.travel.size() > 0) {
    p->tally.travel += ways_.travel(p->last, which);
    p->tally.turn_overs += ways_.turn_over(p->last, which);
  }
  p->last = which;
  if (p->left[which] > 0) {
    p->left[which] = 0;
    for (std::size_t k = 0; k < floors_.size(); ++k)
      p->pairs_left[static_cast<Eigen::Index>(k)] -= floors_[k].pair.row(which).dot(p->left);
    for (const std::vector<int>& zone : f.things[which])
      for (int i : zone) p->cells_left[i] = 0;
  }
  ++p->steps;
  return p;
}

PrefixPtr InfluenceModel::finish(const PrefixPtr& whole) const {
  auto p = std::make_shared<Reached>(static_cast<const Reached&>(*whole));
  p->tally.unevenness = unevenness_of(influence_.layout, p->gauges);
  return p;
}

const Eigen::VectorXd& InfluenceModel::gauges(const Prefix& p) { return static_cast<const Reached&>(p).gauges; }
const Eigen::VectorXd& InfluenceModel::gained(const Prefix& p) { return static_cast<const Reached&>(p).gained; }

}  // namespace evenpull::inline sequencer
