#include "viz/words/cut_out_words.hpp"

#include "solver/geometry/cut_outs.hpp"
#include "viz/words/print.hpp"
#include "viz/words/section_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

std::string low_ribs(const Case& c) {
  std::string text;
  int count = 0;
  for (std::size_t i = 0; i < c.ribs.size(); ++i)
    if (!c.ribs[i].touches_cloth) text += (count++ > 0 ? ", " : "") + std::to_string(i + 1);
  return count == 0 ? "" : (count == 1 ? "rib " : "ribs ") + text;
}

std::string pocket_text(const Case& c, const Pocket& p) {
  constexpr double told = 5e-4;  // m: less is not measured at a bench
  const double front = pocket_front(c, p);
  const int from = rib_at_station(c, p.from), to = rib_at_station(c, p.to), member = member_at_front(c, p);
  const double a = (1 - front) * Surface(c).chord({from, 0}), b = (1 - front) * Surface(c).chord({to - 1, 1});
  auto text = fmt::format(
      "{} in the trailing edge, rib {} to rib {}, {} deep (front at {:.1f} % of the chord): {}", p.name, from + 1,
      to + 1, print_length(p.depth), 100 * front,
      member >= 0 ? c.span_members[static_cast<std::size_t>(member)].name + " is its front" : print_make(*p.make, c));
  if (std::max(std::abs(a - p.depth), std::abs(b - p.depth)) > told)
    text +=
        fmt::format("; reckoned {} deep at rib {}, {} at rib {}", print_length(a), from + 1, print_length(b), to + 1);
  if (p.gap > 0) text += fmt::format("; {} of room round the tab", print_length(p.gap));
  return text;
}

std::string hinge_gap_text(const Case& c, const HingeGap& g) {
  return fmt::format("hinge gap in the nose from {} to {}, {} deep (to {:.1f} % of the chord)", print_length(g.from),
                     print_length(g.to), print_length(g.depth), 100 * gap_end(c, g));
}

}  // namespace evenpull::viz
