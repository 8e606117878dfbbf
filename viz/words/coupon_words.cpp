#include "viz/words/coupon_words.hpp"

#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

namespace evenpull::viz {
namespace {

constexpr double coupon_mm = 1e3, coupon_percent = 100;

std::string both_lengths(double metres, CouponUnits units) {
  const auto in = print_inches(metres), metric = print_millimetres(metres);
  return units == CouponUnits::inch ? in + " (" + metric + ")" : metric + " (" + in + ")";
}

std::string board_text(const CouponSizes& s, CouponUnits units) {
  const auto in = [](double m) { return inches(m); };
  const std::string metric = fmt::format("{:.0f} × {:.0f} mm", s.board_height * coupon_mm, s.board_width * coupon_mm);
  const std::string inch = fmt::format("{:.3g} × {:.3g} in", in(s.board_height), in(s.board_width));
  return units == CouponUnits::inch ? inch + " (" + metric + ")" : metric + " (" + inch + ")";
}

std::string sag_words(double metres) {
  return fmt::format("{:.3f} in ({:.2f} mm)", inches(metres), metres * coupon_mm);
}

std::string weight_words(double mass) { return weight_both(mass); }

std::string share_words(double share) {
  const double p = share * coupon_percent;
  return fmt::format("{:.{}f} %", p, p < 9.95 ? 1 : 0);
}

}  // namespace

std::vector<std::string> coupon_weights(CouponUnits units) {
  if (units == CouponUnits::inch) return {"1 lb", "2 lb"};
  return {"0.5 kg", "1 kg"};
}

std::string coupon_length_text(double metres, CouponUnits units) {
  return units == CouponUnits::inch ? fmt::format("{:.3g} in", inches(metres))
                                    : fmt::format("{:.0f} mm", metres * coupon_mm);
}

std::vector<std::string> coupon_steps(const CouponSizes& s, CouponUnits units) {
  const auto weights = coupon_weights(units);
  const bool inch = units == CouponUnits::inch;
  return {
      fmt::format("Screw and glue boards {} to a square, {} inside. They lie FLAT: on edge they would bow.",
                  board_text(s, units), both_lengths(s.inside, units)),
      "Cement cloth of the same roll to the upper faces, all round: flat, just not loose. Let it dry by the adhesive "
      "maker's instructions. Ventilate; no solvent near a hot iron.",
      "Iron all over at the stage, by the thermometer on the sole, twice. Miss no spot. Let it lie cold for an hour.",
      fmt::format(
          "Straight edge across two boards, over the middle. Disc, {} across, stiff, in the middle; it stays there. "
          "Measure down to it: with no weight, with {}, with {}, each in two halves beside the gauge, so that it lies "
          "level. A sag is the reading less the one with no weight. Take a depth gauge or a caliper: {} counts; a rule "
          "does not show it.",
          both_lengths(s.disc, units), weights[0], weights[1], inch ? "0.004 in (0.1 mm)" : "0.1 mm (0.004 in)"),
      fmt::format(
          "Free shrink: on a loose piece of the roll mark {} along the warp and along the fill. Iron it loose, at "
          "the same stage. Measure it cold.",
          inch ? "20 in (500 mm)" : "500 mm (20 in)"),
      "Go on to the next stage with the same square and the same piece. Measure shrink from the first marks."};
}

std::vector<std::string> coupon_sheet_steps(CouponUnits units) {
  const auto weights = coupon_weights(units);
  const bool inch = units == CouponUnits::inch;
  return {
      "Screw and glue the square. Boards FLAT: on edge they bow.",
      "Cement cloth of the same roll all round: flat, just not loose. Let it dry; ventilate.",
      "Iron all over at the stage, by thermometer, twice. Wait an hour.",
      fmt::format("Measure from the straight edge to the disc: no weight, {}, {} (halves beside the gauge). By depth "
                  "gauge: {} counts. Sag: the reading less the one with no weight.",
                  weights[0], weights[1], inch ? "0.004 in" : "0.1 mm"),
      fmt::format("Free shrink: a loose piece, marks {} apart both ways. Iron it too, measure cold.",
                  inch ? "20 in" : "500 mm"),
      "Next stage: same square, same piece."};
}

std::string coupon_board_words(const CouponSizes& s, CouponUnits units) {
  return fmt::format("boards {}, lying flat", board_text(s, units));
}

std::string no_strip_words() {
  return "A strip held at two ends will not do: free at its sides it gives way to the yarns across and reads 10 to 30 "
         "% "
         "too little.";
}

std::string usual_sag_words(double least, double most, CouponUnits units) {
  return fmt::format("Usual under {}: {}.", coupon_weights(units)[0], sag_range_words(least, most));
}

std::string pull_range_words(double low, double high) {
  return fmt::format("{:.1f} to {:.1f} lb/in ({:.0f} to {:.0f} N/m)", pounds_per_inch(low), pounds_per_inch(high), low,
                     high);
}

std::string sag_range_words(double low, double high) {
  return fmt::format("{:.2f} to {:.2f} in ({:.1f} to {:.1f} mm)", inches(low), inches(high), low * coupon_mm,
                     high * coupon_mm);
}

std::string shrink_words(double warp, double fill) {
  return fmt::format("{:.1f} % warp, {:.1f} % fill", warp * coupon_percent, fill * coupon_percent);
}

std::string implausible_words(const CouponSlipOfHand& s) {
  const std::string means = s.pull > 0 ? fmt::format("would be a pull of {}", pull_both(s.pull))
                                       : "is more than any tight cloth sags";
  return fmt::format(
      "{}: {} under {} {}. Ironed cloth pulls {}; that is a sag of {}. Read again: the sag is the reading "
      "with the weight less the one without; check unit and weight",
      degrees_f(s.temperature), sag_words(s.sag), weight_words(s.mass), means,
      pull_range_words(s.least_pull, s.most_pull),
      fmt::format("{:.3f} to {:.2f} in ({:.2f} to {:.1f} mm)", inches(s.least_sag), inches(s.most_sag),
                  s.least_sag * coupon_mm, s.most_sag * coupon_mm));
}

std::string contradiction_words(double temperature, const std::vector<CouponSays>& each) {
  std::string all;
  for (const CouponSays& e : each)
    all += fmt::format("{}{} sagging {} says {}", all.empty() ? "" : ", ", weight_words(e.mass), sag_words(e.sag),
                       pull_both(e.pull));
  return fmt::format(
      "{}: the readings contradict each other: {}. There is no result. Read all of this stage again, the "
      "one without weight too",
      degrees_f(temperature), all);
}

std::string falling_words(double cooler, double pull_there, double hotter, double pull_here) {
  return fmt::format(
      "the pull falls from {} at {} to {} at {}, more than readings may be off: cement that slips, a joint "
      "that opened, or a slip of the hand. Look at the square and read again",
      pull_both(pull_there), degrees_f(cooler), pull_both(pull_here), degrees_f(hotter));
}

std::string disc_words(const CouponSizes& s, double least, double most) {
  return fmt::format("a disc of {} in a square of {} is too {} for the formula; take one between {} and {} across",
                     print_length(s.disc), print_length(s.inside), s.disc < least ? "small" : "large",
                     length_both(least), length_both(most));
}

std::string boards_too_thin_words(const CouponSizes& s, double cost, double at_most, double stiff_width) {
  return fmt::format(
      "boards {} lying so would give way by some {} of the pull; above {} nothing can be read. The second "
      "number is how wide they lie: take {} or more",
      board_text(s, CouponUnits::metric), share_words(cost), share_words(at_most), length_both(stiff_width));
}

std::string boards_words(const CouponSizes& s, double cost, bool more) {
  return fmt::format("The boards, {}, give a little: {} of the pull was added for it, give or take as much.{}",
                     board_text(s, CouponUnits::metric), share_words(cost),
                     more ? " That is more than it should be: wider boards read better." : "");
}

std::string sagging_words(double temperature, double added, double mass) {
  return fmt::format("{}: sagging itself pulls the cloth tighter, by {} under {}; that is taken out.",
                     degrees_f(temperature), pull_both(added), weight_words(mass));
}

std::string left_words(double left, double without) {
  return fmt::format(
      "What is left to doubt in the pull: {} (one sigma) in place of {} without a coupon. A plan knows it "
      "by [spread].",
      percent_text(left), percent_text(without));
}

std::string left_by_stage_words(double measured, double carried, const std::vector<double>& not_measured) {
  std::string list;
  for (const double t : not_measured) list += (list.empty() ? "" : ", ") + degrees_f(t);
  return fmt::format(
      "What is left to doubt in the pull: {} (one sigma) at stages that were measured, {} at {}: there the pull is the "
      "curve as it was, scaled. Iron the square at these as well. It bears what a frame may not.",
      percent_text(measured), percent_text(carried), list);
}

std::string mean_of_yarns_words() {
  return "The square gives the mean of warp and fill, the root of their product. How they part is as it was: 8 % each.";
}

std::string shrink_says_nothing_words() { return "Free shrink says nothing of the pull. Read the square for that."; }

std::string spread_of_shrink_words() { return "The doubt of free shrink stays 10 %, or as the case has it."; }

std::string sizes_assumed_words(const CouponSizes& s, bool inside, bool disc, bool boards) {
  std::string what, option;
  const auto add = [&](bool assumed, const std::string& size, const char* name) {
    if (!assumed) return;
    what += (what.empty() ? "" : ", ") + size;
    option += std::string(option.empty() ? "" : ", ") + name;
  };
  add(inside, "inside " + print_length(s.inside), "--inside");
  add(disc, "disc " + print_length(s.disc), "--disc");
  add(boards, "boards " + board_text(s, CouponUnits::metric) + " lying flat", "--boards");
  if (what.empty()) return "";
  return fmt::format("Taken, since not said: {}. Say {} where yours differ.", what, option);
}

std::string boards_will_cost_words(double cost) {
  return fmt::format(
      "These boards will give way by some {} of the pull, which is known by half only: a smaller square or "
      "wider boards read better.",
      share_words(cost));
}

}  // namespace evenpull::viz
