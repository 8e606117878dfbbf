#include "shop/seam_check.hpp"

#include "shop/unrolled.hpp"
#include "solver/cloth/fabric_law.hpp"
#include "solver/cloth/shrink.hpp"
#include "solver/geometry/cut_outs.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

constexpr double two_sigmas = 1.96;
/// A hollow shallower than this is within what cloth and glue even out; an edge nearer to a yarn than this runs along it.
/// Judgement.
constexpr double least_hollow = 1e-3, on_the_yarn = 15 * M_PI / 180;
/// So much longer than what it covers is a tape cut, at each end.
constexpr double tape_end = practice::inch;

struct Pulls {
  SeamPull chord, span;
  double stiffness_chord = 0, stiffness_span = 0;
};

// Between the yarns the larger of both counts in either direction.
Pulls pulls_of(const Case& c, double stage) {
  const Cloth& k = c.cloth;
  const ShrinkState s = shrink_at(k, compliance(k.stiffness.warp, k.stiffness.fill, k.poisson, k.shear), stage);
  const double high = std::exp(two_sigmas * c.spreads.pull());
  const double warp = s.limit_pull[0], fill = s.limit_pull[1];
  const double turned = std::abs(std::sin(k.warp_angle)), straight = std::abs(std::cos(k.warp_angle));
  const auto yarn = [&](double of_warp, double of_fill, double share_of_warp) {
    if (share_of_warp > std::cos(on_the_yarn)) return of_warp;
    return share_of_warp < std::sin(on_the_yarn) ? of_fill : std::max(of_warp, of_fill);
  };
  Pulls p;
  const double chord = yarn(warp, fill, turned), span = yarn(warp, fill, straight);
  p.chord = {chord, high * chord}, p.span = {span, high * span};
  const auto soft = [&](double share) {
    if (share > std::cos(on_the_yarn)) return k.stiffness.warp;
    return share < std::sin(on_the_yarn) ? k.stiffness.fill : std::min(k.stiffness.warp, k.stiffness.fill);
  };
  p.stiffness_chord = soft(turned), p.stiffness_span = soft(straight);
  return p;
}

// --- Lengths of the lines on the panel. ---

double row_length(const Unrolled& u, int row) {
  double sum = 0;
  for (int j = 0; j + 1 < u.column_count(); ++j) sum += (u.at(row, j + 1) - u.at(row, j)).norm();
  return sum;
}
double column_length(const Unrolled& u, int column, int from, int to) {
  double sum = 0;
  for (int i = from; i < to; ++i) sum += (u.at(i + 1, column) - u.at(i, column)).norm();
  return sum;
}

/// Both skins.
class Lengths {
 public:
  explicit Lengths(const Case& c) : c_(c), top_(unroll(c, PieceOf::top)), bottom_(unroll(c, PieceOf::bottom)) {}
  double leading_edge() const { return row_length(top_, 0); }
  double trailing_edge() const { return row_length(bottom_, 0) - without(); }
  double rib(int r) const {
    const int column = top_.rib_columns[static_cast<std::size_t>(r)];
    const double to = ends_at(c_.ribs[static_cast<std::size_t>(r)].station);
    return column_length(top_, column, 0, top_.row_of(Side::top, to)) +
           column_length(bottom_, column, bottom_.row_of(Side::bottom, to), bottom_.row_count() - 1);
  }
  double pocket_front_length(const Pocket& p) const { return 2 * (p.to - p.from); }
  double pocket_sides(const Pocket& p) const {
    double sum = 0;
    const int row = top_.row_of(Side::top, pocket_front(c_, p)),
              back = bottom_.row_of(Side::bottom, pocket_front(c_, p));
    for (const double y : {p.from, p.to}) {
      if (y <= c_.ribs.front().station || y >= c_.ribs.back().station) continue;
      sum += column_length(top_, top_.column_at(y), row, top_.row_count() - 1);
      sum += column_length(bottom_, bottom_.column_at(y), 0, back);
    }
    return sum;
  }

