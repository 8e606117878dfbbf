#include "shop/cloth_piece.hpp"

#include "solver/cloth/fabric_law.hpp"
#include "solver/cloth/shrink.hpp"
#include "solver/geometry/cut_outs.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace evenpull {
namespace {

/// A corner of a cut that saves less cloth than this is not worth a cut [m]. Judgement.
constexpr double plain_corner = 3e-3;
constexpr double nothing = 1e-12;

double cross_of(const PlanePoint& a, const PlanePoint& b) { return a.x() * b.y() - a.y() * b.x(); }

// What cloth that nothing holds loses of its length at the hottest stage.
double hottest_free_shrink(const Case& c) {
  const Cloth& k = c.cloth;
  const ShrinkState s =
      shrink_at(k, compliance(k.stiffness.warp, k.stiffness.fill, k.poisson, k.shear), c.stages.back().temperature);
  return 1 - std::sqrt(1 - 2 * std::max(s.free_shrink[0], s.free_shrink[1]));  // back from strain
}

class PieceMaker {
 public:
  PieceMaker(const Case& c, const SeamStatement& seam, PieceOf of)
      : c_(c), seam_(seam), skin_(unroll(c, of)), free_shrink_(hottest_free_shrink(c)) {
    out_.of = of;
    out_.off_plane = skin_.off;
    out_.fullness = skin_.spread;
  }

  ClothPiece make() {
    lay_yarns();
    plan_edges();
    for (const PieceEdge e : {PieceEdge::upper, PieceEdge::tip, PieceEdge::lower, PieceEdge::root}) {
      const Polygon edge = chain(e);
      out_.line.insert(out_.line.end(), edge.begin(), edge.end() - 1);
    }
    cut_straight();
    add_cut_outs();
    add_lines();
    return std::move(out_);
  }

 private:
  int last_row() const { return skin_.row_count() - 1; }
  int last_column() const { return skin_.column_count() - 1; }
  PlanePoint at(int row, int column) const {
    const PlanePoint p = skin_.at(row, column);
    return {p.x() * (1 + loose_u_), p.y() * (1 + loose_v_)};
  }

  // The statement counts the warp from the span towards the trailing edge; the plane from that edge.
  void lay_yarns() {
    const double from_edge = c_.cloth.warp_angle - std::atan(Surface(c_).trailing_edge_sweep());
    out_.warp = out_.of == PieceOf::bottom ? -from_edge : from_edge;
    out_.loose = c_.cloth.looseness;
    // Between the yarns both count.
    const double along = std::pow(std::cos(out_.warp), 2);
    const Yarns& l = out_.loose;
    loose_u_ = along * l.warp + (1 - along) * l.fill;
    loose_v_ = (1 - along) * l.warp + along * l.fill;
  }

  PieceEdgePlan seam_plan(EdgeKind kind, double round, double overlap) const {
    return {kind, round / 2, overlap / 2, beyond_glue(overlap / 2), seam_.trim};
  }
  double beyond_glue(double glued) const { return glued * free_shrink_ / (1 - free_shrink_); }

  PieceEdgePlan end_plan(bool tip) const {
    const bool on = tip ? c_.cloth_goes_on_outboard : c_.cloth_goes_on_inboard;
    if (on) return seam_plan(EdgeKind::goes_on, 0, seam_.edge_overlap());
    const EdgeKind kind = tip && c_.tip_bow ? EdgeKind::tip_bow : EdgeKind::end_rib;
    return {kind, 0, seam_.tuck, beyond_glue(seam_.tuck), seam_.trim};
  }

  void plan_edges() {
    const PieceEdgePlan nose = seam_plan(EdgeKind::nose_seam, round_the_nose(c_), seam_.nose_overlap());
    const PieceEdgePlan back = seam_plan(EdgeKind::edge_seam, round_the_trailing_edge(c_), seam_.edge_overlap());
    edge(PieceEdge::upper) = out_.of == PieceOf::bottom ? back : nose;
    edge(PieceEdge::lower) = out_.of == PieceOf::top ? back : nose;
    edge(PieceEdge::tip) = end_plan(true);
    edge(PieceEdge::root) = end_plan(false);
  }
  PieceEdgePlan& edge(PieceEdge e) { return out_.edges[static_cast<std::size_t>(e)]; }

