// Random numbers for property tests: a fixed seed gives the same numbers everywhere.
#pragma once

#include <Eigen/Core>

#include <random>

namespace evenpull::check {

class Chance {
 public:
  explicit Chance(unsigned seed) : engine_(seed) {}
  /// Uniform between low and high; built from the engine's own bits, since distributions differ between libraries.
  double between(double low, double high) { return low + (high - low) * (engine_() / 4294967296.0); }
  template <int n>
  Eigen::Matrix<double, n, 1> vector(double size) {
    Eigen::Matrix<double, n, 1> v;
    for (int i = 0; i < n; ++i) v[i] = between(-size, size);
    return v;
  }
  Eigen::VectorXd vector(Eigen::Index n, double size) {
    Eigen::VectorXd v(n);
    for (Eigen::Index i = 0; i < n; ++i) v[i] = between(-size, size);
    return v;
  }

 private:
  std::mt19937 engine_;
};

}  // namespace evenpull::check
