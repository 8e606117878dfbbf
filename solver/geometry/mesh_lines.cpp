#include "solver/geometry/mesh_lines.hpp"

#include "solver/geometry/cut_outs.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull::inline solver {
namespace {

double span_of(const Case& c) { return c.ribs.back().station - c.ribs.front().station; }

int bays_of(const Case& c) { return static_cast<int>(c.ribs.size()) - 1; }

// Length of cloth from the seam to the TE, one side, mean over the ribs [m].
double mean_cloth_length(const Case& c, const Surface& s) {
  double sum = 0;
  for (int b = 0; b <= bays_of(c); ++b) sum += s.chord(b < bays_of(c) ? SpanPlace{b, 0} : SpanPlace{b - 1, 1});
  return sum / (bays_of(c) + 1) * (s.arc(1) - s.arc(c.blanket.seam_chord_fraction));
}

double shortest_cloth_length(const Case& c, const Surface& s) {
  double least = s.chord({0, 0});
  // A tip bow's own end is left out: the last bay is worked in strips that narrow towards it.
  for (int b = 0; b < bays_of(c); ++b)
    if (!(c.tip_bow && b + 1 == bays_of(c))) least = std::min({least, s.chord({b, 0}), s.chord({b, 1})});
  return least * (s.arc(1) - s.arc(c.blanket.seam_chord_fraction));
}

// Chord fractions that must be mesh lines: members that hold the cloth between seam and TE, the end of the nose, and the
// edges of what is cut out.
std::vector<double> held_lines(const Case& c) {
  std::vector<double> at;
  const double seam = c.blanket.seam_chord_fraction;
  for (const SpanMember& m : c.span_members)
    if (m.touches_cloth && m.chord_fraction > seam && m.chord_fraction < 1) at.push_back(m.chord_fraction);
  if (c.blanket.nose_chord_fraction > seam && c.blanket.nose_chord_fraction < 1)
    at.push_back(c.blanket.nose_chord_fraction);
  for (const Pocket& p : c.pockets) at.push_back(pocket_front(c, p));
  for (const HingeGap& g : c.hinge_gaps) at.push_back(gap_end(c, g));
  std::sort(at.begin(), at.end());
  const auto same = [](double a, double b) { return std::abs(a - b) < 1e-9; };
  at.erase(std::unique(at.begin(), at.end(), same), at.end());
  return at;
}

// Moves the nearest free inner row onto each held line.
void snap(std::vector<double>& rows, const std::vector<double>& held) {
  std::vector<bool> taken(rows.size(), false);
  taken.front() = taken.back() = true;
  for (double at : held) {
    int best = -1;
    for (int i = 0; i < static_cast<int>(rows.size()); ++i)
      if (!taken[i] && (best < 0 || std::abs(rows[i] - at) < std::abs(rows[best] - at))) best = i;
    assert(best >= 0 && "fewer mesh rows than lines that hold the cloth");
    rows[best] = at;
    taken[best] = true;
  }
  std::sort(rows.begin(), rows.end());
}

// Number of intervals: the multiple of `unit` nearest to `wanted`, at least `least`.
int multiple(double wanted, int unit, int least) {
  int n = std::max(unit, static_cast<int>(std::lround(wanted / unit)) * unit);
  while (n < least) n += unit;
  return n;
}

// Even in arc length from the seam to the TE, but for the lines that hold the cloth.
std::vector<double> lay_rows(const Case& c, const Surface& s, int intervals) {
  const double begin = s.arc(c.blanket.seam_chord_fraction), end = s.arc(1);
  std::vector<double> rows;
  for (int i = 0; i <= intervals; ++i) rows.push_back(s.chord_fraction_at_arc(begin + (end - begin) * i / intervals));
  rows.front() = c.blanket.seam_chord_fraction;
  rows.back() = 1;
  snap(rows, held_lines(c));
  return rows;
}

// Each interval cut in so many, even in arc length: finer meshes hold the lines of the coarser.
std::vector<double> cut_rows(const Surface& s, const std::vector<double>& rows, int parts) {
  std::vector<double> out;
  for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
    const double from = s.arc(rows[i]), to = s.arc(rows[i + 1]);
    out.push_back(rows[i]);
    for (int k = 1; k < parts; ++k) out.push_back(s.chord_fraction_at_arc(from + (to - from) * k / parts));
  }
  out.push_back(rows.back());
  return out;
}

