// What weights on the bare frame say of its members and joints: which stiffness explains the movements that were read
// (docs/model.md, section 14). What is unknown is drawn as the chances draw it, so that every number here is in
// sigmas of the case's own spreads: 0 is as stated, and before any reading each is a standard normal.
#pragma once

#include "shop/push_frame.hpp"

#include <Eigen/Core>

#include <functional>
#include <vector>

namespace evenpull {

/// What of the frame is not known well.
struct PushFactor {
  enum class What { all_members, group, joints, supports };
  What what = What::all_members;
  MemberGroup group = MemberGroup::edges;
  JointKind joint = JointKind::unstated;
};

struct PushReading {
  int place = 0;    ///< among the places of the frame
  double down = 0;  ///< m
};

/// One weight, and what moved how far.
struct PushTest {
  PushLoad load;
  std::vector<PushReading> readings;
};

/// One sigma.
struct PushErrors {
  /// m: a ruler or a caliper from the bench, 0.25 mm as for a sag; estimate.
  double reading = 0.25e-3;
  /// Of every movement: a weight is off by 1 %, and where it hangs and where is read by a few mm; judgement.
  double share = 0.02;
};

/// In which order: stiffness of the members (all by one factor, or by groups), joints of each kind, supports that give.
std::vector<PushFactor> push_factors(const Case& c, const Panel& p, bool each_group);

/// The case with joints and supports, and the change of stiffness, that numbers in sigmas (one a factor) make.
Case joints_drawn(const Case& c, const std::vector<PushFactor>& factors, const Eigen::VectorXd& sigmas);
FrameChange stiffness_drawn(const Case& c, const std::vector<PushFactor>& factors, const Eigen::VectorXd& sigmas);

/// Movements of all readings, in order [m].
Eigen::VectorXd push_movements(const PushFrame& frame, const Case& c, const std::vector<PushFactor>& factors,
                               const std::vector<PushTest>& tests, const Eigen::VectorXd& sigmas);

/// The same as a smooth surface that costs next to nothing: Chebyshev polynomials of the movements (of their
/// logarithms where none changes sign), by least squares over quasi-random points.
class PushSurface {
 public:
  using Exact = std::function<Eigen::VectorXd(const Eigen::VectorXd&)>;
  PushSurface(const std::vector<PushFactor>& factors, const Exact& exact);

  Eigen::VectorXd at(const Eigen::VectorXd& sigmas) const;  ///< m
  const Eigen::VectorXd& error() const {
    return error_;
  }  ///< rms of each reading at points that it was not made of [m]
  int factors() const { return static_cast<int>(by_share_.size()); }

 private:
  Eigen::VectorXd row(const Eigen::VectorXd& sigmas) const;
  std::vector<char> by_share_;            ///< of each factor: drawn evenly over a range, not by a normal
  std::vector<std::vector<int>> powers_;  ///< of each term
  std::vector<char> logs_;                ///< of each reading: the logarithm is the polynomial
  std::vector<double> signs_;
  Eigen::MatrixXd coefficients_;
  Eigen::VectorXd error_;
};

/// Of one factor in sigmas, 95 % between `low` and `high`.
struct PushKnown {
  double mean = 0, deviation = 1, low = 0, high = 0;
};

struct PushAnswer {
  std::vector<PushKnown> factors;
  Eigen::VectorXd mean, best;     ///< of all factors; at the best fit
  std::vector<double> read, off;  ///< m: what was read, and its one sigma
  std::vector<double> explained;  ///< m: with the factors that fit best
  double misfit = 0;              ///< chi-square of readings and factors together at the best fit
  double allowed = 0;             ///< which 2 in 100 exceed by chance
  bool agrees() const { return misfit <= allowed; }
};

/// Best fit and spread of the factors given the readings (Bayes): Gauss-Newton from several starts, then draws round
/// the best fit weighed by how well each explains the readings.
PushAnswer what_pushes_say(const PushSurface& surface, const std::vector<PushTest>& tests, const PushErrors& errors);

/// The best fit alone where every movement is `times` what the surface says.
struct PushFit {
  Eigen::VectorXd at;
  double misfit = 0;
};
PushFit best_push_fit(const PushSurface& surface, const Eigen::VectorXd& times, const std::vector<PushTest>& tests,
                      const PushErrors& errors);

/// Sigmas of the readings [m].
Eigen::VectorXd push_sigmas(const std::vector<PushTest>& tests, const PushErrors& errors);

/// Chi-square that 2 in 100 sets of so many readings exceed by chance.
double allowed_misfit(int readings);

}  // namespace evenpull
