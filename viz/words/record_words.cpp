#include "viz/words/record_words.hpp"

#include "viz/words/after_iron_words.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/cut_out_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/note_words.hpp"
#include "viz/words/section_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

std::string holds(const Support& support) {
  static const char* const words[] = {"x", "y", "z", "turn x", "turn y", "turn z"};
  std::string text;
  for (int i = 0; i < 6; ++i)
    if (support.hold[i]) text += std::string(text.empty() ? "" : ", ") + words[i];
  return text.empty() ? "nothing" : text;
}

std::string member_of(const Case& c, const Support& s) {
  return s.member >= 0 && s.member < static_cast<int>(c.span_members.size()) ? c.span_members[s.member].name : "member";
}

std::string all_supports(const Case& c, const std::vector<Support>& supports) {
  std::string text;
  for (const auto& s : supports) text += (text.empty() ? "" : "; ") + support_words(c, s);
  return text.empty() ? "none stated" : text;
}

std::string rib_tie_words(RibTie tie) {
  switch (tie) {
    case RibTie::bearing: return "The cloth bears on the inner ribs and can creep over them against friction";
    case RibTie::free: return "The cloth is free on the inner ribs";
    case RibTie::glued: return "The cloth is glued to the inner ribs";
  }
  return "";
}

}  // namespace

const char* support_kind_text(SupportKind k) {
  switch (k) {
    case SupportKind::clamp: return "clamp";
    case SupportKind::hinge: return "hinge";
    case SupportKind::sliding_hinge: return "sliding hinge";
    case SupportKind::rest: return "rest";
    case SupportKind::horn: return "horn";
    case SupportKind::motions: break;
  }
  return "holds";
}

std::string support_words(const Case& c, const Support& s) { return support_words(c, s, length_both(s.station)); }

std::string support_words(const Case& c, const Support& s, const std::string& station) {
  return fmt::format("{} on the {} {} (holds {})", support_kind_text(s.kind), member_of(c, s),
                     s.whole_length ? "over its whole length" : "at " + station, holds(s));
}

std::vector<std::string> assumptions(const Plan& plan) {
  const Case& c = plan.the_case;
  std::vector<std::string> list;
  list.push_back(c.blanket.kind == BlanketKind::full_wrap
                     ? fmt::format("One full wrap, {} round the trailing edge, friction {:.2f}.",
                                   c.blanket.edge_glued ? "tacked down" : "free to slide", c.blanket.edge_friction)
                     : "Two glued sheets, one a side: no sliding round the trailing edge.");
  list.push_back(rib_tie_words(c.blanket.inner_ribs) +
                 (c.blanket.inner_ribs == RibTie::bearing ? fmt::format(" {:.2f}.", c.blanket.rib_friction) : "."));
  if (const std::string schedule = schedule_text(c); !schedule.empty())
    list.push_back("But as the case schedules it, " + schedule +
                   "; before that the cloth slides there, from then on it is held where it lies.");
  if (const std::string low = low_ribs(c); !low.empty()) list.push_back("The cloth passes free over " + low + ".");
  for (const Pocket& p : c.pockets)
    list.push_back(
        fmt::format("No cloth in the {}, {} to {} from the root: it is glued round to its front and to the ribs "
                    "at its sides.",
                    p.name, length_both(p.from), length_both(p.to)));
  for (const HingeGap& g : c.hinge_gaps)
    list.push_back(
        fmt::format("No cloth in the hinge gap {} to {} from the root: it is glued round to the nose, which is "
                    "reckoned whole.",
                    length_both(g.from), length_both(g.to)));
  list.push_back(fmt::format("Cloth laid on {:.1f} % loose along the warp and {:.1f} % along the fill.",
                             100 * c.cloth.looseness.warp, 100 * c.cloth.looseness.fill));
  for (const auto& p : c.cloth.curve)
    if (p.pull.warp > 0 || p.pull.fill > 0)
      list.push_back(fmt::format("Cloth held at its length keeps {} (warp) and {} (fill) after {}.",
                                 pull_both(p.pull.warp), pull_both(p.pull.fill), degrees_f(p.temperature)));
  for (std::size_t s = 0; s < c.stages.size(); ++s) {
    std::string doses;
    for (double d : c.stages[s].doses)
      doses += (doses.empty() ? "" : ", ") + dose_word(d) + fmt::format(" ({:.2f})", d);
    list.push_back(degrees_both(c.stages[s].temperature) + ": passes " + doses + ".");
  }
  list.push_back(fmt::format("The iron keeps {:.0f} in² ({:.0f} cm²) hot at once; its sole swings {}.",
                             c.iron.hot_area() * inches(1) * inches(1), c.iron.hot_area() * 1e4,
                             swing_both(c.iron.swing)));
  list.push_back("Held while ironed: " + all_supports(c, c.while_ironed) + ".");
  list.push_back("Held in use: " + all_supports(c, c.in_use) + ".");
  if (plan.panel.fullness >= 0.0005)  // less would be printed as nothing
    list.push_back(
        fmt::format("The curved tip leaves {:.1f} % of fullness to be shrunk out.", 100 * plan.panel.fullness));
  for (const auto& doubt : c.doubts) list.push_back(doubt);
  return list;
}

