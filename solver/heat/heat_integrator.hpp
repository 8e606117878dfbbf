// A heat network with heat that depends on its temperatures, integrated step by step: docs/model.md, section 4.
#pragma once

#include "solver/heat/heat_network.hpp"

#include <functional>
#include <vector>

namespace evenpull {
inline namespace solver {  // read as C++17 too: solver/CMakeLists.txt says why

/// Extra heat into the lumps as a function of their temperatures [W], beyond what the network says.
using ExtraHeat = std::function<Eigen::VectorXd(const Eigen::VectorXd&)>;

/// Temperatures of every lump with extra heat, integrated by a Rosenbrock method of order 4 (stiff, with step control) to
/// the times given, which rise from 0 on.
std::vector<Eigen::VectorXd> integrate_heat(const HeatNetwork& n, const Eigen::VectorXd& start, const ExtraHeat& extra,
                                            const std::vector<double>& times);

}  // namespace solver
}  // namespace evenpull
