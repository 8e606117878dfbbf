#include "viz/words/survey_text.hpp"

#include "viz/words/attach_words.hpp"
#include "viz/words/cut_out_words.hpp"
#include "viz/words/frame_kinds.hpp"
#include "viz/words/joint_words.hpp"
#include "viz/words/material_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/record_words.hpp"
#include "viz/words/section_words.hpp"
#include "viz/words/terminal_text.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace evenpull {
namespace {

std::string outline_lines(const Case& c) {
  const auto& o = c.outline;
  const double root = o.trailing_edge.front().x - o.leading_edge.front().x,
               tip = o.trailing_edge.back().x - o.leading_edge.back().x;
  const auto thick = [&](const ProfilePoint& p) { return (p.top + p.bottom) * root; };
  const auto& thickest = *std::max_element(c.profile.begin(), c.profile.end(),
                                           [&](const auto& a, const auto& b) { return thick(a) < thick(b); });
  auto text = fmt::format("  Span {}; chord {} at the inboard end, {} at the tip\n", print_length(o.span()),
                          print_length(root), print_length(tip));
  const bool between = thickest.chord_fraction > 0 && thickest.chord_fraction < 1;
  text += fmt::format("  From skin to skin, inboard: {} at the leading edge, {}{} at the trailing edge\n",
                      print_length(thick(c.profile.front())),
                      between ? fmt::format("{} at {} % of the chord, ", print_length(thick(thickest)),
                                            print_number(thickest.chord_fraction * 100, 3))
                              : "",
                      print_length(thick(c.profile.back())));
  if (o.tip_bow_depth > 0)
    text += fmt::format("  Tip bow {} deep, {} thick: {}\n", print_length(o.tip_bow_depth),
                        print_length(c.tip_thickness), c.tip_bow ? print_make(*c.tip_bow, c) : "");
  return text;
}

std::string print_brace(const Brace& b, const Case& c) {
  if (!b.wire) return print_make(b.make, c);
  const SectionShape& s = b.make.shape;
  const bool rod = s.kind == SectionShape::Kind::tube && 2 * s.wall == s.outside_diameter;
  return fmt::format("wire {}, which only pulls; {}",
                     rod ? print_length(s.outside_diameter, b.make.written.outside_diameter) + ", " +
                               c.materials[static_cast<size_t>(b.make.material)].name
                         : print_make(b.make, c),
                     b.tightness > 0 ? "drawn tight to " + viz::force_both(b.tightness) : "not drawn tight");
}

std::string structure_lines(const Case& c) {
  std::string text = "\n  Members\n";
  for (const auto& m : c.span_members)
    text += fmt::format("    {} at {:.1f} % of the chord: {}{}{}\n", m.name, m.chord_fraction * 100,
                        print_make(m.make, c), m.touches_cloth ? "; touches the cloth" : "",
                        m.hinge_line ? "; carries the hinges" : "");
  std::vector<double> stations;
  for (const auto& r : c.ribs) stations.push_back(r.station);
  text += fmt::format("    {} ribs at {}: {} {}\n", c.ribs.size(), print_lengths(stations),
                      c.cloth_goes_on_inboard ? "inner" : "end", print_make(c.ribs.front().make, c));
  for (size_t i = 1; i + 1 < c.ribs.size(); ++i)
    if ((i == 1 && !c.cloth_goes_on_inboard) || print_make(c.ribs[i].make, c) != print_make(c.ribs[i - 1].make, c))
      text += fmt::format("      from rib {}: {}\n", i + 1, print_make(c.ribs[i].make, c));
  if (const auto low = viz::low_ribs(c); !low.empty())
    text += fmt::format("      {}: lower than the profile, the cloth passes over free\n", low);
  if (c.cloth_goes_on_inboard && !c.cloth_goes_on_outboard && !c.tip_bow)
    text += fmt::format("      rib {}, the end rib: {}\n", c.ribs.size(), print_make(c.ribs.back().make, c));
  for (const auto& b : c.braces)
    text += fmt::format("    {}: {} {} {} to {} {} {}: {}{}\n", b.name,
                        c.span_members[static_cast<size_t>(b.from_member)].name, b.from_mid_bay ? "amid bay" : "at rib",
                        b.from_rib + 1, c.span_members[static_cast<size_t>(b.to_member)].name,
                        b.to_mid_bay ? "amid bay" : "at rib", b.to_rib + 1, print_brace(b, c),
                        b.comes_out ? "; comes out after the ironing" : "");
  for (const auto& b : c.battens)
    text += fmt::format(
        "    {}: a batten along {}: {}{}\n", b.name,
        b.rib >= 0 ? fmt::format("rib {}", b.rib + 1) : c.span_members[static_cast<size_t>(b.span_member)].name,
        print_make(b.make, c), b.comes_out ? "; comes off after the ironing" : "");
  if (const std::string beyond = viz::neighbour_taken_for(c); !beyond.empty())
    text += "    " + wrap_text(beyond, 4) + "\n";
  for (const auto& m : c.materials) text += "    " + wrap_text(m.name + ": " + viz::material_values(m), 8) + "\n";
  for (const auto& p : c.pockets) text += "    " + viz::pocket_text(c, p) + "\n";
  for (const auto& g : c.hinge_gaps) text += "    " + viz::hinge_gap_text(c, g) + "\n";
  return text;
}

std::string section_lines(const Case& c) {
  std::string text = "\n  Sections as they are reckoned (members at the inboard end, ribs half-way along)\n";
  for (const auto& s : shown_sections(c))
    text += "    " + wrap_text(fmt::format("{}: {}", s.carriers, section_numbers_text(s.section)), 6) + "\n";
  for (const auto& note : all_section_notes(c)) text += "    - " + wrap_text(note, 6) + "\n";
  return text;
}

std::string joints_lines(const Case& c, const Panel& p) {
  std::string text = "\n  Joints (stiffness against turning over that of the member, E I/L; range)\n";
  for (const auto& j : viz::joint_lines(c, p))
    text += fmt::format("    {}: {}{}\n", j.where, j.made, j.turns.empty() ? "" : ": " + j.turns);
  return text;
}

std::string support_lines(const char* heading, const std::vector<Support>& supports, const Case& c) {
  std::string text = fmt::format("\n  {}\n", heading);
  static const char* const motions[] = {"x", "y", "z", "turn x", "turn y", "turn z"};
  for (const auto& s : supports) {
    std::string holds;
    for (size_t i = 0; i < 6; ++i)
      if (s.hold[i]) holds += (holds.empty() ? "" : ", ") + std::string(motions[i]);
    text += fmt::format("    {} on {} {} (holds {}{})\n", viz::support_kind_text(s.kind),
                        c.span_members[static_cast<size_t>(s.member)].name,
                        s.whole_length ? "along its whole length" : "at " + print_length(s.station), holds,
                        s.give > 0 ? fmt::format("; gives {} mm per 100 N", print_number(1e5 * s.give, 3)) : "");
  }
  return text;
}

std::string cloth_lines(const Case& c) {
  const auto& b = c.blanket;
  static const char* const ties[] = {"bears on", "is free over", "is glued to"};
  auto text = fmt::format("\n  Cloth {:.0f} g/m² ({:.2f} oz/yd²), {}; {} inner ribs", c.cloth.areal_mass * 1000,
                          viz::ounces_per_square_yard(c.cloth.areal_mass),
                          b.kind == BlanketKind::full_wrap ? "one full wrap" : "two sheets",
                          ties[static_cast<int>(b.inner_ribs)]);
  if (b.nose_chord_fraction > b.seam_chord_fraction)
    text += fmt::format("\n    glued at {:.1f} % of the chord, on the closed nose from there to {:.1f} %",
                        b.seam_chord_fraction * 100, b.nose_chord_fraction * 100);
  if (b.kind == BlanketKind::full_wrap)
    text += fmt::format("\n    turns {:.0f}° round the trailing edge, friction {:.2f}{}",
                        viz::degrees_of_arc(b.wrap_angle), b.edge_friction, b.edge_glued ? ", tacked" : "");
  for (const auto& s : viz::attachment_sentences(c)) text += "\n    " + wrap_text(s, 4);
  text += "\n\n  Stages (true sole temperature)\n";
  for (const auto& s : c.stages) {
    std::string doses;
    for (const double d : s.doses) doses += (doses.empty() ? "" : ", ") + print_number(d, 3);
    text += fmt::format("    {}: passes of dose {}\n", viz::degrees_both(s.temperature), doses);
  }
  static const char* const coats[] = {"not stated", "they tauten: a plan gives NO VERDICT", "they do not tauten"};
  text += fmt::format("    Coats after the iron: {}\n", coats[static_cast<int>(c.finish)]);
  return text;
}

std::string duration(double seconds) {
  if (seconds < 90) return fmt::format("about {:.0f} s", std::max(1.0, std::round(seconds)));
  return fmt::format("about {:.0f} minutes", std::ceil(seconds / 60));
}

}  // namespace

