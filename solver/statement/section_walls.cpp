#include "solver/statement/section_walls.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace evenpull::inline solver {
namespace {

// Gauss's three points and weights on 0..1, exact up to the fifth power: the shear flow of a straight wall is a
// parabola, and its square is integrated.
constexpr std::array<double, 3> gauss_at = {0.1127016653792583, 0.5, 0.8872983346207417};
constexpr std::array<double, 3> gauss_weight = {5.0 / 18, 8.0 / 18, 5.0 / 18};

constexpr double plate = 5.0 / 6;  // kappa of a rectangle, by energy

// Second moments of area that differ by less than this share of the larger one are none: rounding.
constexpr double nothing = 1e-9;

/// Symmetric 2 x 2: of x x, x z and z z.
struct Moments {
  double xx = 0, xz = 0, zz = 0;
  double determinant() const { return xx * zz - xz * xz; }
  bool singular() const { return determinant() <= nothing * (xx + zz) * (xx + zz); }
};

/// Stress at (x, z) per moment: gradient of a field that is straight over the section.
struct Gradient {
  double x = 0, z = 0;
  double at(const SectionPoint& p) const { return x * p.x + z * p.z; }
};

/// Of a unit moment about one axis, by unsymmetric bending.
Gradient bending_up(const Moments& m) { return {-m.xz / m.determinant(), m.xx / m.determinant()}; }
Gradient bending_flat(const Moments& m) { return {m.zz / m.determinant(), -m.xz / m.determinant()}; }

double length(const SectionPoint& a, const SectionPoint& b) { return std::hypot(b.x - a.x, b.z - a.z); }

// Integral of f g along a wall on which both are straight, over its length.
double product(double f0, double f1, double g0, double g1) { return (2 * (f0 * g0 + f1 * g1) + f0 * g1 + f1 * g0) / 6; }

/// A wall with its end nearer to the root first.
struct Branch {
  int near = 0, far = 0, wall = 0;
};

/// Every wall after the one that carries it.
std::vector<Branch> branches_of(const WallSection& w) {
  std::vector<bool> reached(w.nodes.size(), false), used(w.walls.size(), false);
  std::vector<Branch> out;
  reached[static_cast<std::size_t>(w.walls.front().from)] = true;
  for (bool more = true; more;) {
    more = false;
    for (std::size_t i = 0; i < w.walls.size(); ++i) {
      const auto from = static_cast<std::size_t>(w.walls[i].from), to = static_cast<std::size_t>(w.walls[i].to);
      if (used[i] || reached[from] == reached[to]) continue;
      out.push_back({reached[from] ? w.walls[i].from : w.walls[i].to, reached[from] ? w.walls[i].to : w.walls[i].from,
                     static_cast<int>(i)});
      used[i] = reached[from] = reached[to] = more = true;
    }
  }
  assert(out.size() == w.walls.size() && "open walls are one tree");
  return out;
}

class Walls {
 public:
  explicit Walls(WallSection w) : w_(std::move(w)), branches_(branches_of(w_)) {
    take_centre();
    take_moments();
  }

  OpenWalls properties() const {
    OpenWalls out;
    Section& s = out.section;
    out.centre = centre_;
    s.area = area_;
    s.inertia_up = full_.zz;
    s.inertia_flat = full_.xx;
    if (std::abs(full_.xz) > nothing * std::max(full_.xx, full_.zz)) {
      const double half = 0.5 * (full_.xx - full_.zz);
      s.inertia_up = s.inertia_flat = 0.5 * (full_.xx + full_.zz) - std::hypot(half, full_.xz);
    }
    s.reach_up = s.inertia_up * worst_stress(bending_up(full_));
    s.reach_flat = s.inertia_flat * worst_stress(bending_flat(full_));
    for (const SectionWall& wall : w_.walls) {
      const double t = wall.thickness;
      s.torsion += wall.shear * length(node(wall.from), node(wall.to)) * t * t * t / 3;
      s.reach_twist = std::max(s.reach_twist, wall.shear * t);
    }
    s.shear_up = shear_area(true);
    s.shear_flat = shear_area(false);
    const SectionPoint centre = shear_centre();
    out.shear_centre = {centre_.x + centre.x, centre_.z + centre.z};
    s.warping = warping(centre);
    return out;
  }

