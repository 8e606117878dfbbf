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
  const double te = c.limits.bow_per_spacing * closest_ribs(c), rib = c.limits.bow_per_spacing * end_rib_piece(c);
  checks.push_back("Trailing edge straight by a string or straightedge: bow between ribs at most " +
                   small_length_both(te) + ".");
  checks.push_back((c.tip_bow ? "Root rib straight and tip bow true: bow between joints at most "
                              : "Both end ribs straight by a straightedge: bow between joints at most ") +
                   small_length_both(rib) + ".");
  checks.push_back(
      fmt::format("Twist: a straight batten across each end, sight one over the other: at most {}, which is {} "
                  "over {}.",
                  angle_text(c.limits.twist), small_length_both(std::tan(c.limits.twist) * chord_at_root(c)),
                  length_both(chord_at_root(c))));
  if (c.blanket.kind == BlanketKind::full_wrap && !c.blanket.edge_glued) {
    std::string slip = "Pencil marks on cloth and trailing edge, made before the first stage: cloth slipped at most " +
                       small_length_both(c.limits.slip);
    if (summary != plan.stages.end()) {
      const double bar = summary->slip_study.plus_minus();
      slip += "; expected " + small_length_both(summary->worst_slip) + (bar > 0 ? " ± " + small_length_both(bar) : "");
    }
    checks.push_back(slip + ".");
  } else {
    checks.push_back("Glued edges: no lifting, no creep, all along.");
  }
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