// Intervals along the chord and in each bay; each is cut in `parts` once the lines that hold the cloth are laid.
struct Counts {
  int along_chord = 0;
  std::vector<int> in_bay;
  int parts = 1;
};

// What `target_nodes` asks for is the mesh with every interval cut in `parts`. An even number in each bay keeps a line at
// mid-bay, where the trailing edge bows most.
Counts count_intervals(const Case& c, const Surface& s, int target_nodes, int strips, int parts) {
  Counts n;
  const double length = mean_cloth_length(c, s), span = span_of(c), per_side = 0.5 * target_nodes;
  const int least = static_cast<int>(held_lines(c).size()) + 2;
  n.along_chord = multiple(std::sqrt(per_side * length / span) / parts, strips, least);
  const int along_span =
      std::max(2 * bays_of(c), static_cast<int>(std::lround(per_side / (parts * n.along_chord + 1))));
  for (int b = 0; b < bays_of(c); ++b) {
    const double width = c.ribs[b + 1].station - c.ribs[b].station;
    const int held = static_cast<int>(gap_ends_inside(c, b).size());  // and the line at mid-bay beside them
    n.in_bay.push_back(
        2 * std::max(1 + (held + 1) / 2, static_cast<int>(std::lround(0.5 * along_span * width / span / parts))));
  }
  return n;
}

Counts intervals(const Case& c, const Surface& s, const MeshOptions& options, int strips) {
  if (options.target_nodes >= 2 * coarse_nodes) {
    Counts n = count_intervals(c, s, options.target_nodes, strips, 2);
    n.parts = options.fineness;
    return n;
  }
  // Too coarse to be coarsened: an odd fineness is as near as whole intervals allow.
  if (options.fineness % 2 != 0)
    return count_intervals(c, s, options.target_nodes * options.fineness * options.fineness / 4, strips, 1);
  Counts n = count_intervals(c, s, options.target_nodes, strips, 1);
  n.parts = options.fineness / 2;
  return n;
}

// Shares of a bay's width: even, but for the ends of hinge gaps.
std::vector<double> lay_columns(const std::vector<double>& held, int intervals, int parts) {
  const int all = intervals * parts;
  std::vector<double> at;
  if (held.empty()) {
    for (int i = 0; i < all; ++i) at.push_back(static_cast<double>(i) / all);
    return at;
  }
  std::vector<double> coarse;
  for (int i = 0; i <= intervals; ++i) coarse.push_back(static_cast<double>(i) / intervals);
  snap(coarse, held);
  for (int i = 0; i < all; ++i) {
    const double from = coarse[i / parts], to = coarse[i / parts + 1];
    at.push_back(from + (to - from) * (i % parts) / parts);
  }
  return at;
}

}  // namespace

int strips_per_bay(const Case& c, const Surface& s) {
  const double bay_area = mean_cloth_length(c, s) * span_of(c) / bays_of(c);
  const int by_area = std::max(1, static_cast<int>(std::lround(bay_area / c.iron.hot_area())));
  const int by_sole = std::max(1, static_cast<int>(std::floor(shortest_cloth_length(c, s) / c.iron.sole_width)));
  return std::min(by_area, by_sole);
}

MeshLines lay_mesh_lines(const Case& c, const Surface& s, const MeshOptions& options) {
  assert(options.fineness >= 1 && options.zone_parts >= 1);
  MeshLines m;
  m.strips = strips_per_bay(c, s);
  const Counts n = intervals(c, s, options, m.strips);
  m.rows = cut_rows(s, lay_rows(c, s, n.along_chord), n.parts);
  const int along_chord = static_cast<int>(m.rows.size()) - 1;
  if (along_chord % (options.zone_parts * m.strips) == 0) m.strips *= options.zone_parts;
  for (int i = 0; i <= m.strips; ++i) m.strip_rows.push_back(i * along_chord / m.strips);
  for (int b = 0; b < bays_of(c); ++b) {
    m.rib_columns.push_back(static_cast<int>(m.columns.size()));
    for (double share : lay_columns(gap_ends_inside(c, b), n.in_bay[b], n.parts)) m.columns.push_back({b, share});
  }
  m.rib_columns.push_back(static_cast<int>(m.columns.size()));
  m.columns.push_back({bays_of(c) - 1, 1.0});
  return m;
}

}  // namespace evenpull::inline solver