std::string survey_text(const Case& c, const Panel& panel, const RunEstimate& estimate, const RunEstimate& fine,
                        int processors, const std::string& folder) {
  auto text =
      wrap_text(c.title, 0) + "\n" + (c.description.empty() ? "" : "  " + wrap_text(c.description, 2) + "\n") + "\n";
  text += outline_lines(c) + structure_lines(c) + joints_lines(c, panel) + section_lines(c);
  text += support_lines("Held while it is ironed by", c.while_ironed, c) + support_lines("Held in use by", c.in_use, c);
  text += cloth_lines(c);
  text += fmt::format(
      "\n  {} zones: {} bay{}, {} strip{} each{}, two sides. Mesh {} nodes, {} steps.\n"
      "  A plan takes {} of processor time, {} on {} if nothing else runs, by how fast this machine is just now (with "
      "--accuracy fine {}).\n",
      panel.zones.size(), panel.bays, panel.bays == 1 ? "" : "s", panel.strips, panel.strips == 1 ? "" : "s",
      panel.zones.size() < 2u * panel.bays * panel.strips ? " (fewer where cloth is cut out)" : "", estimate.nodes,
      estimate.steps, duration(estimate.processor_seconds), duration(estimate.seconds_on(processors)),
      processors == 1 ? std::string("this processor") : fmt::format("these {} processors", processors),
      duration(fine.seconds_on(processors)));
  if (panel.fullness > 0.0005)
    text += fmt::format("  The curved tip leaves {:.1f} % fullness that must be shrunk out.\n", panel.fullness * 100);
  text += c.doubts.empty() ? "\n  No doubts.\n" : "\n  Doubts\n";
  for (const auto& d : c.doubts) text += "    - " + wrap_text(d, 6) + "\n";
  text += "\n  Defaults used (state your own in the case where you know better)\n";
  for (const auto& d : c.defaults_used)
    text += "    " + wrap_text(fmt::format("{} = {}  [{}]", d.key, d.value, d.why), 8) + "\n";
  text += fmt::format("\n  Drawing: {0}/survey.png and {0}/survey.pdf. Look at it before you plan.\n", folder);
  return text;
}

}  // namespace evenpull
