#include "viz/words/heat_words.hpp"

#include "sequencer/replay/full_passes.hpp"
#include "viz/words/wording.hpp"
#include "viz/words/zone_names.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

constexpr double beyond_told = 0.25;
constexpr double hotter_told = 2;  // °F: less is lost on a thermometer

std::string seconds(double s) { return s < 10 ? fmt::format("{:.1f} s", s) : fmt::format("{:.0f} s", s); }

std::string pass_names(const std::vector<int>& passes) {
  std::string text = "Pass ";
  for (std::size_t i = 0; i < passes.size(); ++i)
    text += (i == 0 ? "" : i + 1 == passes.size() ? " and " : ", ") + std::to_string(passes[i]);
  return text;
}

std::string passes_sentence(const Case& c, const PassCount& n, const std::string& where) {
  std::string text = fmt::format("{}: ", where), counts;
  const int told = std::min(3, static_cast<int>(n.done.size()));
  for (int i = 0; i < told; ++i) {
    text += fmt::format("{}{}", i ? ", " : "", percent_text(n.done[i]));
    counts += fmt::format("{}{}", i ? ", " : "", i + 1);
  }
  text += fmt::format(" of the area done after {} full pass{}", counts, told == 1 ? "" : "es");
  text += n.least > 0
              ? fmt::format("; {} for {} of it.", n.least == 1 ? "one pass does" : fmt::format("{} passes", n.least),
                            percent_text(c.wanted.done_share))
              : fmt::format("; {} is not reached in {} pass{}.", percent_text(c.wanted.done_share), n.done.size(),
                            n.done.size() == 1 ? "" : "es");
  return text;
}

// `last`: the job ends here. What an earlier stage leaves undone the hotter ones make up.
void add_stage(std::vector<std::string>& list, const Plan& plan, int stage, bool last) {
  const Case& c = plan.the_case;
  const StageHeat& h = plan.heat[stage];
  const std::string at = degrees_f(c.stages[stage].temperature);
  list.push_back(passes_sentence(c, h.open, at + ", open bays"));
  const auto full =
      std::count_if(h.passes.begin(), h.passes.end(), [](const PassHeat& p) { return p.way == PassWay::hold; });
  if (last && h.open.least > full)
    list.push_back(
        fmt::format("{}: the plan has {} full pass{}; with this iron {} are needed. State them in the case and run "
                    "it again, or take a steadier iron.",
                    at, full, full == 1 ? "" : "es", h.open.least));
  const auto passes = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(full, 1, most_passes));
  const int met = most_full_passes(plan.steps, stage);
  const double hotter = c.iron.swing * top_of_swing_met(met) * kelvin_to_degF;
  if (last && hotter >= hotter_told)
    list.push_back(fmt::format(
        "{}: {} full pass{} with a swing of {} leave{} the cloth as {} would, since the "
        "hottest {} counts. That is what is computed here.",
        at, met, met == 1 ? "" : "es", swing_both(c.iron.swing), met == 1 ? "s" : "",
        degrees_both(c.stages[stage].temperature + hotter / kelvin_to_degF), met == 1 ? "moment" : "of them"));
  if (last && passes <= h.open.beyond.size() && h.open.beyond[passes - 1] >= beyond_told)
    list.push_back(fmt::format(
        "{}: {} of the area ends with more than {} of full shrink, for each pass the top of the swing counts "
        "and nothing takes it back. A steadier iron makes this plan surer than care does.",
        at, percent_text(h.open.beyond[passes - 1]), percent_text(1 + c.wanted.done_band)));
  if (last && h.nose && h.nose->least > 0) list.push_back(passes_sentence(c, *h.nose, at + ", over the nose"));
  if (last && !h.short_zones.empty()) {
    std::vector<int> zones;
    for (const ShortZone& z : h.short_zones) zones.push_back(z.zone);
    list.push_back(fmt::format(
        "{}: over the nose the cloth gets {} of full shrink and no more, since the sheet drains the sole: zones {}. "
        "In their turn, begin them when the iron has just clicked off and is at its hottest, in short strips, and go "
        "back over "
        "them at once.",
        at, percent_text(h.short_zones.front().dose), zone_list(plan.panel, zones)));
  }
  for (std::size_t i = 0; i < h.passes.size(); ++i) {
    const PassHeat& p = h.passes[i];
    const bool again = i > 0 && h.passes[i - 1].asked == p.asked && h.passes[i - 1].way == p.way;
    if (p.way == PassWay::hold || again) continue;
    list.push_back(fmt::format(
        "{}, light pass: {} of full shrink is meant; two places in three will have {} to {}{}.", at,
        percent_text(p.open.dose), percent_text(p.open.dose_low), percent_text(p.open.dose_high),
        can_be_had(p)         ? ""
        : yarns_too_unlike(p) ? ", for one yarn begins to shrink later than the other: leave light passes out"
                              : ", which is too unlike to be called light: a steadier iron is needed"));
  }
}

}  // namespace

