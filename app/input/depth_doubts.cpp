// Members against the depth of the panel where they stand. The cloth is laid on the profile, whatever stands under it
// (solver/geometry/surface.hpp), and a member lies half-way between both skins: what is deeper or shallower there is a
// slip of a size, or a profile that was measured from elsewhere.
#include "app/input/case_parts.hpp"
#include "app/input/usual.hpp"
#include "app/text/quoted.hpp"
#include "solver/geometry/surface.hpp"
#include "solver/statement/member_section.hpp"
#include "viz/words/print.hpp"
#include "viz/words/section_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace evenpull {
namespace {

using Shape = SectionShape::Kind;

/// How deep a member is as it was stated.
struct Depth {
  double value;
  std::string words;
};

/// Nothing where it is as deep as the panel, or where the section does not say.
std::optional<Depth> stated_depth(const MemberMake& m) {
  const bool tube = m.shape.kind == Shape::tube;
  const double value = tube ? m.shape.outside_diameter : m.shape.height;
  if (value <= 0) return std::nullopt;
  return Depth{value, print_length(value, tube ? m.written.outside_diameter : m.written.height)};
}

/// A trailing edge that is as deep as the panel at its front only, and thins out with it.
bool thins_out(const SectionShape& s) { return s.kind == Shape::folded_edge || s.kind == Shape::triangle; }

/// Depth of the panel between some places, with the rib at which it is least (from 0).
struct Depths {
  double least = 1e9, most = 0;
  size_t least_rib = 0;
};

class PanelDepths {
 public:
  explicit PanelDepths(const Case& c) : case_(c), surface_(c) {}

  double at(double fraction, size_t rib) const { return surface_.depth(fraction, place(rib)); }

  /// Along the span, between two chord fractions. The tip bow has its own thickness.
  Depths along_span(double from, double to) const {
    Depths d;
    for (size_t rib = 0; rib < straight_ribs(); ++rib)
      for (int i = 0; i <= steps; ++i) {
        const double here = at(from + (to - from) * i / steps, rib);
        if (here < d.least) d.least = here, d.least_rib = rib;
        d.most = std::max(d.most, here);
      }
    return d;
  }

  struct AlongRib {
    double mean = 0, most = 0;
  };
  AlongRib along_rib(size_t rib, double from) const {
    AlongRib d;
    for (int i = 0; i < steps; ++i) {
      const double here = at(from + (1 - from) * (i + 0.5) / steps, rib);
      d.mean += here / steps;
      d.most = std::max(d.most, here);
    }
    return d;
  }

  /// Where the panel is deepest: ribs of one depth in a panel that tapers are right there or nowhere.
  AlongRib deepest_rib(double from) const {
    AlongRib deepest;
    for (size_t rib = 0; rib < straight_ribs(); ++rib)
      if (const auto d = along_rib(rib, from); d.mean > deepest.mean) deepest = d;
    return deepest;
  }

  double chord() const { return surface_.chord({0, 0}); }
  size_t straight_ribs() const { return case_.ribs.size() - (case_.tip_bow ? 1 : 0); }

 private:
  static constexpr int steps = 20;  ///< places looked at between two chord fractions

  SpanPlace place(size_t rib) const {
    const bool last = rib + 1 == case_.ribs.size();
    return {static_cast<int>(last ? rib - 1 : rib), last ? 1.0 : 0.0};
  }

