#include "viz/words/check_words.hpp"

#include "sequencer/sure/shape_readings.hpp"
#include "solver/readings/bows.hpp"
#include "viz/words/after_iron_words.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/bench_words.hpp"
#include "viz/words/wording.hpp"
#include "viz/words/zone_names.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

// A reading of the shape by an instrument.
struct ShapeCheck {
  Limit limit;
  double length = 1;   ///< m that one unit of the reading stands for
  double allowed = 0;  ///< of the reading itself, in its own unit; 0: not limited
  double lasting = 1;  ///< what wood grows by in time: the limit is for then, the reading is of now
};

// Where the limit is finer than a ruler tells.
std::string feeler(const ShapeCheck& k) {
  const bool bow = k.limit != Limit::slip && k.limit != Limit::twist;
  return bow && k.allowed > 0 && k.allowed < 1.5 * shape_instrument(k.limit) ? ", by a feeler gauge" : "";
}

std::string in_time(double at_once, const ShapeCheck& k) {
  return k.lasting > 1 ? fmt::format(" (wood: in time about {})", small_length_both(k.lasting * at_once)) : "";
}

// What to expect and where to stop: never past the limit less what the reading may be off by, never finer than the
// instrument.
std::string expected_and_stop(const Plan& plan, int stage, const ShapeCheck& k) {
  const double instrument = feeler(k).empty() ? shape_instrument(k.limit) : k.allowed / 4;
  for (const ShapeReading& r : plan.chances.shapes) {
    if (r.stage != stage || r.limit != k.limit) continue;
    double stop = std::max(instrument, r.seldom_more * k.length);
    if (k.allowed > 0) stop = std::min(stop, k.allowed - instrument / 2);
    const double expected = r.expected * k.length;
    return fmt::format("{}; stop at {}{}",
                       expected < instrument / 2 ? "expected next to nothing"
                                                 : "expected " + small_length_both(expected) + in_time(expected, k),
                       small_length_both(stop), feeler(k));
  }
  return k.allowed > 0 ? "at most " + small_length_both(k.allowed) + in_time(k.allowed, k) + feeler(k) : "";
}

double lasting_of(const Case& c, const MemberMake& make) {
  return c.materials[static_cast<std::size_t>(make.material)].lasting_movement;
}

/// Bow of a piece so long that reads no more than this when it is made may grow to what is allowed.
double allowed_at_once(const Limits& l, double length, double lasting) {
  return std::max(l.bow_per_spacing * length, l.least_bow) / lasting;
}

// Hinge line and whole trailing edge, where something is known or allowed of them.
void add_long_lines(const Plan& plan, int stage, std::vector<std::string>& checks) {
  const Case& c = plan.the_case;
  const int hung = hinge_line_member(c);
  const double hinges = hung < 0 ? 1 : lasting_of(c, c.span_members[static_cast<std::size_t>(hung)].make);
  const double edge_length = c.outline.span();
  const double edge = lasting_of(c, c.span_members.back().make);
  StageEnd end;
  for (const StageSummary& s : plan.stages)
    if (s.stage == stage) end = s.end;
  const auto add = [&](const char* what, double at_once, const ShapeCheck& k) {
    std::string text = expected_and_stop(plan, stage, k);
    // Without chances and without a limit: what was computed.
    if (const double bow = at_once * k.length; text.empty() && bow >= shape_instrument(k.limit) / 2)
      text = "expected " + small_length_both(bow) + in_time(bow, k);
    if (!text.empty()) checks.push_back(std::string(what) + text + ".");
  };
  add("Hinge line by a string from the first hinge to the last, bow between: ", end.hinge_line_bow,
      {Limit::hinge_line_bow, 1, c.limits.hinge_line_bow / hinges, hinges});
  add("Whole trailing edge by a string from end to end: ", end.whole_edge_bow,
      {Limit::whole_edge_bow, edge_length, c.limits.whole_edge_bow * edge_length / edge, edge});
  double gap = 0;
  for (const Pocket& p : c.pockets) gap = gap > 0 && p.gap > 0 ? std::min(gap, p.gap) : std::max(gap, p.gap);
  if (!c.pockets.empty())
    add("Pocket: lay the tab in; its gap at the sides and at the front closes by: ", end.pocket_closing,
        {Limit::pocket_room, 1, gap});
}

}  // namespace

