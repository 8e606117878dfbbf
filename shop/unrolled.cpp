#include "shop/unrolled.hpp"

#include "solver/geometry/cut_outs.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull {
namespace {

constexpr double same = 1e-9;
constexpr double sharpest = 1e-4;  ///< radius of a trailing edge that has none [m]
constexpr int rows_of_a_side = 120, rows_round_edge = 8, columns_of_a_bow = 16;

// --- Lines. ---

std::vector<double> sorted_once(std::vector<double> v) {
  std::sort(v.begin(), v.end());
  v.erase(std::unique(v.begin(), v.end(), [](double a, double b) { return std::abs(a - b) < same; }), v.end());
  return v;
}

std::vector<double> chord_fractions(const Case& c) {
  const double from = c.blanket.seam_chord_fraction;
  std::vector<double> at;
  for (int i = 0; i <= rows_of_a_side; ++i) at.push_back(from + (1 - from) * i / rows_of_a_side);
  for (const Pocket& p : c.pockets) at.push_back(pocket_front(c, p));
  for (const HingeGap& g : c.hinge_gaps) at.push_back(gap_end(c, g));
  for (const ProfilePoint& p : c.profile)
    if (p.chord_fraction > from) at.push_back(p.chord_fraction);
  return sorted_once(std::move(at));
}

std::vector<UnrolledRow> rows_of(const Case& c, PieceOf of) {
  const std::vector<double> at = chord_fractions(c);
  std::vector<UnrolledRow> out;
  if (of != PieceOf::bottom)
    for (const double x : at) out.push_back({Side::top, x, -1});
  if (of == PieceOf::whole_panel)
    for (int i = 1; i < rows_round_edge; ++i) out.push_back({Side::top, 1, M_PI * i / rows_round_edge});
  if (of != PieceOf::top)
    for (auto x = at.rbegin(); x != at.rend(); ++x) out.push_back({Side::bottom, *x, -1});
  return out;
}

std::vector<double> stations_of(const Case& c) {
  std::vector<double> at;
  const double from = c.ribs.front().station, to = c.ribs.back().station;
  const auto add = [&](double y) {
    if (y >= from && y <= to) at.push_back(y);
  };
  for (const Rib& r : c.ribs) add(r.station);
  for (const PlanPoint& p : c.outline.leading_edge) add(p.y);
  for (const PlanPoint& p : c.outline.trailing_edge) add(p.y);
  for (const HingeGap& g : c.hinge_gaps) add(g.from), add(g.to);
  if (c.tip_bow) {
    const double a = c.ribs[c.ribs.size() - 2].station;
    for (int i = 1; i < columns_of_a_bow; ++i) add(a + (to - a) * i / columns_of_a_bow);
  }
  return sorted_once(std::move(at));
}

SpanPlace place_at(const Case& c, double station) {
  int bay = 0;
  while (bay + 2 < static_cast<int>(c.ribs.size()) &&
         c.ribs[static_cast<std::size_t>(bay) + 1].station <= station + same)
    ++bay;
  const double a = c.ribs[static_cast<std::size_t>(bay)].station, b = c.ribs[static_cast<std::size_t>(bay) + 1].station;
  return {bay, std::clamp((station - a) / (b - a), 0.0, 1.0)};
}

Eigen::Vector3d point_of(const Surface& s, const UnrolledRow& row, SpanPlace p) {
  if (row.round_edge < 0) return s.skin(row.side, row.chord_fraction, p);
  const double r = std::max(sharpest, 0.5 * s.depth(1, p));
  return s.middle(1, p) + r * Eigen::Vector3d(std::sin(row.round_edge), 0, std::cos(row.round_edge));
}

// --- Into the plane. ---

double angle_between(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
  return std::atan2(a.cross(b).norm(), a.dot(b));
}

class Development {
 public:
  Development(Unrolled& out, const std::vector<Eigen::Vector3d>& points) : out_(out), points_(points) {}

  void run(int base) {
    out_.flat.assign(points_.size(), {0, 0});
    lay_base(base);
    for (int i = base; i + 1 < out_.row_count(); ++i) lay_next(i, i + 1);
    for (int i = base; i > 0; --i) lay_next(i, i - 1);
    measure();
  }

 private:
  const Eigen::Vector3d& p(int row, int column) const {
    return points_[static_cast<std::size_t>(row * out_.column_count() + column)];
  }
  Eigen::Vector2d& f(int row, int column) {
    return out_.flat[static_cast<std::size_t>(row * out_.column_count() + column)];
  }

  // Angle within the cloth at a point of row i between its two neighbours in that row, on the side of row k.
  double inner_angle(int i, int k, int j) const {
    const Eigen::Vector3d across = p(k, j) - p(i, j);
    return angle_between(p(i, j - 1) - p(i, j), across) + angle_between(across, p(i, j + 1) - p(i, j));
  }

