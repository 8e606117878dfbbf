#include "solver/heat/heat_network.hpp"

#include <Eigen/Eigenvalues>

#include <cmath>

namespace evenpull::inline solver {
namespace {

// Below this rate [1/s] a mode does not decay within any job: its drive is taken as growing in a straight line.
constexpr double no_decay = 1e-12;

}  // namespace

void HeatNetwork::link(int a, int b, double g) {
  conductance(a, a) += g;
  conductance(b, b) += g;
  conductance(a, b) -= g;
  conductance(b, a) -= g;
}

void HeatNetwork::link_to(int a, double g, double temperature) {
  conductance(a, a) += g;
  input[a] += g * temperature;
}

HeatModes::HeatModes(const HeatNetwork& n, const Eigen::VectorXd& start) : root_(n.capacity.cwiseSqrt()) {
  const Eigen::VectorXd inverse = root_.cwiseInverse();
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> modes(inverse.asDiagonal() * n.conductance *
                                                             inverse.asDiagonal());
  rate_ = modes.eigenvalues().cwiseMax(0);
  shape_ = modes.eigenvectors();
  begin_ = shape_.transpose() * root_.cwiseProduct(start);
  drive_ = shape_.transpose() * inverse.cwiseProduct(n.input);
}

Eigen::VectorXd HeatModes::at(double t) const {
  Eigen::VectorXd y(rate_.size());
  for (Eigen::Index i = 0; i < y.size(); ++i) {
    const double r = rate_[i];
    const double driven = r > no_decay ? -std::expm1(-r * t) / r : t;
    y[i] = begin_[i] * std::exp(-r * t) + drive_[i] * driven;
  }
  return root_.cwiseInverse().cwiseProduct(shape_ * y);
}

}  // namespace evenpull::inline solver