std::string pass_words(const Plan& plan, int stage, int pass, double dose) {
  constexpr double same_dose = 1e-3;
  const std::string words = dose_words(dose);
  if (stage >= static_cast<int>(plan.heat.size())) return words;
  const auto& passes = plan.heat[static_cast<std::size_t>(stage)].passes;
  const auto i = static_cast<std::size_t>(pass) - 1;
  // Worked with another dose than the pass has: then its way does not hold either.
  if (i >= passes.size() || std::abs(passes[i].asked - dose) > same_dose) return words;
  switch (passes[i].way) {
    case PassWay::touch: return words + ", keep moving";
    case PassWay::setting: return words + ", at " + degrees_f(passes[i].sole_temperature);
    case PassWay::hold: break;
  }
  return words;
}

std::string hold_words(const PassHeat& pass, const Iron& iron) {
  const double along = std::max(iron.sole_length, iron.sole_width),
               across = std::min(iron.sole_length, iron.sole_width);
  std::string text;
  if (pass.way == PassWay::touch) {
    text = fmt::format("keep moving: draw the sole sideways at {}, {} on each spot",
                       speed_both(across / pass.open.contact), seconds(pass.open.contact));
    if (pass.nose) text += fmt::format(", over the nose at {}", speed_both(across / pass.nose->contact));
    return text + ".";
  }
  if (pass.way == PassWay::setting)
    text = fmt::format("set the sole to {} true and ", degrees_both(pass.sole_temperature));
  text += fmt::format("stay {} on each spot (or draw the sole lengthwise at {})", seconds(pass.open.contact),
                      speed_both(along / pass.open.contact));
  if (pass.nose) text += fmt::format(", over the nose {}", seconds(pass.nose->contact));
  return text + ".";
}

std::string dwell_words(const Plan& plan, int stage, const std::vector<int>& passes) {
  if (stage >= static_cast<int>(plan.heat.size())) return "";
  const auto& heats = plan.heat[stage].passes;
  std::string text;
  for (std::size_t i = 0; i < passes.size();) {
    const auto of = [&](std::size_t k) -> std::string {
      const auto n = static_cast<std::size_t>(passes[k]) - 1;
      return n < heats.size() ? hold_words(heats[n], plan.the_case.iron) : "as the list says.";
    };
    std::vector<int> alike{passes[i]};
    std::size_t end = i + 1;
    for (; end < passes.size() && of(end) == of(i); ++end) alike.push_back(passes[end]);
    text += (text.empty() ? "" : " ") + pass_names(alike) + ": " + of(i);
    i = end;
  }
  return text;
}

std::string all_dwell_words(const Plan& plan) {
  std::string text;
  for (int s = 0; s <= plan.ceiling.value_or(-1) && s < static_cast<int>(plan.heat.size()); ++s) {
    std::vector<int> passes;
    for (std::size_t i = 0; i < plan.heat[s].passes.size(); ++i) passes.push_back(static_cast<int>(i) + 1);
    text += fmt::format("{}{}. {}", text.empty() ? "" : " ", degrees_f(plan.the_case.stages[s].temperature),
                        dwell_words(plan, s, passes));
  }
  return text;
}

std::vector<std::string> heat_sentences(const Plan& plan) {
  const Case& c = plan.the_case;
  std::vector<std::string> list;
  const int last = std::min(plan.ceiling.value_or(0), static_cast<int>(plan.heat.size()) - 1);
  if (last < 0) return list;
  list.push_back(
      fmt::format("Dwell is for this sole, cloth of {:.1f} oz/yd² ({:.0f} g/m²) and contact of {:.0f} W/(m² K); "
                  "pressing harder shortens it. Done "
                  "means at least {} of full shrink, with a swing of {}, a hand off by {}, {} of a pass missed and {} "
                  "overlapped.",
                  ounces_per_square_yard(c.cloth.areal_mass), c.cloth.areal_mass * 1000, c.iron.conductance,
                  percent_text(1 - c.wanted.done_band), swing_both(c.iron.swing), percent_text(c.iron.hand_scatter),
                  percent_text(c.iron.missed), percent_text(c.iron.overlap)));
  for (int s = 0; s <= last; ++s) add_stage(list, plan, s, s == last);
  return list;
}

}  // namespace evenpull::viz
