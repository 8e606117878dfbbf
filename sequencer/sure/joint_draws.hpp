// Chances from draws of a joint normal distribution of logarithms of uses (sequencer/sure/outcome_model.hpp).
#pragma once

#include <Eigen/Core>

namespace evenpull::inline sequencer {

struct OutcomeModel;

class JointDraws {
 public:
  /// As the model stands before anything was read.
  explicit JointDraws(const OutcomeModel& m);
  /// With another covariance of the uses; column j of `more` (uses x kinds) is added to draws j, j + kinds, j + 2 kinds ...
  JointDraws(const OutcomeModel& m, const Eigen::MatrixXd& covariance, const Eigen::MatrixXd& more);

  /// Chance that something is damaged by the end of a stage, `shift` added to each use of damage; strengths with their scatter.
  double damaged(int stage, double shift) const;
  /// Chance that a limit of distortion is passed by then.
  double distorted(int stage, double shift) const;

  /// The same with another mean of the uses and with weights of the kinds, which need not add up to 1.
  double damaged(int stage, double shift, const Eigen::VectorXd& mean, const Eigen::VectorXd& weights) const;
  double distorted(int stage, double shift, const Eigen::VectorXd& mean, const Eigen::VectorXd& weights) const;

 private:
  template <class Counts>
  double share(int stage, double shift, const Eigen::VectorXd& mean, const Eigen::VectorXd& weights,
               const Counts& counts) const;

  const OutcomeModel& m_;
  Eigen::MatrixXd off_;       // uses x draws
  Eigen::MatrixXd strength_;  // materials x draws, in sigmas
  Eigen::VectorXd even_;      // weights of the kinds, all alike
};

}  // namespace evenpull::inline sequencer
