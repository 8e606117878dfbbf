// Lumps of matter that exchange heat: each has a heat capacity, links to others, and links to surroundings of fixed
// temperature (room, a thermostat). Per square metre of sole. docs/model.md, section 4.
//
// With fixed conductances the network is linear and symmetric,
//   C dT/dt = -K T + q,
// so it has an exact answer: a sum of decaying exponentials along the eigenvectors of C^-1/2 K C^-1/2. Where a conductance
// depends on temperature or a heater is at its stop it has none, and a stiff integrator takes over (heat_integrator.hpp).
#pragma once

#include <Eigen/Core>

namespace evenpull {
inline namespace solver {  // read as C++17 too: solver/CMakeLists.txt says why

struct HeatNetwork {
  explicit HeatNetwork(int lumps)
      : capacity(Eigen::VectorXd::Zero(lumps)),
        conductance(Eigen::MatrixXd::Zero(lumps, lumps)),
        input(Eigen::VectorXd::Zero(lumps)) {}

  void link(int a, int b, double conductance_between);             ///< W/K
  void link_to(int a, double conductance_to, double temperature);  ///< W/K, K

  Eigen::VectorXd capacity;     ///< J/K
  Eigen::MatrixXd conductance;  ///< K [W/K], symmetric and positive semidefinite
  Eigen::VectorXd input;        ///< q [W]: conductance to the surroundings times their temperature
};

/// Temperatures of every lump at any time after `start`, exact.
class HeatModes {
 public:
  HeatModes(const HeatNetwork& n, const Eigen::VectorXd& start);
  Eigen::VectorXd at(double seconds) const;

 private:
  Eigen::VectorXd root_;  ///< sqrt(C)
  Eigen::VectorXd rate_;  ///< 1/s
  Eigen::MatrixXd shape_;
  Eigen::VectorXd begin_, drive_;  ///< along the shapes
};

}  // namespace solver
}  // namespace evenpull
