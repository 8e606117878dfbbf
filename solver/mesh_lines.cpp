#include "solver/mesh_lines.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull {
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

// Chord fractions that must be mesh lines: members that hold the cloth between seam and TE, and the end of the nose.
std::vector<double> held_lines(const Case& c) {
  std::vector<double> at;
  const double seam = c.blanket.seam_chord_fraction;
  for (const SpanMember& m : c.span_members)
    if (m.touches_cloth && m.chord_fraction > seam && m.chord_fraction < 1) at.push_back(m.chord_fraction);
  if (c.blanket.nose_chord_fraction > seam && c.blanket.nose_chord_fraction < 1)
    at.push_back(c.blanket.nose_chord_fraction);
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

}  // namespace

int strips_per_bay(const Case& c, const Surface& s) {
  const double bay_area = mean_cloth_length(c, s) * span_of(c) / bays_of(c);
  const int by_area = std::max(1, static_cast<int>(std::lround(bay_area / c.iron.hot_area())));
  const int by_sole = std::max(1, static_cast<int>(std::floor(shortest_cloth_length(c, s) / c.iron.sole_width)));
  return std::min(by_area, by_sole);
}

MeshLines lay_mesh_lines(const Case& c, const Surface& s, const MeshWish& wish) {
  MeshLines m;
  m.strips = strips_per_bay(c, s);
  const double length = mean_cloth_length(c, s), span = span_of(c);
  const double per_side = 0.5 * wish.target_nodes;
  // Zones must be cut in two along the span line on any mesh but the coarse one that only ranks orders.
  const bool coarse = wish.target_nodes < 2 * coarse_nodes;
  const int least = static_cast<int>(held_lines(c).size()) + 2;
  int along_chord = multiple(std::sqrt(per_side * length / span), coarse ? m.strips : 2 * m.strips, least);
  int along_span = std::max(2 * bays_of(c), static_cast<int>(std::lround(per_side / (along_chord + 1))));
  // An even number in each bay keeps a line at mid-bay, where the trailing edge bows most.
  std::vector<int> in_bay;
  for (int b = 0; b < bays_of(c); ++b) {
    const double width = c.ribs[b + 1].station - c.ribs[b].station;
    in_bay.push_back(2 * std::max(1, static_cast<int>(std::lround(0.5 * along_span * width / span))));
  }
  if (wish.halve_edges) {
    along_chord *= 2;
    for (int& n : in_bay) n *= 2;
  }
  const double begin = s.arc(c.blanket.seam_chord_fraction), end = s.arc(1);
  for (int i = 0; i <= along_chord; ++i)
    m.rows.push_back(s.chord_fraction_at_arc(begin + (end - begin) * i / along_chord));
  m.rows.front() = c.blanket.seam_chord_fraction;
  m.rows.back() = 1;
  snap(m.rows, held_lines(c));
  if (wish.split_zones && along_chord % (2 * m.strips) == 0) m.strips *= 2;
  for (int i = 0; i <= m.strips; ++i) m.strip_rows.push_back(i * along_chord / m.strips);
  for (int b = 0; b < bays_of(c); ++b) {
    m.rib_columns.push_back(static_cast<int>(m.columns.size()));
    for (int i = 0; i < in_bay[b]; ++i) m.columns.push_back({b, static_cast<double>(i) / in_bay[b]});
  }
  m.rib_columns.push_back(static_cast<int>(m.columns.size()));
  m.columns.push_back({bays_of(c) - 1, 1.0});
  return m;
}

}  // namespace evenpull