 private:
  double without() const {
    double sum = 0;
    for (const Pocket& p : c_.pockets) sum += p.to - p.from;
    return sum;
  }
  double ends_at(double station) const {
    for (const Pocket& p : c_.pockets)
      if ((station > p.from + rib_slack || p.from <= c_.ribs.front().station) &&
          (station < p.to - rib_slack || p.to >= c_.ribs.back().station) && station >= p.from && station <= p.to)
        return pocket_front(c_, p);
    return 1;
  }
  const Case& c_;
  Unrolled top_, bottom_;
};

// --- Hollows: where a thread stretched over the profile stands off it. ---

struct Hollow {
  Side side = Side::top;
  double from = 0, to = 0, depth = 0;  ///< chord fractions, share of the chord
  double leaves_at = 0;                ///< of the thread from the profile, the steeper end [rad]
};

void find_hollows(const Case& c, Side side, std::vector<Hollow>& out) {
  constexpr int steps = 200;
  const Surface s(c);
  const double seam = c.blanket.seam_chord_fraction;
  std::vector<Eigen::Vector2d> line;
  for (int i = 0; i <= steps; ++i) {
    const double x = seam + (1 - seam) * i / steps;
    const ProfilePoint p = s.profile(x);
    line.push_back({x, side == Side::top ? p.top : p.bottom});
  }
  const double chord = s.chord({0, 0});
  // Upper hull, point to point; between two of its points the profile is hollow.
  std::vector<std::size_t> hull;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const auto below = [&](std::size_t a, std::size_t b) {
      const Eigen::Vector2d u = line[b] - line[a], w = line[i] - line[a];
      return u.x() * w.y() - u.y() * w.x() >= 0;
    };
    while (hull.size() > 1 && below(hull[hull.size() - 2], hull.back())) hull.pop_back();
    hull.push_back(i);
  }
  for (std::size_t h = 0; h + 1 < hull.size(); ++h) {
    const std::size_t a = hull[h], b = hull[h + 1];
    const Eigen::Vector2d u = line[b] - line[a];
    Hollow hollow{side, line[a].x(), line[b].x(), 0, 0};
    for (std::size_t i = a + 1; i < b; ++i)
      hollow.depth = std::max(hollow.depth, line[a].y() + u.y() / u.x() * (line[i].x() - line[a].x()) - line[i].y());
    if (hollow.depth * chord > least_hollow) out.push_back(hollow);
  }
}

std::vector<Hollow> hollows_of(const Case& c) {
  std::vector<Hollow> out;
  find_hollows(c, Side::top, out);
  find_hollows(c, Side::bottom, out);
  return out;
}

double widest_bay(const Case& c) {
  double most = 0;
  for (std::size_t r = 1; r < c.ribs.size(); ++r) most = std::max(most, c.ribs[r].station - c.ribs[r - 1].station);
  return most;
}

// Cloth glued down into a hollow is lifted off by the chordwise pull of half a bay on either hand, which the pull along the
// span holds down at an angle: sin = curvature * half a bay * chordwise pull / pull along the span. The curvature is that of
// a parabola as long and as deep as the hollow.
double lift_angle(const Case& c, const Pulls& p) {
  double most = 0;
  const double chord = Surface(c).chord({0, 0});
  for (const Hollow& h : hollows_of(c)) {
    const double length = (h.to - h.from) * chord, curvature = 8 * h.depth * chord / (length * length);
    most = std::max(most, curvature * 0.5 * widest_bay(c) * p.chord.likely / p.span.likely);
  }
  return std::asin(std::min(1.0, most));
}

double peel_of(double pull, double stiffness, double angle) {
  return pull * pull / (2 * stiffness) + pull * (1 - std::cos(angle));
}