  const Case& case_;
  Surface surface_;
};

std::string percent_of_chord(double fraction) { return print_number(100 * fraction, 3) + " % of the chord"; }

std::string spar_doubt(const SpanMember& m, const PanelDepths& panel) {
  const Depths d = panel.along_span(m.chord_fraction, m.chord_fraction);
  const auto depth = stated_depth(m.make);
  const auto name = in_quotes(m.name), where = percent_of_chord(m.chord_fraction);
  if (!depth && (m.touches_cloth || !is_as_deep_as_its_place(m.make.shape))) return "";
  if (!depth)
    return fmt::format(
        "{} has no height, so it is as deep as the panel and the cloth rests on it, but touches_cloth is not "
        "true: write touches_cloth = true, or its height.",
        name);
  if (depth->value > usual::spar_stands_out * d.most)
    return fmt::format(
        "{} is {} deep, but the panel at {} only {}: it would stand out of the cloth by {} above and below. Check its "
        "section, its place and the profile, whose heights are half thicknesses.",
        name, depth->words, where, print_length(d.most), print_length((depth->value - d.most) / 2));
  if (m.touches_cloth && depth->value < usual::spar_leaves_a_gap * d.least)
    return fmt::format(
        "{} is to touch the cloth (touches_cloth), but is {} deep where the panel has {} ({}, rib {}): that "
        "leaves {} above and below. Check its section, or write touches_cloth = false.",
        name, depth->words, print_length(d.least), where, d.least_rib + 1, print_length((d.least - depth->value) / 2));
  if (!m.touches_cloth && depth->value > usual::spar_touches * d.most)
    return fmt::format(
        "{} is {} deep, as deep as the panel at {}, so the cloth rests on it, but touches_cloth is not true: "
        "write touches_cloth = true, or correct its section.",
        name, depth->words, where);
  return "";
}

/// What to type at an edge where the profile is thinner than a tube or bar so deep, round which the cloth turns.
std::string thin_edge_remedy(double depth, bool leading, double at) {
  const auto half = print_length(depth / 2);
  if (!leading)
    return fmt::format(
        "The cloth is laid on the profile, and the middle of that member lies at 100 % of the chord: measure chord "
        "and profile to its middle and write half its depth, {}, as the last height.",
        half);
  return fmt::format(
      "The cloth is laid on the profile, and is glued to that member at {}: measure chord and profile from the "
      "middle of the member and write half its depth, {}, as the height there; or say in blanket.seam how far "
      "back the cloth leaves it.",
      percent_of_chord(at), half);
}

/// Edges are where the cloth turns: there the profile is the member's own.
std::string edge_doubt(const Case& c, const SpanMember& m, const PanelDepths& panel) {
  const bool leading = m.role == SpanRole::leading_edge;
  const auto depth = stated_depth(m.make);
  if (!depth || (leading && c.blanket.nose_chord_fraction > c.blanket.seam_chord_fraction)) return "";
  const double at = leading ? c.blanket.seam_chord_fraction : 1;
  // A trailing edge of strip or folded sheet is as deep as its front, and thins out from there.
  const bool behind_its_front = !leading && m.make.shape.kind != Shape::tube;
  const double front = behind_its_front ? std::max(0.0, 1 - m.make.shape.width / panel.chord()) : at;
  const Depths d = panel.along_span(front, at);
  const auto sentence = [&](double thick, double where, const std::string& remedy) {
    return fmt::format("From skin to skin the profile measures {} at {}, but {} there is {} deep. {}",
                       print_length(thick), percent_of_chord(where), in_quotes(m.name), depth->words, remedy);
  };
  if (depth->value > usual::edge_stands_out * d.most) {
    if (behind_its_front)
      return sentence(d.most, front, "Check its section and the profile, whose heights are half thicknesses.");
    return sentence(d.most, at, thin_edge_remedy(depth->value, leading, at));
  }
  if (depth->value < usual::edge_leaves_a_gap * d.least)
    return sentence(panel.along_span(at, at).least, at,
                    fmt::format("The cloth turns round it there: check its section, and the heights, which are half "
                                "thicknesses (half its depth is {}).",
                                print_length(depth->value / 2)));
  return "";
}

/// The profile goes with the chord, a member of one depth does not: told once, of the member that is off most.
void doubt_taper(Case& c, const PanelDepths& panel) {
  const SpanMember* worst = nullptr;
  double most = usual::far_off_at_one_end;
  Depths there;
  for (const SpanMember& m : c.span_members) {
    const auto depth = stated_depth(m.make);
    if (!depth || thins_out(m.make.shape) || !m.make.changes.empty()) continue;
    const Depths d = panel.along_span(m.chord_fraction, m.chord_fraction);
    const bool fits_somewhere = depth->value <= usual::edge_stands_out * d.most;
    if (!fits_somewhere || d.least <= 0 || d.most < usual::far_off_at_one_end * d.least ||
        depth->value <= most * d.least)
      continue;
    most = depth->value / d.least;
    worst = &m;
    there = d;
  }
  if (!worst) return;
  c.doubts.push_back(
      fmt::format("Heights go with the chord: at rib {} the panel is reckoned {} deep at {}, where {} is {} all "
                  "along. Where your panel keeps its depth, the cloth is laid nearer the chord line there than it "
                  "lies.",
                  there.least_rib + 1, print_length(there.least), percent_of_chord(worst->chord_fraction),
                  in_quotes(worst->name), stated_depth(worst->make)->words));
}

std::string ribs_words(const std::vector<size_t>& ribs) {
  const bool in_a_row = ribs.back() - ribs.front() + 1 == ribs.size();
  if (ribs.size() == 1) return fmt::format("Rib {} is", ribs[0] + 1);
  if (in_a_row) return fmt::format("Ribs {} to {} are", ribs.front() + 1, ribs.back() + 1);
  return fmt::format("Rib {} and {} more like it are", ribs[0] + 1, ribs.size() - 1);
}

/// `ribs`: those of one make that are doubted, of which the first is named with its numbers.
std::string rib_doubt(const Case& c, const std::vector<size_t>& ribs, const PanelDepths& panel, double front) {
  const MemberMake& make = c.ribs[ribs.front()].make;
  const Depth depth = *stated_depth(make);
  const auto here = panel.along_rib(ribs.front(), front), deepest = panel.deepest_rib(front);
  if (depth.value < here.mean)
    return fmt::format(
        "{} {} deep, less than half of what the panel is there ({} in the mean along the rib): the cloth is "
        "reckoned to lie on the ribs, and would not touch. Check the section, and the profile, whose heights "
        "are half thicknesses.",
        ribs_words(ribs), depth.words, print_length(here.mean));
  return fmt::format("{} {} deep all along, but the panel {} in the mean along a rib and {} at most. {}",
                     ribs_words(ribs), depth.words, print_length(deepest.mean), print_length(deepest.most),
                     make.shape.kind == Shape::tube
                         ? "Check the section and the profile, whose heights are half thicknesses."
                         : "Leave height out of the section: then it is as deep as the panel.");
}

/// Stated to lie below the cloth: then it must be lower than the panel.
void doubt_low_rib(Case& c, size_t rib, const Depth& depth, double mean) {
  if (depth.value > usual::low_rib_is_low * mean)
    c.doubts.push_back(
        fmt::format("Rib {} is not to touch the cloth (touches_cloth = false), but is {} deep where the panel has {} "
                    "in the mean: it "
                    "is reckoned without the cloth on it. Check its section.",
                    rib + 1, depth.words, print_length(mean)));
}

void doubt_ribs(Case& c, const PanelDepths& panel) {
  const double front = std::max(c.span_members.front().chord_fraction, c.blanket.nose_chord_fraction);
  const auto deepest = panel.deepest_rib(front);
  std::vector<std::vector<size_t>> makes;
  for (size_t rib = 0; rib < panel.straight_ribs(); ++rib) {
    const auto depth = stated_depth(c.ribs[rib].make);
    if (!depth) continue;
    if (!c.ribs[rib].touches_cloth) {
      doubt_low_rib(c, rib, *depth, panel.along_rib(rib, front).mean);
      continue;
    }
    const bool out = depth->value > usual::rib_stands_out * deepest.mean ||
                     depth->value > usual::spar_stands_out * deepest.most;
    if (!out && depth->value >= usual::rib_leaves_a_gap * panel.along_rib(rib, front).mean) continue;
    const auto same = std::find_if(makes.begin(), makes.end(), [&](const auto& m) {
      return print_make(c.ribs[m.front()].make, c) == print_make(c.ribs[rib].make, c);
    });
    if (same == makes.end()) makes.push_back({rib});
    else same->push_back(rib);
  }
  for (const auto& ribs : makes) c.doubts.push_back(rib_doubt(c, ribs, panel, front));
}

/// A height between two others at which the panel has next to nothing of what the straight line between them has.
void doubt_hollows(Case& c, double chord) {
  const auto& p = c.profile;
  const auto thick = [&](size_t i) { return p[i].top + p[i].bottom; };
  for (size_t i = 1; i + 1 < p.size(); ++i) {
    const double t =
        (p[i].chord_fraction - p[i - 1].chord_fraction) / (p[i + 1].chord_fraction - p[i - 1].chord_fraction);
    if (thick(i) < usual::hollow * ((1 - t) * thick(i - 1) + t * thick(i + 1)))
      c.doubts.push_back(
          fmt::format("At {} the panel is only {} thick, but {} and {} at the stations before and behind. Check "
                      "the heights in profile, their signs too.",
                      percent_of_chord(p[i].chord_fraction), print_length(thick(i) * chord),
                      print_length(thick(i - 1) * chord), print_length(thick(i + 1) * chord)));
  }
}

void doubt_bow(Case& c) {
  if (!c.tip_bow) return;
  const auto depth = stated_depth(*c.tip_bow);
  if (!depth) return;
  const double share = depth->value / c.tip_thickness;
  if (share > usual::edge_stands_out || share < usual::edge_leaves_a_gap)
    c.doubts.push_back(
        fmt::format("The tip bow is {} thick (tip_bow.thickness), but its section is {} deep: the two should "
                    "be one.",
                    print_length(c.tip_thickness), depth->words));
}

}  // namespace

void find_depth_doubts(Case& c) {
  const PanelDepths panel(c);
  doubt_hollows(c, panel.chord());
  for (const SpanMember& m : c.span_members) {
    auto doubt = m.role == SpanRole::spar ? spar_doubt(m, panel) : edge_doubt(c, m, panel);
    if (!doubt.empty()) c.doubts.push_back(std::move(doubt));
  }
  doubt_taper(c, panel);
  doubt_ribs(c, panel);
  doubt_bow(c);
}

}  // namespace evenpull
