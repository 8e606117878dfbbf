#include "sequencer/measured/given_readings.hpp"

#include "sequencer/numbers/normals.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

// How work falls short of its dose beyond what iron and hand scatter from zone to zone: a whole panel by a few percent of its
// pull, one bay in ten by much (judgement). A hotter stage makes up for it, so it must not pass for cloth that pulls little.
constexpr double panel_under_done = 0.03, bay_under_done = 0.15, bays_under_done = 0.1;
constexpr double most_under_done = 0.8;
constexpr int kinds = 4000;
constexpr unsigned of_kinds = 31, of_sets = 32;  // seeds
// So many of the kinds must count, that a chance of shape rests on 400 and one of damage on 10,000 of the draws.
constexpr double least_effective = 1000;

double lacking(double share) { return -std::log(1 - std::min(most_under_done, std::abs(share))); }

bool is_shape(const OutcomeModel& m, const ReadingPlace& p) {
  return static_cast<std::size_t>(p.pull) >= m.pulls.size();
}

int stage_of(const OutcomeModel& m, const ReadingPlace& p) {
  const auto k = static_cast<std::size_t>(p.pull);
  return is_shape(m, p) ? m.shapes[k - m.pulls.size()].stage : m.pulls[k].stage;
}

// What all readings of a stage share: sags are off alike by weight and lid, tones by the air, shapes by nothing.
bool share_error(const OutcomeModel& m, const ReadingPlace& a, const ReadingPlace& b) {
  return stage_of(m, a) == stage_of(m, b) && a.times == b.times && !is_shape(m, a) && !is_shape(m, b);
}

Eigen::MatrixXd under_done_kinds(const OutcomeModel& m, const std::vector<ReadingPlace>& places) {
  Normals normal(of_kinds);
  Eigen::MatrixXd out(kinds, static_cast<Eigen::Index>(places.size()));
  for (Eigen::Index j = 0; j < kinds; ++j) {
    std::map<int, double> panel;  // by stage
    for (std::size_t i = 0; i < places.size(); ++i) {
      const int stage = stage_of(m, places[i]);
      if (!panel.count(stage)) panel[stage] = lacking(panel_under_done * normal());
      const bool short_bay = normal.uniform() < bays_under_done;
      const double bay = bay_under_done * normal();
      // A frame bows and twists by the whole panel.
      out(j, static_cast<Eigen::Index>(i)) = panel[stage] + (short_bay && !is_shape(m, places[i]) ? lacking(bay) : 0);
    }
  }
  return out;
}

double normal_share(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

}  // namespace

GivenReadings::GivenReadings(const OutcomeModel& m, std::vector<ReadingPlace> places)
    : m_(m), places_(std::move(places)), under_done_(under_done_kinds(m, places_)) {
  const auto n = static_cast<Eigen::Index>(places_.size()), uses = static_cast<Eigen::Index>(m.uses.size());
  const auto at = [&](Eigen::Index i) { return uses + places_[static_cast<std::size_t>(i)].pull; };
  spread_.resize(n, n);
  Eigen::MatrixXd with(m.covariance.rows(), n);
  for (Eigen::Index i = 0; i < n; ++i) {
    with.col(i) = m.covariance.col(at(i));
    for (Eigen::Index j = 0; j < n; ++j) {
      const ReadingPlace &a = places_[static_cast<std::size_t>(i)], &b = places_[static_cast<std::size_t>(j)];
      spread_(i, j) =
          m.covariance(at(i), at(j)) + (share_error(m, a, b) ? a.common * b.common : 0) + (i == j ? a.own * a.own : 0);
    }
  }
  solve_.compute(spread_);
  gain_ = solve_.solve(with.transpose()).transpose();
  left_ = m.covariance - gain_ * with.transpose();
  draws_.emplace(m, left_.topLeftCorner(uses, uses), gain_.topRows(uses) * under_done_.transpose());
}

// Numbers as read, less what was expected of them.
Eigen::VectorXd GivenReadings::off(const std::vector<double>& read) const {
  const auto n = static_cast<Eigen::Index>(places_.size()), uses = static_cast<Eigen::Index>(m_.uses.size());
  Eigen::VectorXd out(n);
  for (Eigen::Index i = 0; i < n; ++i)
    out[i] = places_[static_cast<std::size_t>(i)].times * read[static_cast<std::size_t>(i)] -
             m_.mean[uses + places_[static_cast<std::size_t>(i)].pull];
  return out;
}