class Checker {
 public:
  Checker(const Case& c, const SeamStatement& seam, const Adhesive& glue, double stage)
      : c_(c), seam_(seam), glue_(glue), pulls_(pulls_of(c, stage)), lengths_(c) {
    out_.stage = stage;
  }

  SeamCheck run() {
    lift_ = lift_angle(c_, pulls_);
    seams();
    edges();
    cut_outs();
    places();
    tapes();
    for (const GlueLineCheck& l : out_.lines) {
      out_.weakest_shear = std::max(out_.weakest_shear, l.shear / most_of_glue);
      out_.weakest_peel = std::max(out_.weakest_peel, l.peel / most_of_glue);
    }
    return std::move(out_);
  }

 private:
  GlueLineCheck& add(SeamAt line, int number, double length, double width, bool across_span, double angle = 0) {
    GlueLineCheck l;
    l.line = line, l.number = number, l.length = length, l.width = width, l.leaves_at = angle;
    l.pull = across_span ? pulls_.span : pulls_.chord;
    l.shear = l.pull.high / width;
    l.peel = peel_of(l.pull.high, across_span ? pulls_.stiffness_span : pulls_.stiffness_chord, angle);
    if (glue_.shear) l.shear_use = l.shear / *glue_.shear;
    if (glue_.peel) l.peel_use = l.peel / *glue_.peel;
    out_.lines.push_back(l);
    return out_.lines.back();
  }

  void lap(GlueLineCheck& l, double usual, double tape) {
    l.cloth_on_cloth = true;
    l.usual = usual;
    l.narrow = l.width < usual - 1e-6;
    // The tape lies on the middle of the edge; the cut edge of the cloth lies half a lap off it.
    l.edge_shows = tape / 2 < l.width / 2 + practice::past_the_edge - 1e-6;
  }

  void seams() {
    const double usual = seam_.wing && !seam_.sewn ? practice::wing_nose_overlap : practice::least_overlap;
    lap(add(SeamAt::leading_edge, 0, lengths_.leading_edge(), seam_.nose_overlap(), false), usual, seam_.nose_tape);
    if (c_.blanket.kind == BlanketKind::two_sheets)
      lap(add(SeamAt::trailing_edge, 0, lengths_.trailing_edge(), seam_.edge_overlap(), false), practice::least_overlap,
          seam_.edge_tape);
  }

  bool goes_on(bool tip) const { return tip ? c_.cloth_goes_on_outboard : c_.cloth_goes_on_inboard; }

  void edges() {
    const int last = static_cast<int>(c_.ribs.size()) - 1;
    for (const int r : {0, last}) {
      if (goes_on(r > 0)) continue;
      const bool bow = r > 0 && c_.tip_bow.has_value();
      add(bow ? SeamAt::tip_bow : SeamAt::end_rib, r, lengths_.rib(r), seam_.tuck, true, bow ? 0 : lift_);
    }
    if (c_.blanket.inner_ribs != RibTie::glued) return;
    // The cloth goes on over the rib: what both sides pull apart is their difference, at most one side alone.
    for (int r = 1; r < last; ++r)
      if (c_.ribs[static_cast<std::size_t>(r)].touches_cloth)
        add(SeamAt::inner_rib, r, lengths_.rib(r), seam_.rib_tape > 0 ? seam_.rib_tape / 2 : practice::rib_tape / 2,
            true, lift_);
  }

  void cut_outs() {
    for (std::size_t k = 0; k < c_.pockets.size(); ++k) {
      const Pocket& p = c_.pockets[k];
      add(SeamAt::pocket_front, static_cast<int>(k), lengths_.pocket_front_length(p), seam_.tuck, false);
      if (const double sides = lengths_.pocket_sides(p); sides > 0)
        add(SeamAt::pocket_sides, static_cast<int>(k), sides, seam_.tuck, true);
    }
    for (std::size_t k = 0; k < c_.hinge_gaps.size(); ++k) {
      const HingeGap& g = c_.hinge_gaps[k];
      add(SeamAt::hinge_gap, static_cast<int>(k), 2 * (g.to - g.from + 2 * g.depth), seam_.tuck, false);
    }
  }