  // Where rows lie on both sides of it the turns of both are shared out alike.
  double turn_at(int base, int j) const {
    double sum = 0;
    int sides = 0;
    if (base > 0) sum += inner_angle(base, base - 1, j) - M_PI, ++sides;
    if (base + 1 < out_.row_count()) sum -= inner_angle(base, base + 1, j) - M_PI, ++sides;
    return sum / std::max(1, sides);
  }

  void lay_base(int base) {
    double heading = 0;
    for (int j = 0; j + 1 < out_.column_count(); ++j) {
      if (j > 0) heading += turn_at(base, j);
      f(base, j + 1) =
          f(base, j) + (p(base, j + 1) - p(base, j)).norm() * Eigen::Vector2d(std::cos(heading), std::sin(heading));
    }
    // Root to tip lies along u.
    const Eigen::Vector2d whole = f(base, out_.column_count() - 1).normalized();
    for (int j = 0; j < out_.column_count(); ++j) {
      const Eigen::Vector2d q = f(base, j);
      f(base, j) = {whole.dot(q), whole.x() * q.y() - whole.y() * q.x()};
    }
  }

  // A point of the next row keeps its distance, and its angle to the neighbours on either hand.
  void lay_next(int i, int k) {
    const double hand = k > i ? 1 : -1;
    const int last = out_.column_count() - 1;
    for (int j = 0; j <= last; ++j) {
      const Eigen::Vector3d across = p(k, j) - p(i, j);
      Eigen::Vector2d direction(0, 0);
      const auto add = [&](int neighbour, double sign) {
        const double angle = sign * angle_between(p(i, neighbour) - p(i, j), across);
        direction += Eigen::Rotation2Dd(angle) * (f(i, neighbour) - f(i, j)).normalized();
      };
      if (j < last) add(j + 1, hand);
      if (j > 0) add(j - 1, -hand);
      f(k, j) = f(i, j) + across.norm() * direction.normalized();
    }
  }

  void measure() {
    for (int i = 0; i < out_.row_count(); ++i) {
      double there = 0, here = 0;
      for (int j = 0; j + 1 < out_.column_count(); ++j) {
        there += (p(i, j + 1) - p(i, j)).norm();
        here += (f(i, j + 1) - f(i, j)).norm();
      }
      out_.off = std::max(out_.off, std::abs(here - there));
      out_.spread = std::max(out_.spread, std::abs(here - there) / there);
    }
  }

  Unrolled& out_;
  const std::vector<Eigen::Vector3d>& points_;
};

int base_row(const Unrolled& u) {
  if (u.of == PieceOf::whole_panel) return u.row_count() / 2;
  return u.of == PieceOf::top ? u.row_count() - 1 : 0;
}

// At the widest chord: half circles grow with it.
template <class Length>
double at_widest(const Case& c, const Length& length) {
  double most = 0;
  for (const double y : stations_of(c)) most = std::max(most, length(place_at(c, y)));
  return most;
}

double skin_length(const Surface& s, Side side, double to, SpanPlace p) {
  constexpr int steps = 100;
  double sum = 0;
  for (int i = 0; i < steps; ++i)
    sum += (s.skin(side, to * (i + 1) / steps, p) - s.skin(side, to * i / steps, p)).norm();
  return sum;
}

}  // namespace

int Unrolled::row_of(Side side, double chord_fraction) const {
  for (int i = 0; i < row_count(); ++i) {
    const UnrolledRow& r = rows[static_cast<std::size_t>(i)];
    if (r.side == side && r.round_edge < 0 && std::abs(r.chord_fraction - chord_fraction) < same) return i;
  }
  assert(false && "no unrolled row at this chord fraction");
  return 0;
}

int Unrolled::column_at(double station) const {
  int best = 0;
  for (int j = 0; j < column_count(); ++j)
    if (std::abs(stations[static_cast<std::size_t>(j)] - station) <
        std::abs(stations[static_cast<std::size_t>(best)] - station))
      best = j;
  return best;
}

Unrolled unroll(const Case& c, PieceOf of) {
  const Surface surface(c);
  Unrolled out;
  out.of = of;
  out.rows = rows_of(c, of);
  out.stations = stations_of(c);
  for (const double y : out.stations) out.columns.push_back(place_at(c, y));
  for (const Rib& r : c.ribs) out.rib_columns.push_back(out.column_at(r.station));
  std::vector<Eigen::Vector3d> points;
  for (const UnrolledRow& row : out.rows)
    for (const SpanPlace& place : out.columns) points.push_back(point_of(surface, row, place));
  Development(out, points).run(base_row(out));
  return out;
}

double round_the_nose(const Case& c) {
  const Surface s(c);
  const double to = c.blanket.seam_chord_fraction;
  return at_widest(c, [&](SpanPlace p) {
    return M_PI / 2 * s.depth(0, p) + skin_length(s, Side::top, to, p) + skin_length(s, Side::bottom, to, p);
  });
}

double round_the_trailing_edge(const Case& c) {
  const Surface s(c);
  return at_widest(c, [&](SpanPlace p) { return M_PI / 2 * s.depth(1, p); });
}

}  // namespace evenpull
