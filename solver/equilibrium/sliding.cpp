#include "solver/equilibrium/sliding.hpp"

#include "solver/equilibrium/friction.hpp"
#include "solver/equilibrium/padded.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenpull::inline solver {
namespace {

// Friction thresholds follow the forces from iteration to iteration. Round an edge of much friction they do so by steps
// that shrink by no more than tanh(mu theta/2) each. From the iteration `hasten_from` on, which ordinary solves do not
// reach, and at least `between_jumps` iterations apart, they go at once to where their steps point, if the last two ratios
// of steps agree (Aitken's extrapolation).
constexpr int hasten_from = 20, between_jumps = 5;
constexpr double ratios_agree = 0.02, largest_ratio = 0.995;

}  // namespace

Eigen::Vector2d slip_between(const SlidingPoint& p, const Eigen::VectorXd& from, const Eigen::VectorXd& to) {
  Eigen::Vector2d slip(0, 0);
  for (int k = 0; k < p.unknowns; ++k) slip[k] = to[p.first_unknown + k] - from[p.first_unknown + k];
  return slip;
}

SlidingThresholds::SlidingThresholds(const Model& m)
    : model_(m),
      in_use_(Eigen::VectorXd::Zero(m.unknowns.sliding.size())),
      asked_(in_use_),
      change_(in_use_),
      last_change_(in_use_) {}

double SlidingThresholds::asked_by(const std::vector<Padded>& force, const SlidingPoint& s) const {
  const Blanket& blanket = model_.the_case.blanket;
  const ClothNode &top = model_.panel.nodes[s.top_node], &bottom = model_.panel.nodes[s.bottom_node];
  const auto force_top = vector(force[s.top_node]), force_bottom = vector(force[s.bottom_node]);
  if (s.kind == SlidingPoint::Kind::wrapped)
    return wrap_threshold(force_top.dot(top.along_chord), force_bottom.dot(bottom.along_chord), blanket.edge_friction,
                          blanket.wrap_angle);
  if (blanket.inner_ribs == RibTie::free && !top.on_nose) return 0;
  return blanket.rib_friction * std::max(0.0, force_top.dot(top.normal));
}

void SlidingThresholds::forget() {
  for (Eigen::VectorXd* v : {&in_use_, &asked_, &change_, &last_change_}) v->setZero();
  ratio_ = 0;
  since_jump_ = 0;
}

void SlidingThresholds::follow(const std::vector<Padded>& force, int iteration) {
  for (Eigen::Index i = 0; i < asked_.size(); ++i) asked_[i] = asked_by(force, model_.unknowns.sliding[i]);
  std::swap(change_, last_change_);
  change_ = asked_ - in_use_;
  const double before = last_change_.squaredNorm(), last_ratio = ratio_;
  ratio_ = before > 0 ? change_.dot(last_change_) / before : 0;
  const bool jump = iteration >= hasten_from && ++since_jump_ >= between_jumps &&
                    std::abs(ratio_ - last_ratio) < ratios_agree && std::abs(ratio_) < largest_ratio;
  if (!jump) {
    in_use_ = asked_;
    return;
  }
  since_jump_ = 0;
  const Eigen::ArrayXd there = in_use_.array() + change_.array() / (1 - ratio_);
  in_use_ = there.max(0.5 * asked_.array()).min(2 * asked_.array());
}

}  // namespace evenpull::inline solver
