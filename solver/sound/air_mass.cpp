#include "solver/sound/air_mass.hpp"

#include "solver/sound/mean_plane.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
#include <utility>

namespace evenpull::inline solver {
namespace {

constexpr double two_pi = 6.28318530717958647692;

struct Edge {
  int quads = 0;
  int from = 0, to = 0;
  Eigen::Vector2d outward = Eigen::Vector2d::Zero();  // times length
};

}  // namespace

AirMass::AirMass(const std::vector<Eigen::Vector3d>& nodes, const std::vector<std::array<int, 4>>& quads) {
  assert(!quads.empty());
  const MeanPlane plane(nodes, quads);
  normal_ = plane.normal;
  const auto flat = [&](int n) { return plane.flat(nodes[n]); };

  double height = 0;
  for (const auto& q : quads)
    for (int n : q) height += nodes[n].dot(normal_) / (4.0 * static_cast<double>(quads.size()));
  using Entry = Eigen::Triplet<double>;
  std::vector<Entry> x, y;
  const auto add = [&](int row, int node, const Eigen::Vector2d& flux) {
    x.emplace_back(row, node, flux.x());
    y.emplace_back(row, node, flux.y());
  };
  std::map<std::pair<int, int>, Edge> edges;
  for (const auto& q : quads) {
    const int row = static_cast<int>(at_.size());
    Eigen::Vector2d middle = Eigen::Vector2d::Zero();
    for (int n : q) {
      middle += 0.25 * flat(n);
      out_of_plane_ = std::max(out_of_plane_, std::abs(nodes[n].dot(normal_) - height));
    }
    at_.push_back(middle);
    const Eigen::Vector2d a = flat(q[2]) - flat(q[0]), b = flat(q[3]) - flat(q[1]);
    const double turn = a.x() * b.y() - a.y() * b.x() > 0 ? 1 : -1;
    for (int k = 0; k < 4; ++k) {
      // Integral of the gradient over the quad = integral of v times the outward normal round it.
      const int i = q[k], j = q[(k + 1) % 4];
      const Eigen::Vector2d e = flat(j) - flat(i);
      const Eigen::Vector2d outward = turn * Eigen::Vector2d(e.y(), -e.x());
      add(row, i, 0.5 * outward);
      add(row, j, 0.5 * outward);
      Edge& edge = edges[{std::min(i, j), std::max(i, j)}];
      edge = {edge.quads + 1, i, j, outward};
    }
  }
  // Outside the border the velocity drops to nothing.
  for (const auto& [ends, edge] : edges) {
    if (edge.quads != 1) continue;
    const int row = static_cast<int>(at_.size());
    at_.push_back(0.5 * (flat(edge.from) + flat(edge.to)));
    add(row, edge.from, -0.5 * edge.outward);
    add(row, edge.to, -0.5 * edge.outward);
  }
  flux_x_.resize(static_cast<int>(at_.size()), static_cast<int>(nodes.size()));
  flux_y_ = flux_x_;
  flux_x_.setFromTriplets(x.begin(), x.end());
  flux_y_.setFromTriplets(y.begin(), y.end());
}

Eigen::VectorXd AirMass::times(const Eigen::VectorXd& velocity) const {
  const Eigen::VectorXd gx = flux_x_ * velocity, gy = flux_y_ * velocity;
  Eigen::VectorXd hx = Eigen::VectorXd::Zero(gx.size()), hy = hx;
  for (std::size_t i = 0; i < at_.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const double r = (at_[i] - at_[j]).norm();
      hx[i] += r * gx[j];
      hx[j] += r * gx[i];
      hy[i] += r * gy[j];
      hy[j] += r * gy[i];
    }
  return -(flux_x_.transpose() * hx + flux_y_.transpose() * hy) / two_pi;
}

double AirMass::volume(const Eigen::VectorXd& velocity) const { return velocity.dot(times(velocity)); }

}  // namespace evenpull::inline solver
