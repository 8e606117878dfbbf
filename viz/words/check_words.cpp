#include "viz/words/check_words.hpp"

#include "viz/words/bench_words.hpp"
#include "viz/words/wording.hpp"
#include "viz/words/zone_names.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

double closest_ribs(const Case& c) {
  double least = c.outline.span();
  for (std::size_t i = 0; i + 1 < c.ribs.size(); ++i)
    least = std::min(least, c.ribs[i + 1].station - c.ribs[i].station);
  return least;
}

double chord_at_root(const Case& c) { return c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x; }
double chord_at_tip(const Case& c) { return c.outline.trailing_edge.back().x - c.outline.leading_edge.back().x; }

/// Widest gap between joints along an end rib, of the shorter chord: the tightest allowance of the long pieces.
double end_rib_piece(const Case& c) {
  double widest = 0;
  for (std::size_t i = 0; i + 1 < c.span_members.size(); ++i)
    widest = std::max(widest, c.span_members[i + 1].chord_fraction - c.span_members[i].chord_fraction);
  return widest * std::min(chord_at_root(c), chord_at_tip(c));
}

// The finest that a ruler or a straightedge tells: 1/32 in; pencil marks: half a millimetre.
constexpr double thirty_second = 0.0254 / 32, half_millimetre = 0.5e-3;

// What to expect and where to stop, of a reading that is `length` metres for each unit of it: never past the limit less what
// the reading may be off by, never finer than the instrument.
std::string expected_and_stop(const Plan& plan, int stage, Limit limit, double length, double allowed,
                              double instrument) {
  for (const ShapeReading& r : plan.chances.shapes) {
    if (r.stage != stage || r.limit != limit) continue;
    const double stop = std::min(std::max(instrument, r.seldom_more * length), allowed * length - instrument / 2);
    const double expected = r.expected * length;
    return fmt::format(
        "{}; stop at {}",
        expected < instrument / 2 ? "expected next to nothing" : "expected " + small_length_both(expected),
        small_length_both(stop));
  }
  return "at most " + small_length_both(allowed * length);
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
  checks.push_back(
      "Trailing edge by a string or straightedge, bow between ribs: " +
      expected_and_stop(plan, stage, Limit::edge_bow, closest_ribs(c), c.limits.bow_per_spacing, thirty_second) + ".");
  // Where the wing goes on at both ends there is no end rib to read.
  const bool one_end = c.cloth_goes_on_inboard || c.cloth_goes_on_outboard;
  if (!(c.cloth_goes_on_inboard && c.cloth_goes_on_outboard))
    checks.push_back(
        (one_end     ? (c.tip_bow ? "Tip bow by its template, bow between joints: "
                                  : "The end rib by a straightedge, bow between joints: ")
         : c.tip_bow ? "Root rib by a straightedge and tip bow by its template, bow between joints: "
                     : "Both end ribs by a straightedge, bow between joints: ") +
        expected_and_stop(plan, stage, Limit::end_rib_bow, end_rib_piece(c), c.limits.bow_per_spacing, thirty_second) +
        ".");
  checks.push_back(fmt::format(
      "Twist: a straight batten across each end, sight one over the other, over {}: {}.", length_both(chord_at_root(c)),
      expected_and_stop(plan, stage, Limit::twist, chord_at_root(c), c.limits.twist, thirty_second)));
  if (c.blanket.kind == BlanketKind::full_wrap && !c.blanket.edge_glued) {
    checks.push_back("Pencil marks on cloth and trailing edge, made before the first stage: slip " +
                     expected_and_stop(plan, stage, Limit::slip, 1, c.limits.slip, half_millimetre) + ".");
  } else {
    checks.push_back("Glued edges: no lifting, no creep, all along.");
  }
  // Where readings decide, the page after this one has what to weigh.
  if (!window_after(plan, stage))
    for (std::string& s : bench_sentences(plan, stage)) checks.push_back(std::move(s));
  checks.push_back("Anything beyond these: stop here, do not go hotter, ask.");
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
