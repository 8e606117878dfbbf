#include "viz/words/frame_kinds.hpp"

#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <cmath>

namespace evenpull::viz {
namespace {

/// Below this a wire is slack to a hand [N]; judgement.
constexpr double felt = 0.5;

}  // namespace

std::string ribs_it_goes_on_beyond(const Case& c) {
  if (c.cloth_goes_on_inboard && c.cloth_goes_on_outboard) return fmt::format("ribs 1 and {}", c.ribs.size());
  if (c.cloth_goes_on_inboard) return "rib 1";
  return c.cloth_goes_on_outboard ? fmt::format("rib {}", c.ribs.size()) : "";
}

std::string neighbour_taken_for(const Case& c) {
  const std::string ribs = ribs_it_goes_on_beyond(c);
  if (ribs.empty()) return "";
  const bool both = c.cloth_goes_on_inboard && c.cloth_goes_on_outboard;
  return fmt::format(
      "The wing goes on beyond {0}. The plan takes each bay beyond for the mirror image of the one within: alike, "
      "covered, "
      "and ironed in step. So {0} {1} pulled alike from both sides and {2} no end load. A bay beyond that is narrower, "
      "wider, bare or behind in its ironing loads that rib from one side, as an end rib; that was not computed.",
      ribs, both ? "are" : "is", both ? "bear" : "bears");
}

std::string neighbour_in_step(const Case& c) {
  const std::string ribs = ribs_it_goes_on_beyond(c);
  if (ribs.empty()) return "";
  return fmt::format(
      "The wing goes on beyond {}: iron in step there. After each zone next to it, work the zone across that rib, same "
      "side, "
      "same pass, before the next one of this list. Never finish one side of the rib while the other is loose or bare: "
      "the "
      "rib is not made for that.",
      ribs);
}

std::string wires_told(const Case& c, const std::vector<WirePull>& wires) {
  std::string text;
  for (const WirePull& w : wires) {
    const Brace& brace = c.braces[static_cast<std::size_t>(w.brace)];
    const std::string tight = brace.tightness > 0 ? fmt::format(", {} before the iron", force_both(brace.tightness))
                                                  : std::string();
    if (!text.empty()) text += " ";
    if (w.most < felt) {
      text += fmt::format("Wire \"{}\"{}: slack throughout; it holds nothing.", brace.name, tight);
      continue;
    }
    text += fmt::format("Wire \"{}\"{}: at most {}", brace.name, tight, force_both(w.most));
    text += w.end < felt     ? ", slack at the end: it then holds nothing."
            : w.least < felt ? fmt::format(", slack at times, {} at the end.", force_both(w.end))
                             : fmt::format(", at least {}, {} at the end.", force_both(w.least), force_both(w.end));
  }
  return text;
}

}  // namespace evenpull::viz