std::vector<std::string> checks_after_stage(const Plan& plan, int stage) {
  const Case& c = plan.the_case;
  const auto summary =
      std::find_if(plan.stages.begin(), plan.stages.end(), [&](const StageSummary& s) { return s.stage == stage; });
  std::vector<std::string> checks{"Let it cool to the hand, then take it off the rests."};
  std::string loose = "Look along the cloth for puckers and loose places";
  if (summary != plan.stages.end())
    loose += !summary->loose_zones.empty() ? ". By this calculation " + zones_text(plan.panel, summary->loose_zones) +
                                                 " will still be loose after this stage."
             : summary->loose_share >= 0.005
                 ? ". About " + percent_text(summary->loose_share) + " of the area may still be loose."
                 : ". None should be loose.";
  else loose += ".";
  checks.push_back(loose);
  checks.push_back("All of these less what the bare frame read at the same place.");
  const double edge = lasting_of(c, c.span_members.back().make), rib = lasting_of(c, c.ribs.front().make);
  const double bay = shape_length(c, Limit::edge_bow), piece = shape_length(c, Limit::end_rib_bow);
  checks.push_back("Trailing edge by a string or straightedge, bow between ribs: " +
                   expected_and_stop(plan, stage, {Limit::edge_bow, bay, allowed_at_once(c.limits, bay, edge), edge}) +
                   ".");
  // Where the wing goes on at both ends there is no end rib to read.
  const bool one_end = c.cloth_goes_on_inboard || c.cloth_goes_on_outboard;
  if (!(c.cloth_goes_on_inboard && c.cloth_goes_on_outboard))
    checks.push_back(
        (one_end     ? (c.tip_bow ? "Tip bow by its template, bow between joints: "
                                  : "The end rib by a straightedge, bow between joints: ")
         : c.tip_bow ? "Root rib by a straightedge and tip bow by its template, bow between joints: "
                     : "Both end ribs by a straightedge, bow between joints: ") +
        expected_and_stop(plan, stage, {Limit::end_rib_bow, piece, allowed_at_once(c.limits, piece, rib), rib}) + ".");
  add_long_lines(plan, stage, checks);
  const double chord = shape_length(c, Limit::twist);
  checks.push_back(fmt::format(
      "Twist: a straight batten across each end, sight one over the other, over {}: {}.", length_both(chord),
      expected_and_stop(plan, stage, {Limit::twist, chord, c.limits.twist * chord, lasting_of_frame(c)})));
  if (c.blanket.kind == BlanketKind::full_wrap && !c.blanket.edge_glued) {
    checks.push_back("Pencil marks on cloth and trailing edge, made before the first stage: slip " +
                     expected_and_stop(plan, stage, {Limit::slip, 1, c.limits.slip}) + ".");
  } else {
    checks.push_back("Glued edges: no lifting, no creep, all along.");
  }
  // Where readings decide, the page after this one has what to weigh.
  if (!window_after(plan, stage))
    for (std::string& s : bench_sentences(plan, stage)) checks.push_back(std::move(s));
  checks.push_back("Anything beyond these: stop here, do not go hotter, ask.");
  const bool last = plan.ceiling && stage >= *plan.ceiling && !window_after(plan, stage);
  for (const std::string& s : fasten_now(c, stage, last)) checks.push_back("Only then, cloth cold: " + s);
  return checks;
}

std::string thickness_sentence(const ThicknessLoss& loss) {
  if (loss.bay < 0 || loss.loss < least_loss_said) return "Between the ribs the cloth keeps the profile.";
  return fmt::format(
      "Between the ribs the profile is thinner by up to {}, {} of its thickness there: bay {}, {} of the chord; top "
      "{}, bottom {}.",
      small_length_both(loss.loss), percent_text(loss.share()), loss.bay + 1, percent_text(loss.chord_fraction),
      small_length_both(loss.top), small_length_both(loss.bottom));
}

namespace {

/// Pounds per inch, the bar rounded up.
std::string pull_with_bar(double pull, const NumberStudy& study) {
  const std::string number = number_text(pounds_per_inch(pull), 1);
  if (study.plus_minus() <= 0) return number;
  return number + " ± " + number_text(std::ceil(10 * pounds_per_inch(study.plus_minus())) / 10, 1);
}

}  // namespace

std::vector<std::string> expected_sentences(const Plan& plan, int stage) {
  std::vector<std::string> lines;
  for (const auto& s : plan.stages) {
    if (s.stage != stage) continue;
    for (int side : {0, 1})
      lines.push_back(fmt::format("{}: {} / {} lb/in ({} / {} N/m)", side == 0 ? "Top" : "Bottom",
                                  pull_with_bar(s.mean_pull_chord[side], s.pull_chord_study[side]),
                                  pull_with_bar(s.mean_pull_span[side], s.pull_span_study[side]),
                                  number_text(s.mean_pull_chord[side], 0), number_text(s.mean_pull_span[side], 0)));
    const ThicknessLoss& loss = s.thickness_loss;
    if (loss.bay >= 0 && loss.loss >= least_loss_said)
      lines.push_back(fmt::format("Between the ribs the profile is thinner by up to {}: bay {}, {} of the chord.",
                                  small_length_both(loss.loss), loss.bay + 1, percent_text(loss.chord_fraction)));
  }
  return lines;
}

std::string buckling_sentence(const BucklingMode& mode) {
  return fmt::format("At {:.1f} times the present pull the frame would bow like this and go on bowing.", mode.factor);
}

}  // namespace evenpull::viz
