#include "viz/words/heat_words.hpp"

#include "sequencer/replay/full_passes.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

constexpr double kelvin_to_degF = 1.8;
constexpr double risk_told = 0.10;      // chances below are not worth a word: judgement
constexpr double weight_told = 0.03;    // nor inputs that explain less
constexpr double weight_that_leads = 0.3;
constexpr double beyond_told = 0.25;
constexpr double hotter_told = 2;       // °F: less is lost on a thermometer
constexpr double likely = 0.5;
constexpr double over_told = 0.01;      // limits less often broken are not named
constexpr std::size_t zones_named = 10;

std::string seconds(double s) { return s < 10 ? fmt::format("{:.1f} s", s) : fmt::format("{:.0f} s", s); }

std::string chance_words(const Chance& c) {
  return fmt::format("{} ({} to {})", percent_text(c.share()), percent_text(c.low), percent_text(c.high));
}

std::string pass_names(const std::vector<int>& passes) {
  std::string text = "Pass ";
  for (std::size_t i = 0; i < passes.size(); ++i)
    text += (i == 0 ? "" : i + 1 == passes.size() ? " and " : ", ") + std::to_string(passes[i]);
  return text;
}

std::string zone_list(const Plan& plan, const std::vector<int>& zones) {
  std::string text;
  for (std::size_t i = 0; i < zones.size() && i < zones_named; ++i)
    text += (i ? " " : "") + plan.panel.zones[zones[i]].label;
  if (zones.size() > zones_named) text += fmt::format(" and {} more", zones.size() - zones_named);
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
  text += n.least > 0 ? fmt::format("; {} for {} of it.", n.least == 1 ? "one pass does" : fmt::format("{} passes", n.least),
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
  const auto full = std::count_if(h.passes.begin(), h.passes.end(), [](const PassHeat& p) { return p.way == PassWay::hold; });
  if (last && h.open.least > full)
    list.push_back(fmt::format("{}: the plan has {} full pass{}; with this iron {} are needed. State them in the case and run "
                               "it again, or take a steadier iron.",
                               at, full, full == 1 ? "" : "es", h.open.least));
  const auto passes = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(full, 1, most_passes));
  const int met = most_full_passes(plan.steps, stage);
  const double hotter = c.iron.swing * top_of_swing_met(met) * kelvin_to_degF;
  if (last && hotter >= hotter_told)
    list.push_back(fmt::format("{}: {} full pass{} with a swing of {} leave{} the cloth as {} would, since the "
                               "hottest {} counts. That is what is computed here.",
                               at, met, met == 1 ? "" : "es", swing_both(c.iron.swing), met == 1 ? "s" : "",
                               degrees_both(c.stages[stage].temperature + hotter / kelvin_to_degF), met == 1 ? "moment" : "of them"));
  if (last && passes <= h.open.beyond.size() && h.open.beyond[passes - 1] >= beyond_told)
    list.push_back(fmt::format("{}: {} of the area ends with more than {} of full shrink, for each pass the top of the swing counts "
                               "and nothing takes it back. A steadier iron makes this plan surer than care does.",
                               at, percent_text(h.open.beyond[passes - 1]), percent_text(1 + c.wanted.done_band)));
  if (last && h.nose && h.nose->least > 0) list.push_back(passes_sentence(c, *h.nose, at + ", over the nose"));
  if (last && !h.short_zones.empty()) {
    std::vector<int> zones;
    for (const ShortZone& z : h.short_zones) zones.push_back(z.zone);
    list.push_back(fmt::format(
        "{}: over the nose the cloth gets {} of full shrink and no more, since the sheet drains the sole: zones {}. "
        "Work them first while the iron is at its hottest, in short strips, and go back over them at once.",
        at, percent_text(h.short_zones.front().dose), zone_list(plan, zones)));
  }
  for (std::size_t i = 0; i < h.passes.size(); ++i) {
    const PassHeat& p = h.passes[i];
    const bool again = i > 0 && h.passes[i - 1].asked == p.asked && h.passes[i - 1].way == p.way;
    if (p.way == PassWay::hold || again) continue;
    list.push_back(fmt::format("{}, light pass: {} of full shrink is meant; two places in three will have {} to {}{}.", at,
                               percent_text(p.open.dose), percent_text(p.open.dose_low), percent_text(p.open.dose_high),
                               can_be_had(p)          ? ""
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
  const double along = std::max(iron.sole_length, iron.sole_width), across = std::min(iron.sole_length, iron.sole_width);
  std::string text;
  if (pass.way == PassWay::touch) {
    text = fmt::format("keep moving: draw the sole sideways at {}, {} on each spot", speed_both(across / pass.open.contact),
                       seconds(pass.open.contact));
    if (pass.nose) text += fmt::format(", over the nose at {}", speed_both(across / pass.nose->contact));
    return text + ".";
  }
  if (pass.way == PassWay::setting) text = fmt::format("set the sole to {} true and ", degrees_both(pass.sole_temperature));
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
  list.push_back(fmt::format(
      "Dwell is for this sole, cloth of {:.1f} oz/yd² ({:.0f} g/m²) and contact of {:.0f} W/(m² K); pressing harder shortens it. Done "
      "means at least {} of full shrink, with a swing of {}, a hand off by {}, {} of a pass missed and {} "
      "overlapped.",
      c.cloth.areal_mass / 0.0339057, c.cloth.areal_mass * 1000, c.iron.conductance, percent_text(1 - c.wanted.done_band),
      swing_both(c.iron.swing), percent_text(c.iron.hand_scatter), percent_text(c.iron.missed),
      percent_text(c.iron.overlap)));
  for (int s = 0; s <= last; ++s) add_stage(list, plan, s, s == last);
  return list;
}

namespace {

std::string governing_text(const Chances& k) { return k.governing ? limit_text(*k.governing) : ""; }

// What the governing use hangs on says nothing about a limit that is broken more often.
std::string what_spoils_it(const Chances& k, int stage) {
  const LimitChance* often = nullptr;
  for (const LimitChance& l : k.limits)
    if (l.stage == stage && l.over.share() >= over_told && (!often || l.over.hits > often->over.hits)) often = &l;
  if (often && often->limit != k.governing)
    return fmt::format(" Most often over its limit: {}, {}.{}", limit_text(often->limit), percent_text(often->over.share()),
                       often->limit == Limit::unevenness ? " A steadier iron evens the pull." : "");
  if (k.weights.empty() || k.weights.front().share < weight_that_leads) return "";
  return fmt::format(" It hangs most on the {}: measure that first.", k.weights.front().name);
}

}  // namespace

std::string sure_words(const Plan& plan) {
  const Chances& k = plan.chances;
  if (k.scenarios == 0 || k.holds.empty()) return "";
  const int stage = std::min(plan.ceiling.value_or(0), static_cast<int>(k.holds.size()) - 1);
  std::string text;
  if (plan.ceiling && k.holds[stage].share() < likely)
    text = "AS STATED, MORE LIKELY THAN NOT SOME LIMIT IS PASSED: measure cloth and iron before you start. ";
  text += fmt::format("Chance that every limit holds {} {}: {}.", plan.ceiling ? "up to" : "at",
                      degrees_f(plan.the_case.stages[stage].temperature), chance_words(k.holds[stage]));
  if (plan.ceiling && k.ceiling.value_or(-1) < *plan.ceiling)
    text += k.ceiling ? fmt::format(" Asking for {}: up to {} only.", percent_text(k.confidence),
                                    degrees_f(plan.the_case.stages[*k.ceiling].temperature))
                      : fmt::format(" At no stage is it {}.", percent_text(k.confidence));
  return k.holds[stage].share() < k.confidence ? text + what_spoils_it(k, stage) : text;
}

std::vector<RiskyZone> risky_zones(const Plan& plan, bool slides, double least) {
  std::vector<RiskyZone> out;
  for (std::size_t z = 0; z < plan.chances.zones.size(); ++z) {
    const ZoneRisk& r = plan.chances.zones[z];
    const double risk = (slides ? r.slides : r.uneven).share();
    if (risk >= least) out.push_back({static_cast<int>(z), risk});
  }
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.risk > b.risk; });
  return out;
}

std::vector<std::string> sure_sentences(const Plan& plan) {
  const Chances& k = plan.chances;
  const Case& c = plan.the_case;
  if (k.scenarios == 0)
    return {plan.quick() ? "Not studied in a quick plan." : "Not studied: the case asks for no scenarios."};
  std::vector<std::string> list;
  for (std::size_t s = 0; s < k.holds.size(); ++s) {
    std::string over;
    for (const LimitChance& l : k.limits)
      if (l.stage == static_cast<int>(s) && l.over.share() >= over_told)
        over += fmt::format("{}{} {}", over.empty() ? "" : ", ", limit_text(l.limit), chance_words(l.over));
    list.push_back(fmt::format("If you stop after {}, every limit holds: {}{}.", degrees_f(c.stages[s].temperature),
                               chance_words(k.holds[s]), over.empty() ? "" : "; over its limit there: " + over));
  }
  list.push_back(k.ceiling ? fmt::format("Hottest stage at {} confidence: {}.", percent_text(k.confidence),
                                         degrees_f(c.stages[*k.ceiling].temperature))
                           : fmt::format("At {} confidence no stage is safe: measure first.", percent_text(k.confidence)));
  std::string weights;
  for (const InputWeight& w : k.weights)
    if (w.share >= weight_told)
      weights += fmt::format("{}{} ({}): {} ({} to {})", weights.empty() ? "" : "; ", w.name, w.spread, percent_text(w.share),
                             percent_text(w.low), percent_text(w.high));
  if (!weights.empty())
    list.push_back(fmt::format("What the {} at {} hangs on, as shares of its variance: {}. Measure the first of them next.",
                               governing_text(k), degrees_f(c.stages[k.governing_stage].temperature), weights));
  for (const bool slides : {false, true}) {
    const auto risky = risky_zones(plan, slides, risk_told);
    std::vector<int> zones;
    for (const RiskyZone& r : risky) zones.push_back(r.zone);
    if (zones.empty())
      list.push_back(slides ? "No zone has a chance of 10 % of sliding too far."
                            : fmt::format("No zone has a chance of 10 % of pulling {} off the mean.", percent_text(c.wanted.uneven_share)));
    else
      list.push_back(fmt::format("{}: {}; at worst {}.",
                                 slides ? fmt::format("Cloth may slide by more than {}", small_length_both(c.wanted.slide.value_or(c.limits.slip)))
                                        : fmt::format("Pull may end more than {} off the mean", percent_text(c.wanted.uneven_share)),
                                 zone_list(plan, zones), percent_text(risky.front().risk)));
  }
  list.push_back(fmt::format(
      "From {} ways the job may turn out, on a reduced model of {} cloth points set right by the full one. On {} of them run "
      "through the full model its {} was off by {:.1f} % (rms), and {} of {} agreed on whether all holds. In brackets: 95 % "
      "interval of the sampling.",
      k.scenarios, k.nodes, k.agreement.scenarios, governing_text(k), 100 * k.agreement.rms, k.agreement.decisions,
      k.agreement.scenarios));
  return list;
}

}  // namespace evenpull::viz