  // Round the piece with the inside on the left as v is drawn up, on the right as it is drawn down.
  Polygon chain(PieceEdge e) const {
    Polygon p;
    if (e == PieceEdge::upper)
      for (int j = 0; j <= last_column(); ++j) p.push_back(at(0, j));
    if (e == PieceEdge::tip)
      for (int i = 0; i <= last_row(); ++i) p.push_back(at(i, last_column()));
    if (e == PieceEdge::lower)
      for (int j = last_column(); j >= 0; --j) p.push_back(at(last_row(), j));
    if (e == PieceEdge::root)
      for (int i = last_row(); i >= 0; --i) p.push_back(at(i, 0));
    return p;
  }

  struct Line {
    PlanePoint from, direction;
  };
  static Line moved_out(const PlanePoint& a, const PlanePoint& b, double by) {
    const PlanePoint d = (b - a).normalized();
    return {a + by * PlanePoint(d.y(), -d.x()), d};
  }
  // Nearly parallel lines meet nowhere near.
  static std::optional<PlanePoint> meet(const Line& a, const Line& b) {
    constexpr double parallel = 0.1;
    const double det = cross_of(a.direction, b.direction);
    if (std::abs(det) < parallel) return std::nullopt;
    return a.from + cross_of(b.from - a.from, b.direction) / det * a.direction;
  }

  void cut_straight() {
    Polygon points;
    std::optional<Line> before;
    const auto pass = [&](bool collect) {
      for (const PieceEdge e : {PieceEdge::upper, PieceEdge::tip, PieceEdge::lower, PieceEdge::root}) {
        const Polygon p = chain(e);
        for (std::size_t i = 0; i + 1 < p.size(); ++i) {
          if ((p[i + 1] - p[i]).norm() < nothing) continue;
          const Line now = moved_out(p[i], p[i + 1], edge(e).whole());
          if (collect) {
            points.push_back(now.from);
            points.push_back(now.from + (p[i + 1] - p[i]).norm() * now.direction);
            if (i == 0 && before)
              if (const auto corner = meet(*before, now)) points.push_back(*corner);
          }
          before = now;
        }
      }
    };
    pass(false);  // for the line before the first
    pass(true);
    out_.cut = with_few_corners(convex_hull(points));
    PlanePoint low = out_.cut.front(), high = low;
    for (const PlanePoint& q : out_.cut) low = low.cwiseMin(q), high = high.cwiseMax(q);
    out_.length = high.x() - low.x(), out_.width = high.y() - low.y();
  }

  // Edges are taken away whose neighbours, drawn on, meet close by: the piece only grows.
  static Polygon with_few_corners(Polygon p) {
    for (;;) {
      const std::size_t n = p.size();
      if (n <= 4) return p;
      double least = plain_corner;
      std::size_t which = n;
      PlanePoint corner(0, 0);
      for (std::size_t i = 0; i < n; ++i) {
        const PlanePoint &a = p[(i + n - 1) % n], &b = p[i], &d = p[(i + 1) % n], &e = p[(i + 2) % n];
        const PlanePoint u = (b - a).normalized(), w = (e - d).normalized();
        const double det = cross_of(u, w);
        if (det < nothing) continue;
        const double s = cross_of(d - b, w) / det;
        const PlanePoint q = b + s * u;
        const double out = std::abs(cross_of(d - b, q - b)) / (d - b).norm();
        if (s >= 0 && out < least) least = out, which = i, corner = q;
      }
      if (which == n) return p;
      p[which] = corner;
      p.erase(p.begin() + static_cast<std::ptrdiff_t>((which + 1) % n));
    }
  }

