#include "shop/cloth_nest.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace evenpull {
namespace {

constexpr double touch = 1e-9;     // m: pieces that share an edge do not overlap
constexpr double as_short = 1e-4;  // share: a nest so near the bound is not bettered

double cross_of_two(const PlanePoint& a, const PlanePoint& b) { return a.x() * b.y() - a.y() * b.x(); }

struct Extents {
  PlanePoint low, high;
};
Extents extents(const Polygon& p) {
  Extents e{p.front(), p.front()};
  for (const PlanePoint& q : p) e.low = e.low.cwiseMin(q), e.high = e.high.cwiseMax(q);
  return e;
}

Polygon moved(const Polygon& p, const PlanePoint& by) {
  Polygon out;
  for (const PlanePoint& q : p) out.push_back(q + by);
  return out;
}

// With its lowest x and y at 0.
struct Turned {
  double angle = 0;
  PlanePoint shift{0, 0};
  Polygon shape;
  PlanePoint size{0, 0};
};
Turned turned(const Polygon& p, double angle) {
  Polygon q;
  const Eigen::Rotation2Dd turn(angle);
  for (const PlanePoint& v : p) q.push_back(turn * v);
  const Extents e = extents(q);
  return {angle, -e.low, moved(q, -e.low), e.high - e.low};
}

std::vector<Turned> turns_of(const NestPiece& p, bool either_way) {
  std::vector<Turned> out;
  for (int quarter = 0; quarter < 4; quarter += either_way ? 1 : 2) {
    Turned t = turned(p.shape, quarter * M_PI / 2);
    // Of a rectangle half of the turns are the same.
    const bool known = std::any_of(out.begin(), out.end(), [&](const Turned& o) {
      const Polygon a = convex_hull(o.shape), b = convex_hull(t.shape);
      return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(),
                                                [](const auto& x, const auto& y) { return (x - y).norm() < 1e-7; });
    });
    if (!known) out.push_back(std::move(t));
  }
  return out;
}

// Places of the origin of `b` at which it overlaps `a`: their Minkowski difference.
Polygon no_fit(const Polygon& a, const Polygon& b) {
  Polygon all;
  for (const PlanePoint& p : a)
    for (const PlanePoint& q : b) all.push_back(p - q);
  return convex_hull(std::move(all));
}

bool inside(const Polygon& p, const PlanePoint& q) {
  for (std::size_t i = 0; i < p.size(); ++i) {
    const PlanePoint side = p[(i + 1) % p.size()] - p[i];
    if (cross_of_two(side, q - p[i]) <= touch * side.norm()) return false;
  }
  return true;
}

class Search {
 public:
  Search(const std::vector<NestPiece>& pieces, double width, bool either_way, int budget)
      : pieces_(pieces), width_(width), budget_(budget) {
    double area = 0, longest = 0;
    for (const NestPiece& p : pieces) {
      std::vector<Turned> fitting;
      double shortest = std::numeric_limits<double>::max();
      for (Turned& t : turns_of(p, either_way))
        if (t.size.y() <= width + touch) shortest = std::min(shortest, t.size.x()), fitting.push_back(std::move(t));
      fits_ = fits_ && !fitting.empty();
      turns_.push_back(std::move(fitting));
      areas_.push_back(area_of(p.shape));
      area += areas_.back();
      longest = std::max(longest, shortest);
    }
    least_ = std::max(area / width, longest);
    order_.resize(pieces.size());
    std::iota(order_.begin(), order_.end(), 0);
    std::stable_sort(order_.begin(), order_.end(), [&](int a, int b) { return areas_[at(a)] > areas_[at(b)]; });
  }

  std::optional<Nest> run() {
    if (!fits_) return std::nullopt;
    used_.assign(pieces_.size(), false);
    next(0);
    Nest out;
    out.places = best_;
    std::sort(out.places.begin(), out.places.end(), [](const auto& a, const auto& b) { return a.piece < b.piece; });
    out.length = best_length_, out.least = least_, out.all_tried = budget_ > 0;
    return out;
  }

 private:
  static std::size_t at(int i) { return static_cast<std::size_t>(i); }
  bool good_enough() const { return best_length_ <= least_ * (1 + as_short); }

