#include "solver/equilibrium/attaching.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

// Stages of a case stand further apart; the same one may come by way of another unit [K].
constexpr double same_stage = 0.5;

bool holds(const Panel& p, const Attachment& a, const SlidingPoint& s, Side side) {
  const ClothNode& n = p.nodes[s.top_node];
  if (s.kind != SlidingPoint::Kind::bearing || n.on_nose || n.side != side) return false;
  return std::any_of(a.ribs.begin(), a.ribs.end(), [&](int rib) { return p.rib_columns[rib] == s.column; });
}

// Points of one rib and side, from the foremost back.
using Line = std::vector<int>;

std::vector<Line> lines_of(const Model& m, const Attachment& a) {
  std::vector<Line> lines;
  for (int rib : a.ribs)
    for (Side side : {Side::top, Side::bottom}) {
      Attachment alone = a;
      alone.ribs = {rib};
      Line line;
      for (std::size_t i = 0; i < m.unknowns.sliding.size(); ++i)
        if (holds(m.panel, alone, m.unknowns.sliding[i], side)) line.push_back(static_cast<int>(i));
      if (!line.empty()) lines.push_back(std::move(line));
    }
  return lines;
}

// How far back each point of a line lies along the rib [m].
std::vector<double> stations(const Model& m, const Line& line) {
  std::vector<double> at = {0};
  const auto place = [&](int point) { return m.panel.nodes[m.unknowns.sliding[point].top_node].placed; };
  for (std::size_t i = 1; i < line.size(); ++i) at.push_back(at.back() + (place(line[i]) - place(line[i - 1])).norm());
  return at;
}

Line at_spacing(const Model& m, const Line& line, double spacing) {
  const std::vector<double> at = stations(m, line);
  Line out;
  for (int k = 0; k * spacing <= at.back() + 0.5 * spacing; ++k) {
    std::size_t nearest = 0;
    for (std::size_t i = 1; i < at.size(); ++i)
      if (std::abs(at[i] - k * spacing) < std::abs(at[nearest] - k * spacing)) nearest = i;
    if (out.empty() || out.back() != line[nearest]) out.push_back(line[nearest]);
  }
  return out;
}

}  // namespace

bool can_be_fastened(const Case& c, int rib) {
  const int last = static_cast<int>(c.ribs.size()) - 1;
  const bool end = (rib == 0 && !c.cloth_goes_on_inboard) || (rib == last && !c.cloth_goes_on_outboard);
  return !end && c.ribs[static_cast<std::size_t>(rib)].touches_cloth;
}

std::vector<int> points_of(const Model& m, const Attachment& a) {
  std::vector<int> out;
  if (a.how == AttachHow::left) return out;
  for (const Line& line : lines_of(m, a)) {
    const Line held = a.is_along_line() ? line : at_spacing(m, line, a.spacing);
    out.insert(out.end(), held.begin(), held.end());
  }
  return out;
}

void attach_before(const Model& m, double temperature, Covering& s) {
  for (const Attachment& a : m.the_case.attachments) {
    if (a.how == AttachHow::left || (a.after > 0 && a.after >= temperature - same_stage)) continue;
    s.attached.resize(m.unknowns.sliding.size(), 0);
    for (int point : points_of(m, a)) s.attached[point] = 1;
  }
}

}  // namespace evenpull::inline solver