  Polygon block(int first_row, int last_row, int first_column, int last_column) const {
    Polygon p;
    for (int j = first_column; j <= last_column; ++j) p.push_back(at(first_row, j));
    for (int i = first_row + 1; i <= last_row; ++i) p.push_back(at(i, last_column));
    for (int j = last_column - 1; j >= first_column; --j) p.push_back(at(last_row, j));
    for (int i = last_row - 1; i > first_row; --i) p.push_back(at(i, first_column));
    return p;
  }

  // Of a full wrap a pocket goes through from side to side, a gap shows at both edges.
  void add_cut_outs() {
    for (std::size_t k = 0; k < c_.pockets.size(); ++k) {
      const Pocket& p = c_.pockets[k];
      const double front = pocket_front(c_, p);
      const int from = out_.of == PieceOf::bottom ? 0 : skin_.row_of(Side::top, front);
      const int to = out_.of == PieceOf::top ? last_row() : skin_.row_of(Side::bottom, front);
      out_.cut_outs.push_back(
          {false, static_cast<int>(k), block(from, to, skin_.column_at(p.from), skin_.column_at(p.to))});
    }
    for (std::size_t k = 0; k < c_.hinge_gaps.size(); ++k) {
      const HingeGap& g = c_.hinge_gaps[k];
      const int from = skin_.column_at(g.from), to = skin_.column_at(g.to);
      if (out_.of != PieceOf::bottom)
        out_.cut_outs.push_back(
            {true, static_cast<int>(k), block(0, skin_.row_of(Side::top, gap_end(c_, g)), from, to)});
      if (out_.of != PieceOf::top)
        out_.cut_outs.push_back(
            {true, static_cast<int>(k), block(skin_.row_of(Side::bottom, gap_end(c_, g)), last_row(), from, to)});
    }
  }

  void add_lines() {
    for (std::size_t r = 0; r < skin_.rib_columns.size(); ++r) {
      PieceLine line{true, static_cast<int>(r), {}};
      for (int i = 0; i <= last_row(); ++i) line.line.push_back(at(i, skin_.rib_columns[r]));
      out_.lines.push_back(std::move(line));
    }
    if (out_.of != PieceOf::whole_panel) return;
    PieceLine edge_line{false, 0, {}};
    for (int j = 0; j <= last_column(); ++j) edge_line.line.push_back(at(skin_.row_count() / 2, j));
    out_.lines.push_back(std::move(edge_line));
  }

  const Case& c_;
  const SeamStatement& seam_;
  Unrolled skin_;
  double free_shrink_ = 0, loose_u_ = 0, loose_v_ = 0;
  ClothPiece out_;
};

}  // namespace

double area_of(const Polygon& p) {
  double twice = 0;
  for (std::size_t i = 0; i < p.size(); ++i) twice += cross_of(p[i], p[(i + 1) % p.size()]);
  return std::abs(twice) / 2;
}

// Monotone chain (Andrew 1979, from memory).
Polygon convex_hull(Polygon points) {
  // Points on one upright line differ in their last digits and would be sorted by these instead of by their height.
  constexpr double grid = 1e-9;  // m
  for (PlanePoint& p : points) p = (p / grid).array().round().matrix() * grid;
  std::sort(points.begin(), points.end(),
            [](const PlanePoint& a, const PlanePoint& b) { return std::pair(a.x(), a.y()) < std::pair(b.x(), b.y()); });
  Polygon hull;
  const auto half = [&](auto begin, auto end) {
    const std::size_t floor = hull.size() + 1;
    for (auto p = begin; p != end; ++p) {
      while (hull.size() > floor && cross_of(hull.back() - hull[hull.size() - 2], *p - hull.back()) <= nothing)
        hull.pop_back();
      hull.push_back(*p);
    }
    hull.pop_back();
  };
  half(points.begin(), points.end());
  half(points.rbegin(), points.rend());
  return hull;
}

std::vector<ClothPiece> cloth_pieces(const Case& c, const SeamStatement& seam) {
  if (c.blanket.kind == BlanketKind::full_wrap) return {PieceMaker(c, seam, PieceOf::whole_panel).make()};
  return {PieceMaker(c, seam, PieceOf::top).make(), PieceMaker(c, seam, PieceOf::bottom).make()};
}

}  // namespace evenpull
