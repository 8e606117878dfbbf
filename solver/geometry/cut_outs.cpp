#include "solver/geometry/cut_outs.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr double same = 1e-9;

// Judgement, see ZonesLeft.
constexpr double least_left = 0.5;

SpanPlace place_of(const Case& c, double station) {
  int bay = 0;
  while (bay + 2 < static_cast<int>(c.ribs.size()) && c.ribs[bay + 1].station <= station) ++bay;
  const double a = c.ribs[bay].station, b = c.ribs[bay + 1].station;
  return {bay, std::clamp((station - a) / (b - a), 0.0, 1.0)};
}

double chord_at_middle(const Case& c, double from, double to) {
  return Surface(c).chord(place_of(c, 0.5 * (from + to)));
}

// Row at a chord fraction; the mesh has one (held_lines).
int row_at(const MeshLines& lines, double fraction) {
  const auto it =
      std::find_if(lines.rows.begin(), lines.rows.end(), [&](double r) { return std::abs(r - fraction) < same; });
  assert(it != lines.rows.end() && "no mesh row at the edge of a cut-out");
  return static_cast<int>(it - lines.rows.begin());
}

// Column at a station; the mesh has one.
int column_at(const Case& c, const MeshLines& lines, double station) {
  if (const int rib = rib_at_station(c, station); rib >= 0) return lines.rib_columns[rib];
  const SpanPlace at = place_of(c, station);
  const auto it = std::find_if(lines.columns.begin(), lines.columns.end(), [&](const SpanPlace& p) {
    return p.bay == at.bay && std::abs(p.share - at.share) < same;
  });
  assert(it != lines.columns.end() && "no mesh column at the end of a hinge gap");
  return static_cast<int>(it - lines.columns.begin());
}

// Share of strip `k` of `strips` that lies between two shares of the way from the seam to the trailing edge.
double share_of_strip(int k, int strips, double from, double to) {
  return std::max(0.0, std::min(to * strips, k + 1.0) - std::max(from * strips, static_cast<double>(k)));
}

}  // namespace

int rib_at_station(const Case& c, double station) {
  for (std::size_t r = 0; r < c.ribs.size(); ++r)
    if (std::abs(c.ribs[r].station - station) < rib_slack) return static_cast<int>(r);
  return -1;
}

double pocket_front(const Case& c, const Pocket& p) {
  const double at = 1 - p.depth / chord_at_middle(c, p.from, p.to);
  for (const SpanMember& m : c.span_members)
    if (std::abs(m.chord_fraction - at) < least_apart) return m.chord_fraction;
  for (const Pocket& other : c.pockets) {
    if (&other == &p) break;
    const double there = pocket_front(c, other);
    if (std::abs(there - at) < least_apart) return there;
  }
  return at;
}

int member_at_front(const Case& c, const Pocket& p) {
  const double at = pocket_front(c, p);
  for (std::size_t m = 0; m < c.span_members.size(); ++m)
    if (std::abs(c.span_members[m].chord_fraction - at) < same) return static_cast<int>(m);
  return -1;
}

double gap_end(const Case& c, const HingeGap& g) {
  const double at = g.depth / chord_at_middle(c, g.from, g.to);
  return std::abs(at - c.blanket.nose_chord_fraction) < least_apart ? c.blanket.nose_chord_fraction : at;
}

std::vector<BayStretch> bays_between(const Case& c, double from, double to) {
  std::vector<BayStretch> out;
  for (int b = 0; b + 1 < static_cast<int>(c.ribs.size()); ++b) {
    const double a = c.ribs[b].station, width = c.ribs[b + 1].station - a;
    const double begin = std::max(0.0, (from - a) / width), end = std::min(1.0, (to - a) / width);
    if (end - begin > same) out.push_back({b, begin, end});
  }
  return out;
}

std::vector<double> gap_ends_inside(const Case& c, int bay) {
  std::vector<double> at;
  for (const HingeGap& g : c.hinge_gaps)
    for (double station : {g.from, g.to}) {
      const SpanPlace p = place_of(c, station);
      if (rib_at_station(c, station) < 0 && p.bay == bay) at.push_back(p.share);
    }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return std::abs(a - b) < same; }), at.end());
  return at;
}

std::vector<CutOut> cut_outs_on(const Case& c, const MeshLines& lines) {
  std::vector<CutOut> out;
  const int last = static_cast<int>(lines.rows.size()) - 1;
  for (const Pocket& p : c.pockets)
    out.push_back({row_at(lines, pocket_front(c, p)), last, column_at(c, lines, p.from), column_at(c, lines, p.to)});
  for (const HingeGap& g : c.hinge_gaps)
    out.push_back({0, row_at(lines, gap_end(c, g)), column_at(c, lines, g.from), column_at(c, lines, g.to)});
  return out;
}

ZonesLeft::ZonesLeft(const Case& c, const Surface& s, const MeshLines& lines) : strip_rows_(lines.strip_rows) {
  const int strips = strips_per_bay(c, s), bays = static_cast<int>(c.ribs.size()) - 1;
  parts_ = lines.strips / strips;
  std::vector<std::vector<double>> left(bays, std::vector<double>(strips, 1));
  const double begin = s.arc(c.blanket.seam_chord_fraction), length = s.arc(1) - begin;
  const auto cut = [&](double from, double to, double y_from, double y_to) {
    for (const BayStretch& b : bays_between(c, y_from, y_to))
      for (int k = 0; k < strips; ++k) left[b.bay][k] -= (b.to - b.from) * share_of_strip(k, strips, from, to);
  };
  for (const Pocket& p : c.pockets) cut((s.arc(pocket_front(c, p)) - begin) / length, 1, p.from, p.to);
  for (const HingeGap& g : c.hinge_gaps) cut(0, (s.arc(gap_end(c, g)) - begin) / length, g.from, g.to);
  for (int b = 0; b < bays; ++b) {
    const int most = static_cast<int>(std::max_element(left[b].begin(), left[b].end()) - left[b].begin());
    const auto stays = [&](int k) { return k >= 0 && k < strips && (k == most || left[b][k] >= least_left - same); };
    of_case_.emplace_back();
    for (int k = 0; k < strips; ++k) {
      int off = 0;  // the nearest that stays, the one ahead first
      while (!stays(k - off) && !stays(k + off)) ++off;
      of_case_[b].push_back(stays(k - off) ? k - off : k + off);
    }
  }
}

int ZonesLeft::strip(int bay, int row) const {
  int k = 0;
  while (strip_rows_[k + 1] <= row) ++k;
  const int whole = k / parts_, to = of_case_[bay][whole];
  if (to == whole) return k;
  return to < whole ? parts_ * to + parts_ - 1 : parts_ * to;
}

}  // namespace evenpull::inline solver