 private:
  const SectionPoint& node(int i) const { return w_.nodes[static_cast<std::size_t>(i)]; }

  void take_centre() {
    double mx = 0, mz = 0;
    for (const SectionWall& wall : w_.walls) {
      const SectionPoint &a = node(wall.from), &b = node(wall.to);
      const double part = wall.stretch * wall.thickness * length(a, b);
      area_ += part;
      mx += part * 0.5 * (a.x + b.x);
      mz += part * 0.5 * (a.z + b.z);
    }
    centre_ = {mx / area_, mz / area_};
    for (SectionPoint& p : w_.nodes) p = {p.x - centre_.x, p.z - centre_.z};
  }

  void take_moments() {
    for (const SectionWall& wall : w_.walls) {
      const SectionPoint &a = node(wall.from), &b = node(wall.to);
      const double l = length(a, b), t = wall.thickness, part = wall.stretch * t * l;
      line_.xx += part * product(a.x, b.x, a.x, b.x);
      line_.zz += part * product(a.z, b.z, a.z, b.z);
      line_.xz += part * product(a.x, b.x, a.z, b.z);
      const double nx = (b.z - a.z) / l, nz = (a.x - b.x) / l, own = part * t * t / 12;
      own_.xx += own * nx * nx;
      own_.zz += own * nz * nz;
      own_.xz += own * nx * nz;
    }
    full_ = {line_.xx + own_.xx, line_.xz + own_.xz, line_.zz + own_.zz};
  }

  double worst_stress(const Gradient& g) const {
    double worst = 0;
    for (const SectionWall& wall : w_.walls) {
      const SectionPoint &a = node(wall.from), &b = node(wall.to);
      const double l = length(a, b), half = 0.5 * wall.thickness;
      const double across = half * std::abs(g.x * (b.z - a.z) / l + g.z * (a.x - b.x) / l);
      worst = std::max(worst, wall.stretch * (std::max(std::abs(g.at(a)), std::abs(g.at(b))) + across));
    }
    return worst;
  }

  // Force per energy: V^2 / (integral of q^2 / (G t)), with the shear flow q of V = 1 summed from the free ends on.
  double shear_area(bool up) const {
    double all = 0;
    for (const SectionWall& wall : w_.walls)
      all += wall.shear * wall.thickness * length(node(wall.from), node(wall.to));
    if (line_.singular()) {  // one flat: across it the plate's own parabola counts, along it too
      return plate * all;
    }
    const Gradient g = up ? bending_up(line_) : bending_flat(line_);
    std::vector<double> flow(w_.nodes.size(), 0);
    double energy = 0;
    for (auto branch = branches_.rbegin(); branch != branches_.rend(); ++branch) {
      const SectionWall& wall = w_.walls[static_cast<std::size_t>(branch->wall)];
      const SectionPoint &from = node(branch->far), &to = node(branch->near);
      const double l = length(from, to), part = wall.stretch * wall.thickness * l;
      const double here = flow[static_cast<std::size_t>(branch->far)], f0 = g.at(from), f1 = g.at(to);
      const auto at = [&](double share) { return here + part * share * (f0 + 0.5 * share * (f1 - f0)); };
      for (std::size_t i = 0; i < gauss_at.size(); ++i)
        energy += gauss_weight[i] * at(gauss_at[i]) * at(gauss_at[i]) * l / (wall.shear * wall.thickness);
      flow[static_cast<std::size_t>(branch->near)] += at(1);
    }
    return energy > 0 ? std::min(1 / energy, all) : plate * all;
  }

  std::vector<double> sectorial(const SectionPoint& pole) const {
    std::vector<double> omega(w_.nodes.size(), 0);
    for (const Branch& b : branches_) {
      const SectionPoint &from = node(b.near), &to = node(b.far);
      omega[static_cast<std::size_t>(b.far)] = omega[static_cast<std::size_t>(b.near)] +
                                               (from.x - pole.x) * (to.z - pole.z) -
                                               (to.x - pole.x) * (from.z - pole.z);
    }
    return omega;
  }