  void next(double length) {
    if (placed_.size() == pieces_.size()) {
      if (length < best_length_ - touch) best_length_ = length, best_ = placed_;
      return;
    }
    std::vector<int> kinds;
    for (const int piece : order_) {
      const int kind = pieces_[at(piece)].kind;
      if (used_[at(piece)] || std::find(kinds.begin(), kinds.end(), kind) != kinds.end()) continue;
      kinds.push_back(kind);
      used_[at(piece)] = true;
      for (const Turned& t : turns_[at(piece)]) {
        // The first dive always gets to its end.
        if (good_enough() || (budget_ <= 0 && !best_.empty())) break;
        --budget_;
        NestPlace place = put(piece, t);
        const double reach = std::max(length, extents(place.shape).high.x());
        if (reach >= best_length_ - touch) continue;
        placed_.push_back(std::move(place));
        next(reach);
        placed_.pop_back();
      }
      used_[at(piece)] = false;
    }
  }

  // Furthest left, then lowest, among the corners of where it may lie.
  NestPlace put(int piece, const Turned& t) const {
    const double top = std::max(0.0, width_ - t.size.y());
    std::vector<Polygon> barred;
    for (const NestPlace& p : placed_) barred.push_back(no_fit(p.shape, t.shape));
    std::vector<PlanePoint> corners{{0, 0}, {0, top}};
    std::vector<std::pair<PlanePoint, PlanePoint>> sides{{{0, 0}, {0, top}}};
    double right = 0;
    for (const Polygon& p : barred) right = std::max(right, extents(p).high.x());
    sides.push_back({{0, 0}, {right, 0}});
    sides.push_back({{0, top}, {right, top}});
    corners.push_back({right, 0});
    for (const Polygon& p : barred)
      for (std::size_t i = 0; i < p.size(); ++i) {
        corners.push_back(p[i]);
        sides.push_back({p[i], p[(i + 1) % p.size()]});
      }
    for (std::size_t i = 0; i < sides.size(); ++i)
      for (std::size_t j = i + 1; j < sides.size(); ++j) add_crossing(sides[i], sides[j], corners);
    PlanePoint best(right, 0);
    for (PlanePoint q : corners) {
      if (q.x() < -touch || q.y() < -touch || q.y() > top + touch) continue;
      q = {std::max(0.0, q.x()), std::clamp(q.y(), 0.0, top)};
      if (q.x() > best.x() - touch && !(q.x() < best.x() + touch && q.y() < best.y())) continue;
      if (std::none_of(barred.begin(), barred.end(), [&](const Polygon& p) { return inside(p, q); })) best = q;
    }
    return {piece, t.angle, t.shift + best, moved(t.shape, best)};
  }

  static void add_crossing(const std::pair<PlanePoint, PlanePoint>& a, const std::pair<PlanePoint, PlanePoint>& b,
                           std::vector<PlanePoint>& out) {
    const PlanePoint u = a.second - a.first, w = b.second - b.first;
    const double det = cross_of_two(u, w);
    if (std::abs(det) < touch * touch) return;
    const double s = cross_of_two(b.first - a.first, w) / det, r = cross_of_two(b.first - a.first, u) / det;
    if (s >= 0 && s <= 1 && r >= 0 && r <= 1) out.push_back(a.first + s * u);
  }

  const std::vector<NestPiece>& pieces_;
  double width_ = 0;
  int budget_ = 0;
  bool fits_ = true;
  std::vector<std::vector<Turned>> turns_;
  std::vector<double> areas_;
  std::vector<int> order_;
  std::vector<char> used_;
  std::vector<NestPlace> placed_, best_;
  double best_length_ = std::numeric_limits<double>::max(), least_ = 0;
};

}  // namespace

std::optional<Nest> nest(const std::vector<NestPiece>& pieces, double width, bool either_way, int budget) {
  return Search(pieces, width, either_way, budget).run();
}

double width_needed(const NestPiece& piece, bool either_way) {
  double least = std::numeric_limits<double>::max();
  for (const Turned& t : turns_of(piece, either_way)) least = std::min(least, t.size.y());
  return least;
}

}  // namespace evenpull
