#include "solver/readings/sag.hpp"

#include "solver/equilibrium/covering.hpp"
#include "solver/equilibrium/model.hpp"

#include <Eigen/Geometry>

#include <algorithm>

namespace evenpull::inline solver {
namespace {

// The surface that the ribs carry between which the cloth of a bay is free, on one side.
class RuledSurface {
 public:
  RuledSurface(const Model& m, const Covering& s, Side side, int bay) : panel_(m.panel), side_(side) {
    left_ = panel_.rib_columns[panel_.carried_from(bay)];
    right_ = panel_.rib_columns[panel_.carried_to(bay)];
    for (int end : {0, 1})
      for (int i = 0; i < panel_.rows; ++i)
        line_[end].push_back(on_rib(m, s, panel_.node(side, i, end == 0 ? left_ : right_)));
  }

  // Where the place of a cloth node lies on it.
  Eigen::Vector3d at(int row, int column) const { return between(row, share(row, column)); }

  // Outward normal there.
  Eigen::Vector3d normal(int row, int column) const {
    const double t = share(row, column);
    const Eigen::Vector3d along = line_[1][row] - line_[0][row];
    Eigen::Vector3d n = chordwise(row, t).cross(along).normalized();
    return side_ == Side::top ? n : Eigen::Vector3d(-n);
  }

 private:
  // The rib's own line: the tie moved with its joint, without what the cloth slides along it.
  static Eigen::Vector3d on_rib(const Model& m, const Covering& s, int node) {
    const int frame = 6 * static_cast<int>(m.panel.joints.size());
    const NodeMap& map = m.unknowns.nodes[node];
    Eigen::Vector3d x = m.panel.nodes[node].placed;
    for (int k = 0; k < map.count; ++k)
      if (map.index[k] < frame) x += s.unknowns[map.index[k]] * map.column.col(k);
    return x;
  }

  double share(int row, int column) const {
    const auto placed = [&](int j) -> const Eigen::Vector3d& {
      return panel_.nodes[panel_.node(side_, row, j)].placed;
    };
    const Eigen::Vector3d whole = placed(right_) - placed(left_);
    return (placed(column) - placed(left_)).dot(whole) / whole.squaredNorm();
  }

  Eigen::Vector3d between(int row, double t) const { return (1 - t) * line_[0][row] + t * line_[1][row]; }

  // Slope of the parabola through three stations: the rows are not evenly spaced, and cloth that has shifted along a
  // curved profile must not read as sag.
  Eigen::Vector3d chordwise(int row, double t) const {
    if (panel_.rows < 3) return between(1, t) - between(0, t);
    const int a = std::clamp(row - 1, 0, panel_.rows - 3);
    const Eigen::Vector3d p[3] = {between(a, t), between(a + 1, t), between(a + 2, t)};
    const double h0 = (p[1] - p[0]).norm(), h1 = (p[2] - p[1]).norm();
    const Eigen::Vector3d before = (p[1] - p[0]) / h0, after = (p[2] - p[1]) / h1;
    const Eigen::Vector3d curve = (after - before) / (h0 + h1);
    const double from_middle = row == a ? -h0 : row == a + 2 ? h1 : 0;
    return before + (h0 + 2 * from_middle) * curve;
  }

  const Panel& panel_;
  Side side_;
  int left_ = 0, right_ = 0;
  std::vector<Eigen::Vector3d> line_[2];
};

double chord_fraction(const Model& m, int row, int column) {
  const auto x = [&](int i) { return m.panel.nodes[m.panel.node(Side::top, i, column)].placed.x(); };
  const double seam = m.the_case.blanket.seam_chord_fraction;
  return seam + (1 - seam) * (x(row) - x(0)) / (x(m.panel.rows - 1) - x(0));
}

}  // namespace

Sag read_sag(const Model& m, const Covering& s) {
  const Panel& p = m.panel;
  Sag out;
  out.inward.assign(p.nodes.size(), 0);
  for (int b = 0; b < p.bays; ++b) {
    const RuledSurface skins[2] = {{m, s, Side::top, b}, {m, s, Side::bottom, b}};
    ThicknessLoss worst;
    // On a rib that does not carry the cloth, too.
    const int first = p.rib_columns[b] + (p.carried_from(b) == b ? 1 : 0), last = p.last_row(b);
    for (int j = first; j < p.rib_columns[b + 1]; ++j)
      for (int i = 0; i <= last; ++i) {
        if (p.nodes[p.node(Side::top, i, j)].absent) continue;
        double sag[2] = {};
        for (Side side : {Side::top, Side::bottom}) {
          const int k = static_cast<int>(side), node = p.node(side, i, j);
          const Eigen::Vector3d now = p.nodes[node].placed + displacement(m.unknowns.nodes[node], s.unknowns);
          sag[k] = out.inward[node] = (skins[k].at(i, j) - now).dot(skins[k].normal(i, j));
        }
        const bool on_metal = i == 0 || i == last || p.nodes[p.node(Side::top, i, j)].on_nose;
        if (on_metal || (worst.bay >= 0 && sag[0] + sag[1] <= worst.loss)) continue;
        worst = {sag[0] + sag[1],        sag[0], sag[1], (skins[0].at(i, j) - skins[1].at(i, j)).norm(), b,
                 chord_fraction(m, i, j)};
      }
    out.bays.push_back(worst);
  }
  return out;
}

ThicknessLoss worst_loss(const std::vector<ThicknessLoss>& bays) {
  ThicknessLoss worst;
  for (const ThicknessLoss& b : bays)
    if (b.bay >= 0 && (worst.bay < 0 || b.loss > worst.loss)) worst = b;
  return worst;
}

}  // namespace evenpull::inline solver