Eigen::VectorXd GivenReadings::weights_of(const Eigen::VectorXd& off) const {
  Eigen::VectorXd weights(kinds);
  for (Eigen::Index j = 0; j < kinds; ++j) {
    const Eigen::VectorXd d = off + under_done_.row(j).transpose();
    weights[j] = -0.5 * d.dot(solve_.solve(d));
  }
  return (weights.array() - weights.maxCoeff()).exp();
}

Given GivenReadings::at(const std::vector<double>& read) const {
  const auto uses = static_cast<Eigen::Index>(m_.uses.size());
  const Eigen::VectorXd off = this->off(read);
  Eigen::VectorXd weights = weights_of(off);
  Given g;
  g.effective = weights.sum() * weights.sum() / weights.squaredNorm();
  const Eigen::VectorXd told = gain_.topRows(uses) * off;
  const Eigen::VectorXd usual = gain_.topRows(uses) * (under_done_.transpose() * weights) / weights.sum();
  for (Eigen::Index k = 0; k < uses; ++k) g.use_times.push_back(std::exp(told[k] + usual[k]));
  g.mean = m_.mean.head(uses) + told;
  g.weights = std::move(weights);
  return g;
}

OutcomeModel GivenReadings::model_after(const std::vector<double>& read) const {
  OutcomeModel out = m_;
  out.seen.resize(0, 0);
  const Eigen::VectorXd off = this->off(read), weights = weights_of(off);
  const Eigen::VectorXd usual = under_done_.transpose() * weights / weights.sum();
  const Eigen::MatrixXd scatter = under_done_.rowwise() - usual.transpose();
  out.mean += gain_ * (off + usual);
  const Eigen::MatrixXd among = scatter.transpose() * weights.asDiagonal() * scatter / weights.sum();
  out.covariance = left_ + gain_ * among * gain_.transpose();
  for (std::size_t k = 0; k < out.uses.size(); ++k) {
    const double times = std::exp(out.mean[static_cast<Eigen::Index>(k)] - m_.mean[static_cast<Eigen::Index>(k)]);
    out.uses[k].stated *= times, out.uses[k].bar *= std::max(1.0, times);
  }
  return out;
}

std::vector<ReadingsTold::Input> GivenReadings::inputs(const std::vector<double>& read) const {
  if (m_.slopes.size() == 0) return {};
  const auto n = static_cast<Eigen::Index>(places_.size()), uses = static_cast<Eigen::Index>(m_.uses.size());
  Eigen::MatrixXd with(n, m_.slopes.cols());
  for (Eigen::Index i = 0; i < n; ++i) with.row(i) = m_.slopes.row(uses + places_[static_cast<std::size_t>(i)].pull);
  const Eigen::VectorXd off = this->off(read), weights = weights_of(off);
  const Eigen::MatrixXd gain = solve_.solve(with);  // readings x inputs
  const Eigen::VectorXd usual = under_done_.transpose() * weights / weights.sum();
  const Eigen::MatrixXd scatter = under_done_.rowwise() - usual.transpose();
  const Eigen::MatrixXd among = scatter.transpose() * weights.asDiagonal() * scatter / weights.sum();
  std::vector<ReadingsTold::Input> out;
  for (int k = 0; k < unsure_count; ++k) {
    const Eigen::VectorXd g = gain.col(k);
    const double variance = 1 - with.col(k).dot(g) + g.dot(among * g);
    out.push_back({static_cast<Unsure>(k), g.dot(off + usual), std::sqrt(std::max(0.0, variance))});
  }
  return out;
}

double GivenReadings::damage(const Given& g, int stage) const {
  const auto& shift = m_.damage_shift[static_cast<std::size_t>(stage)];
  return shift ? draws_->damaged(stage, *shift, g.mean, g.weights) : 1;
}

double GivenReadings::shape(const Given& g, int stage) const {
  const auto& shift = m_.shape_shift[static_cast<std::size_t>(stage)];
  return shift ? 1 - draws_->distorted(stage, *shift, g.mean, g.weights) : 0;
}