  // From the centroid. The integrals of omega x and omega z vanish about it.
  SectionPoint shear_centre() const {
    if (line_.singular()) return {};
    const std::vector<double> omega = sectorial({});
    double wx = 0, wz = 0;
    for (const SectionWall& wall : w_.walls) {
      const SectionPoint &a = node(wall.from), &b = node(wall.to);
      const double part = wall.stretch * wall.thickness * length(a, b);
      const double w0 = omega[static_cast<std::size_t>(wall.from)], w1 = omega[static_cast<std::size_t>(wall.to)];
      wx += part * product(w0, w1, a.x, b.x);
      wz += part * product(w0, w1, a.z, b.z);
    }
    const double d = line_.determinant();
    return {(line_.xx * wz - line_.xz * wx) / d, (line_.xz * wz - line_.zz * wx) / d};
  }

  double warping(const SectionPoint& pole) const {
    const std::vector<double> omega = sectorial(pole);
    double mean = 0, square = 0;
    for (const SectionWall& wall : w_.walls) {
      const double part = wall.stretch * wall.thickness * length(node(wall.from), node(wall.to));
      const double w0 = omega[static_cast<std::size_t>(wall.from)], w1 = omega[static_cast<std::size_t>(wall.to)];
      mean += part * 0.5 * (w0 + w1) / area_;
      square += part * product(w0, w1, w0, w1);
    }
    const double all = square - area_ * mean * mean;
    return all > nothing * full_.xx * full_.zz / area_ ? all : 0;
  }

  WallSection w_;
  std::vector<Branch> branches_;
  double area_ = 0;
  SectionPoint centre_;
  Moments line_, own_, full_;  ///< of the middle lines, of the walls' own thickness, of both
};

/// Shear areas of a closed cell. The flow is that of the cell cut open at its first point and a constant that lets it
/// close without twist.
class Cell {
 public:
  Cell(const std::vector<SectionPoint>& outline, const std::vector<CellWall>& walls, const SectionPoint& centre)
      : walls_(walls) {
    for (const SectionPoint& p : outline) points_.push_back({p.x - centre.x, p.z - centre.z});
    for (std::size_t i = 0; i < points_.size(); ++i) {
      const SectionPoint &a = points_[i], &b = next(i);
      const double part = walls_[i].stretch * walls_[i].thickness * length(a, b);
      moments_.xx += part * product(a.x, b.x, a.x, b.x);
      moments_.zz += part * product(a.z, b.z, a.z, b.z);
      moments_.xz += part * product(a.x, b.x, a.z, b.z);
    }
  }

  double shear_area(bool up) const {
    if (moments_.singular()) return 0;
    const Gradient g = up ? bending_up(moments_) : bending_flat(moments_);
    double open = 0, round = 0, square = 0, start = 0;
    for (std::size_t i = 0; i < points_.size(); ++i) {
      const SectionPoint &a = points_[i], &b = next(i);
      const double l = length(a, b), part = walls_[i].stretch * walls_[i].thickness * l;
      const double soft = l / (walls_[i].shear * walls_[i].thickness);
      const auto at = [&](double share) {
        return start + part * share * (g.at(a) + 0.5 * share * (g.at(b) - g.at(a)));
      };
      for (std::size_t k = 0; k < gauss_at.size(); ++k) {
        open += gauss_weight[k] * soft * at(gauss_at[k]);
        square += gauss_weight[k] * soft * at(gauss_at[k]) * at(gauss_at[k]);
      }
      round += soft;
      start = at(1);
    }
    return 1 / (square - open * open / round);
  }

 private:
  const SectionPoint& next(std::size_t i) const { return points_[(i + 1) % points_.size()]; }

  std::vector<SectionPoint> points_;
  const std::vector<CellWall>& walls_;
  Moments moments_;
};

}  // namespace

OpenWalls open_section(const WallSection& w) { return Walls(w).properties(); }

