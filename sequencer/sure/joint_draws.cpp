#include "sequencer/sure/joint_draws.hpp"

#include "sequencer/numbers/normals.hpp"
#include "sequencer/sure/outcome_model.hpp"

#include <Eigen/Eigenvalues>

#include <vector>

namespace evenpull::inline sequencer {
namespace {

constexpr Eigen::Index joint_draws = 40000;
constexpr unsigned of_uses = 21, of_thin_sheet = 22;  // seeds

// A root of a covariance that rounding may have left with eigenvalues below zero.
Eigen::MatrixXd root_of(const Eigen::MatrixXd& covariance) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> e(covariance);
  return e.eigenvectors() * e.eigenvalues().cwiseMax(0.0).cwiseSqrt().asDiagonal();
}

}  // namespace

JointDraws::JointDraws(const OutcomeModel& m)
    : JointDraws(m,
                 m.covariance.topLeftCorner(static_cast<Eigen::Index>(m.uses.size()),
                                            static_cast<Eigen::Index>(m.uses.size())),
                 Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(m.uses.size()), 1)) {}

JointDraws::JointDraws(const OutcomeModel& m, const Eigen::MatrixXd& covariance, const Eigen::MatrixXd& more)
    : m_(m),
      off_(covariance.rows(), joint_draws),
      strength_(StrengthOf::materials, joint_draws),
      even_(Eigen::VectorXd::Ones(more.cols())) {
  Normals normal(of_uses), sheet(of_thin_sheet);
  for (Eigen::Index d = 0; d < joint_draws; ++d) {
    for (Eigen::Index k = 0; k < off_.rows(); ++k) off_(k, d) = normal();
    for (Eigen::Index k = 0; k < strength_.rows(); ++k)
      strength_(k, d) = k == StrengthOf::thin_sheet ? sheet() : normal();
  }
  off_ = root_of(covariance) * off_;
  for (Eigen::Index d = 0; d < joint_draws; ++d) off_.col(d) += more.col(d % more.cols());
}

template <class Counts>
double JointDraws::share(int stage, double shift, const Eigen::VectorXd& mean, const Eigen::VectorXd& weights,
                         const Counts& counts) const {
  std::vector<Eigen::Index> which;
  for (std::size_t k = 0; k < m_.uses.size(); ++k)
    if (m_.uses[k].stage <= stage && counts(kind_of(m_.uses[k].limit))) which.push_back(static_cast<Eigen::Index>(k));
  double over = 0, all = 0;
  for (Eigen::Index d = 0; d < joint_draws; ++d) {
    const double w = weights[d % weights.size()];
    all += w;
    for (const Eigen::Index k : which) {
      const StrengthOf& s = m_.uses[static_cast<std::size_t>(k)].strength;
      if (mean[k] + off_(k, d) + shift + s.scatter * strength_(s.material, d) > 0) {
        over += w;
        break;
      }
    }
  }
  return all > 0 ? over / all : 1;
}

double JointDraws::damaged(int stage, double shift, const Eigen::VectorXd& mean, const Eigen::VectorXd& weights) const {
  return share(stage, shift, mean, weights, [](LimitKind k) { return k == LimitKind::damage; });
}

double JointDraws::distorted(int stage, double shift, const Eigen::VectorXd& mean,
                             const Eigen::VectorXd& weights) const {
  return share(stage, shift, mean, weights, [](LimitKind k) { return k == LimitKind::distortion; });
}

double JointDraws::damaged(int stage, double shift) const { return damaged(stage, shift, m_.mean, even_); }
double JointDraws::distorted(int stage, double shift) const { return distorted(stage, shift, m_.mean, even_); }

}  // namespace evenpull::inline sequencer