  void places() {
    const double both = std::hypot(pulls_.chord.high, pulls_.span.high);
    out_.places.push_back({PeelPlace::Kind::corner, 0, both, 0, 0, {}});
    for (std::size_t k = 0; k < c_.pockets.size(); ++k)
      out_.places.push_back({PeelPlace::Kind::pocket_corner, static_cast<int>(k), both, 0, 0, {}});
    for (std::size_t k = 0; k < c_.hinge_gaps.size(); ++k)
      out_.places.push_back({PeelPlace::Kind::gap_corner, static_cast<int>(k), both, 0, 0, {}});
    if (c_.tip_bow) out_.places.push_back({PeelPlace::Kind::bow, 0, pulls_.span.high, 0, 0, {}});
    const double chord = Surface(c_).chord({0, 0});
    for (const Hollow& h : hollows_of(c_))
      out_.places.push_back({PeelPlace::Kind::hollow, 0, h.depth * chord, h.from, h.to, h.side});
    bias();
  }

  // Ribs lie along the chord, edges near the span: their angle to the nearest yarn is that of the warp.
  void bias() {
    const auto off = [](double angle) {
      const double a = std::fmod(std::abs(angle), M_PI / 2);
      return std::min(a, M_PI / 2 - a);
    };
    const double sweep = std::atan(Surface(c_).trailing_edge_sweep());
    const auto& le = c_.outline.leading_edge;
    const double nose = std::atan2(le.back().x - le.front().x, le.back().y - le.front().y);
    for (const auto& [line, angle] : {std::pair(SeamAt::leading_edge, c_.cloth.warp_angle - nose),
                                      std::pair(SeamAt::trailing_edge, c_.cloth.warp_angle - sweep),
                                      std::pair(SeamAt::end_rib, c_.cloth.warp_angle)})
      if (off(angle) > on_the_yarn) out_.places.push_back({PeelPlace::Kind::bias, 0, off(angle), 0, 0, {}, line});
  }

  void tape(SeamAt over, int count, double width, double length) {
    if (width > 0 && count > 0) out_.tapes.push_back({over, count, width, length + 2 * count * tape_end});
  }

  void tapes() {
    tape(SeamAt::leading_edge, 1, seam_.nose_tape, lengths_.leading_edge());
    tape(SeamAt::trailing_edge, 1 + static_cast<int>(c_.pockets.size()), seam_.edge_tape, lengths_.trailing_edge());
    double ends = 0, inner = 0;
    int end_count = 0, inner_count = 0;
    const int last = static_cast<int>(c_.ribs.size()) - 1;
    for (int r = 0; r <= last; ++r) {
      const bool end = r == 0 || r == last;
      if (!c_.ribs[static_cast<std::size_t>(r)].touches_cloth) continue;
      (end ? ends : inner) += lengths_.rib(r);
      (end ? end_count : inner_count) += 2;
    }
    tape(SeamAt::end_rib, end_count, seam_.rib_tape, ends);
    tape(SeamAt::inner_rib, inner_count, seam_.rib_tape, inner);
    for (std::size_t k = 0; k < c_.pockets.size(); ++k)
      tape(SeamAt::pocket_front, 2, seam_.rib_tape,
           lengths_.pocket_front_length(c_.pockets[k]) + lengths_.pocket_sides(c_.pockets[k]));
  }

  const Case& c_;
  const SeamStatement& seam_;
  const Adhesive& glue_;
  Pulls pulls_;
  Lengths lengths_;
  double lift_ = 0;
  SeamCheck out_;
};

}  // namespace

SeamCheck check_seams(const Case& c, const SeamStatement& seam, const Adhesive& glue, double stage) {
  return Checker(c, seam, glue, stage).run();
}

}  // namespace evenpull
