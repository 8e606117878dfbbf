#include "sequencer/sure/shape_readings.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

constexpr double seldom = 0.02;

struct Kind {
  Limit limit;
  double StageEnd::*value;
};
constexpr Kind shape_kinds[] = {{Limit::edge_bow, &StageEnd::edge_bow},
                                {Limit::end_rib_bow, &StageEnd::end_rib_bow},
                                {Limit::twist, &StageEnd::twist},
                                {Limit::slip, &StageEnd::slip},
                                {Limit::hinge_line_bow, &StageEnd::hinge_line_bow},
                                {Limit::whole_edge_bow, &StageEnd::whole_edge_bow},
                                {Limit::pocket_room, &StageEnd::pocket_closing}};

// A sixty-fourth of an inch either way; pencil marks: half a millimetre.
constexpr double thirty_second = 0.0254 / 32, half_millimetre = 0.5e-3;

double closest_ribs(const Case& c) {
  double least = c.outline.span();
  for (std::size_t i = 0; i + 1 < c.ribs.size(); ++i)
    least = std::min(least, c.ribs[i + 1].station - c.ribs[i].station);
  return least;
}

double chord_at_root(const Case& c) { return c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x; }
double chord_at_tip(const Case& c) { return c.outline.trailing_edge.back().x - c.outline.leading_edge.back().x; }

// Widest gap between joints along an end rib, of the shorter chord: the tightest allowance of the long pieces.
double end_rib_piece(const Case& c) {
  double widest = 0;
  for (std::size_t i = 0; i + 1 < c.span_members.size(); ++i)
    widest = std::max(widest, c.span_members[i + 1].chord_fraction - c.span_members[i].chord_fraction);
  return widest * std::min(chord_at_root(c), chord_at_tip(c));
}

}  // namespace

const std::vector<Limit>& shape_limits() {
  static const std::vector<Limit> all = [] {
    std::vector<Limit> limits;
    for (const Kind& k : shape_kinds) limits.push_back(k.limit);
    return limits;
  }();
  return all;
}

double shape_value(const StageEnd& end, Limit limit) {
  for (const Kind& k : shape_kinds)
    if (k.limit == limit) return end.*k.value;
  return 0;
}

double shape_length(const Case& c, Limit limit) {
  switch (limit) {
    case Limit::edge_bow: return closest_ribs(c);
    case Limit::end_rib_bow: return end_rib_piece(c);
    case Limit::whole_edge_bow: return c.outline.span();
    case Limit::twist: return chord_at_root(c);
    default: return 1;
  }
}

double shape_instrument(Limit limit) {
  return limit == Limit::slip || limit == Limit::pocket_room ? half_millimetre : thirty_second;
}

std::vector<ShapeReading> shape_readings(const std::vector<Outturn>& runs, const Outturn& planned,
                                         const std::vector<StageVerdict>& judged, const ModelReading& reading,
                                         int last) {
  std::vector<ShapeReading> out;
  for (const StageVerdict& v : judged) {
    if (v.stage > last || v.buckled || planned.fell[static_cast<std::size_t>(v.stage)]) continue;
    const auto s = static_cast<std::size_t>(v.stage);
    for (const Kind& kind : shape_kinds) {
      ShapeReading r{kind.limit, v.stage, v.summary.end.*kind.value, 0};
      // Bows of a scenario are in proportion to its pull; what the reduced model adds of its own stays beside them.
      const double own = planned.end[s].*kind.value;
      // No member carries two hinges; there is no pocket, or none that closes; the wing goes on beyond both ends.
      const bool may_not_be = kind.limit == Limit::hinge_line_bow || kind.limit == Limit::pocket_room ||
                              kind.limit == Limit::end_rib_bow;
      if (may_not_be && r.expected <= 0) continue;
      std::vector<double> values;
      for (const Outturn& o : runs)
        if (holds(o, reading, v.stage))
          values.push_back(own > 0 ? o.end[s].*kind.value * r.expected / own : o.end[s].*kind.value);
      if (values.empty()) continue;
      const auto at = static_cast<std::ptrdiff_t>(std::ceil((1 - seldom) * static_cast<double>(values.size()))) - 1;
      std::nth_element(values.begin(), values.begin() + at, values.end());
      r.seldom_more = std::max(r.expected, values[static_cast<std::size_t>(at)]);
      out.push_back(r);
    }
  }
  return out;
}

}  // namespace evenpull::inline sequencer