std::vector<std::string> limits_of_validity(const Plan& plan) {
  std::vector<std::string> list{
      "Ironing loads only. Flight, control, ground and handling loads are not in it; the share of the strength kept "
      "for "
      "them is judgement.",
      "The frame is taken as sound, as drawn and elastic. Dents, cracks, corrosion, rot and old repairs are unknown to "
      "it.",
      "How hard the cloth pulls is the weakest input: half to nearly twice the default is possible. A shrink test of a "
      "strip "
      "of your own cloth should replace it.",
      "Dwell is computed for the iron as stated and cloth that lies flat under it; on ribs, edges and seams it takes "
      "longer.",
      "Thin sheet of ribs and edges is held against going wavy and kinking by formulas for flats, good to some 15 %; a "
      "folded trailing edge of usual sheet and rib spacing is taken to bear its waves, as shells computed by us did. "
      "Holes, joggles and dents are not in it.",
      "Left out: the iron's drag, weight, growth of hot metal edges, slackening with time, coatings that tauten.",
  };
  for (auto& s : after_iron_sentences(plan.the_case)) list.push_back(std::move(s));
  for (const auto& note : all_section_notes(plan.the_case)) list.push_back(note);
  if (plan.quick())
    list.insert(list.begin(), "Quick plan: coarse mesh and no error bars. Run the full plan before heat goes on.");
  if (plan.replayed) list.insert(list.begin(), "Replay: the order was chosen by a person, not by the program.");
  return list;
}

namespace {

/// What the error bars rest on.
std::string study_words(const Plan& plan) {
  std::string meshes, zones;
  int finest = 0;
  for (const auto& level : plan.study) {
    if (level.zone_parts > 1) zones += (zones.empty() ? "" : " and in ") + std::to_string(level.zone_parts);
    else meshes += (meshes.empty() ? "" : ", ") + std::to_string(finest = level.nodes);
  }
  return fmt::format(
      "Error bars: the chosen order on meshes of {} cloth points{}. Uses, mean pull and slip are those of the mesh of "
      "{}; "
      "the drawings show the one of {}.",
      meshes, zones.empty() ? "" : ", and with zones cut in " + zones, finest, plan.solve.nodes);
}

}  // namespace

std::vector<std::string> how_computed(const Plan& plan) {
  const Solve& s = plan.solve;
  std::vector<std::string> list{fmt::format(
      "{} cloth points, {} steps, {} iterations; worst residual {:.1g} N; pull "
      "certain to {:.2f} lb/in ({:.1f} N/m) at stage ends and {:.2f} lb/in ({:.1f} N/m) on the way (rms), on this "
      "mesh.",
      s.nodes, s.steps, s.iterations, s.worst_residual, pounds_per_inch(s.tension_error_bound), s.tension_error_bound,
      pounds_per_inch(s.tension_error_bound_on_the_way), s.tension_error_bound_on_the_way)};
  if (plan.study.empty()) {
    list.push_back("No error bars were computed.");
    return list;
  }
  list.push_back(study_words(plan));
  if (s.mesh_change)
    list.push_back(
        fmt::format("Last mesh but one to the finest: governing use changes by {:.1f} %.", 100 * *s.mesh_change));
  if (s.zone_change)
    list.push_back(fmt::format("Smallest zones: governing use changes by {:.1f} %.", 100 * *s.zone_change));
  return list;
}

std::vector<std::string> bounds_in_words(const Plan& plan) {
  std::vector<std::string> list;
  for (const auto& b : plan.bounds) {
    std::string uses;
    for (std::size_t i = 0; i < b.worst_use.size(); ++i) {
      const Stage& stage = plan.the_case.stages[b.first_stage + i];
      uses += fmt::format("{}{} at {}", uses.empty() ? "" : ", ",
                          b.worst_use[i] ? use_text(*b.worst_use[i], 0) : "the frame gives way",
                          degrees_f(stage.temperature));
    }
    list.push_back(fmt::format("{}: worst use {}; unevenness {}; slip {}.", bound_name(b), uses,
                               b.unevenness_final ? percent_text(*b.unevenness_final) : "not known",
                               small_length_both(b.worst_slip)));
  }
  return list;
}

std::string bounds_title(const Plan& plan) {
  bool joints = false, ribs = false;
  for (const auto& b : plan.bounds) (b.joints ? joints : ribs) = true;
  if (joints && !ribs) return "Bounds: joints softest or stiffest";
  return joints ? "Bounds: inner ribs free or glued, joints softest or stiffest" : "Bounds: inner ribs free or glued";
}

std::vector<std::string> defaults_by_table(const Plan& plan) {
  std::vector<std::string> tables, list;
  for (const auto& d : plan.the_case.defaults_used) {
    const std::size_t dot = d.key.find('.');
    const std::string table = d.key.substr(0, dot), key = dot == std::string::npos ? "" : d.key.substr(dot + 1) + " ";
    const auto at = std::find(tables.begin(), tables.end(), table);
    if (at == tables.end()) {
      tables.push_back(table);
      list.push_back(table + ": " + key + d.value);
    } else {
      list[static_cast<std::size_t>(at - tables.begin())] += "; " + key + d.value;
    }
  }
  return list;
}

std::string held_while_ironed(const Case& c) {
  std::string text;
  const Support* before = nullptr;
  for (const Support& s : c.while_ironed) {
    const std::string where = s.whole_length ? "over its whole length" : "at " + length_both(s.station);
    if (before && before->kind == s.kind && before->member == s.member) text += " and " + where;
    else
      text += (text.empty() ? "" : "; ") + std::string(support_kind_text(s.kind)) + " on the " + member_of(c, s) + " " +
              where;
    before = &s;
  }
  return text;
}

}  // namespace evenpull::viz