WallSection one_line(const std::vector<SectionPoint>& line, double sheet) {
  WallSection w{line, {}};
  for (std::size_t i = 0; i + 1 < line.size(); ++i)
    w.walls.push_back({static_cast<int>(i), static_cast<int>(i) + 1, sheet});
  return w;
}

std::vector<SectionPoint> rounded(const std::vector<SectionPoint>& corners, double radius) {
  constexpr double chord = 0.19634954084936207;  // pi/16: the arc is longer than its chords by a sixth of a per cent
  constexpr double room = 0.49;                  // of a leg, for the bend at each of its ends
  if (radius <= 0) return corners;
  std::vector<SectionPoint> out = {corners.front()};
  for (std::size_t i = 1; i + 1 < corners.size(); ++i) {
    const SectionPoint &a = corners[i - 1], &p = corners[i], &b = corners[i + 1];
    const double before = length(a, p), after = length(p, b);
    const SectionPoint in{(p.x - a.x) / before, (p.z - a.z) / before}, on{(b.x - p.x) / after, (b.z - p.z) / after};
    const double turn = std::atan2(in.x * on.z - in.z * on.x, in.x * on.x + in.z * on.z);
    const double half = std::tan(0.5 * std::abs(turn));
    const double back = std::min(radius * half, room * std::min(before, after));  // from the corner to where it begins
    const double bend = half > 0 ? back / half : 0;
    const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(turn) / chord)));
    const double side = turn > 0 ? 1 : -1;
    const SectionPoint start{p.x - back * in.x, p.z - back * in.z};
    const SectionPoint middle{start.x - side * bend * in.z, start.z + side * bend * in.x};
    for (int k = 0; k <= pieces; ++k) {
      const double c = std::cos(turn * k / pieces), s = std::sin(turn * k / pieces);
      const double rx = start.x - middle.x, rz = start.z - middle.z;
      out.push_back({middle.x + c * rx - s * rz, middle.z + s * rx + c * rz});
    }
  }
  out.push_back(corners.back());
  return out;
}

Section closed_section(const std::vector<SectionPoint>& outline, const std::vector<CellWall>& walls) {
  Section s;
  const std::size_t n = outline.size();
  const double sheet = walls.front().thickness;
  double weight = 0, soft = 0, enclosed = 0, mx = 0, mz = 0, thinnest = sheet;
  const auto share = [&](std::size_t i) { return walls[i].stretch * (walls[i].thickness / sheet); };
  for (std::size_t i = 0; i < n; ++i) {
    const SectionPoint &a = outline[i], &b = outline[(i + 1) % n];
    const double l = std::hypot(b.x - a.x, b.z - a.z), part = l * share(i);
    weight += part;
    soft += l / (walls[i].shear * (walls[i].thickness / sheet));
    thinnest = std::min(thinnest, walls[i].thickness);
    enclosed += 0.5 * (a.x * b.z - b.x * a.z);
    mx += part * 0.5 * (a.x + b.x);
    mz += part * 0.5 * (a.z + b.z);
  }
  enclosed = std::abs(enclosed);
  const double cx = mx / weight, cz = mz / weight;
  for (std::size_t i = 0; i < n; ++i) {
    const SectionPoint &a = outline[i], &b = outline[(i + 1) % n];
    const double part = std::hypot(b.x - a.x, b.z - a.z) * share(i), demand = std::max(1.0, walls[i].demand);
    const double ax = a.x - cx, bx = b.x - cx, az = a.z - cz, bz = b.z - cz;
    s.inertia_flat += sheet * part * (ax * ax + ax * bx + bx * bx) / 3;
    s.inertia_up += sheet * part * (az * az + az * bz + bz * bz) / 3;
    s.reach_flat = std::max(s.reach_flat, demand * std::abs(ax));
    s.reach_up = std::max(s.reach_up, demand * std::abs(az));
  }
  s.area = weight * sheet;
  s.torsion = 4 * enclosed * enclosed * sheet / soft;
  s.reach_twist = s.torsion / (2 * enclosed * thinnest);
  const Cell cell(outline, walls, {cx, cz});
  s.shear_up = cell.shear_area(true);
  s.shear_flat = cell.shear_area(false);
  return s;
}

}  // namespace evenpull::inline solver
