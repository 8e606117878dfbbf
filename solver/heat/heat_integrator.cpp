// The stiff integrator by itself: of Boost 1.74 its matrices need C++17 (they call members that C++20 took from
// std::allocator), so this file is compiled by that standard.
#include "solver/heat/heat_integrator.hpp"

#include <boost/numeric/odeint/integrate/integrate_times.hpp>
#include <boost/numeric/odeint/stepper/rosenbrock4.hpp>
#include <boost/numeric/odeint/stepper/rosenbrock4_controller.hpp>
#include <boost/numeric/odeint/stepper/rosenbrock4_dense_output.hpp>

#include <utility>

namespace evenpull {
inline namespace solver {  // read as C++17 too: solver/CMakeLists.txt says why
namespace {

// A ten-thousandth of a kelvin is far below what any iron can tell.
constexpr double absolute_tolerance = 1e-4;  // K
constexpr double relative_tolerance = 1e-6;
constexpr double first_step = 1e-3;  // s
constexpr double difference = 1e-3;  // K, of the numerical derivative of the extra heat

using Vector = boost::numeric::ublas::vector<double>;
using Matrix = boost::numeric::ublas::matrix<double>;
using Stepper = boost::numeric::odeint::rosenbrock4_dense_output<
    boost::numeric::odeint::rosenbrock4_controller<boost::numeric::odeint::rosenbrock4<double>>>;

Eigen::VectorXd from(const Vector& v) {
  Eigen::VectorXd out(static_cast<Eigen::Index>(v.size()));
  for (std::size_t i = 0; i < v.size(); ++i) out[static_cast<Eigen::Index>(i)] = v[i];
  return out;
}

}  // namespace

std::vector<Eigen::VectorXd> integrate_heat(const HeatNetwork& n, const Eigen::VectorXd& start, const ExtraHeat& extra,
                                            const std::vector<double>& times) {
  const auto rate = [&](const Eigen::VectorXd& t) -> Eigen::VectorXd {
    Eigen::VectorXd heat = n.input - n.conductance * t;
    if (extra) heat += extra(t);
    return heat.cwiseQuotient(n.capacity);
  };
  const auto system = [&](const Vector& x, Vector& dxdt, double) {
    const Eigen::VectorXd r = rate(from(x));
    for (std::size_t i = 0; i < x.size(); ++i) dxdt[i] = r[static_cast<Eigen::Index>(i)];
  };
  const auto jacobian = [&](const Vector& x, Matrix& j, const double&, Vector& dfdt) {
    const Eigen::VectorXd at = from(x), base = rate(at);
    for (std::size_t k = 0; k < x.size(); ++k) {
      Eigen::VectorXd moved = at;
      moved[static_cast<Eigen::Index>(k)] += difference;
      const Eigen::VectorXd r = (rate(moved) - base) / difference;
      for (std::size_t i = 0; i < x.size(); ++i) j(i, k) = r[static_cast<Eigen::Index>(i)];
      dfdt[k] = 0;
    }
  };
  Vector x(static_cast<std::size_t>(start.size()));
  for (Eigen::Index i = 0; i < start.size(); ++i) x[static_cast<std::size_t>(i)] = start[i];
  std::vector<Eigen::VectorXd> out;
  const Stepper stepper{boost::numeric::odeint::rosenbrock4_controller<boost::numeric::odeint::rosenbrock4<double>>(
      absolute_tolerance, relative_tolerance)};
  boost::numeric::odeint::integrate_times(stepper, std::make_pair(system, jacobian), x, times.begin(), times.end(),
                                          first_step, [&](const Vector& state, double) { out.push_back(from(state)); });
  return out;
}

}  // namespace solver
}  // namespace evenpull