NotYet GivenReadings::stands_against(const Given& g, int stage, double damage_wanted, double confidence) const {
  if (g.effective < least_effective) return NotYet::too_few;
  for (std::size_t k = 0; k < m_.uses.size(); ++k) {
    const OutcomeModel::Use& u = m_.uses[k];
    if (u.stage <= stage && u.stated * g.use_times[k] + u.bar * std::max(1.0, g.use_times[k]) > 1)
      return NotYet::as_stated;
  }
  if (damage(g, stage) > damage_wanted) return NotYet::damage;
  if (shape(g, stage) < confidence) return NotYet::shape;
  return NotYet::nothing;
}

double GivenReadings::chance_of_up_to(std::size_t i, const std::vector<double>& read) const {
  const auto n = static_cast<Eigen::Index>(places_.size()), uses = static_cast<Eigen::Index>(m_.uses.size());
  const auto here = static_cast<Eigen::Index>(i);
  std::vector<Eigen::Index> others;
  for (Eigen::Index k = 0; k < n; ++k)
    if (k != here) others.push_back(k);
  const auto mean = [&](Eigen::Index k) { return m_.mean[uses + places_[static_cast<std::size_t>(k)].pull]; };
  const auto count = static_cast<Eigen::Index>(others.size());
  Eigen::MatrixXd among(count, count);
  Eigen::VectorXd with(count), off(count);
  for (Eigen::Index a = 0; a < count; ++a) {
    with[a] = spread_(here, others[static_cast<std::size_t>(a)]);
    const auto other = static_cast<std::size_t>(others[static_cast<std::size_t>(a)]);
    off[a] = places_[other].times * read[other] - mean(others[static_cast<std::size_t>(a)]);
    for (Eigen::Index b = 0; b < count; ++b)
      among(a, b) = spread_(others[static_cast<std::size_t>(a)], others[static_cast<std::size_t>(b)]);
  }
  const Eigen::LDLT<Eigen::MatrixXd> solve(among);
  const Eigen::VectorXd gain = count > 0 ? Eigen::VectorXd(solve.solve(with)) : Eigen::VectorXd(0);
  const double sigma = std::sqrt(std::max(1e-12, spread_(here, here) - gain.dot(with)));
  Eigen::VectorXd logs(kinds), share(kinds);
  for (Eigen::Index j = 0; j < kinds; ++j) {
    Eigen::VectorXd d(off);
    for (Eigen::Index a = 0; a < count; ++a) d[a] += under_done_(j, others[static_cast<std::size_t>(a)]);
    logs[j] = count > 0 ? -0.5 * d.dot(solve.solve(d)) : 0;
    const double number = mean(here) + gain.dot(d) - under_done_(j, here);
    const double above = (places_[i].times * read[i] - number) / sigma;
    share[j] = normal_share(places_[i].times > 0 ? above : -above);
  }
  const Eigen::VectorXd weights = (logs.array() - logs.maxCoeff()).exp();
  return weights.dot(share) / weights.sum();
}

Eigen::MatrixXd GivenReadings::whole_sets(int count) const {
  const auto n = static_cast<Eigen::Index>(places_.size()), uses = static_cast<Eigen::Index>(m_.uses.size());
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> e(spread_);
  const Eigen::MatrixXd root = e.eigenvectors() * e.eigenvalues().cwiseMax(0.0).cwiseSqrt().asDiagonal();
  Normals normal(of_sets);
  Eigen::MatrixXd out(count, n);
  Eigen::VectorXd z(n);
  for (Eigen::Index s = 0; s < count; ++s) {
    std::map<int, double> common;  // by stage
    for (Eigen::Index i = 0; i < n; ++i) z[i] = normal();
    if (m_.seen.rows() == 0) z = root * z;
    for (Eigen::Index i = 0; i < n; ++i) {
      const ReadingPlace& p = places_[static_cast<std::size_t>(i)];
      double pull = m_.mean[uses + p.pull] + z[i];
      if (m_.seen.rows() > 0 && !is_shape(m_, p)) {
        const int stage = stage_of(m_, p);
        if (!common.count(stage)) common[stage] = normal();
        pull = m_.seen(s % m_.seen.rows(), p.pull) + p.own * z[i] + p.common * common[stage];
      }
      out(s, i) = (pull - under_done_(s % kinds, i)) / p.times;
    }
  }
  return out;
}

}  // namespace evenpull::inline sequencer
