#include "viz/words/sure_words.hpp"

#include "viz/words/limit_words.hpp"
#include "viz/words/verdict_words.hpp"
#include "viz/words/wording.hpp"
#include "viz/words/zone_names.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

constexpr double risk_told = 0.10;    // chances below are not worth a word: judgement
constexpr double weight_told = 0.03;  // nor inputs that explain less
constexpr double over_told = 0.01;    // limits less often broken are not named

std::string chance_words(const Chance& c) {
  return fmt::format("{} ({} to {})", percent_text(c.share()), percent_text(c.low), percent_text(c.high));
}

std::string governing_text(const Chances& k) { return k.governing ? limit_text(*k.governing) : ""; }

}  // namespace

std::string sure_words(const Plan& plan) {
  const Chances& k = plan.chances;
  if (!plan.ceiling || k.scenarios == 0 || k.shape.empty()) return "";
  if (plan.advice.up_to == Advice::UpTo::done) return "";  // what is past is not judged
  const auto s = static_cast<std::size_t>(std::min(*plan.ceiling, static_cast<int>(k.shape.size()) - 1));
  return fmt::format("How sure: by these spreads{} {}, and {} keep within every limit of bow, twist and slip.",
                     plan.read.used ? " and what you read" : "", damage_text(damage_by(plan, static_cast<int>(s))),
                     shape_text(plan, static_cast<int>(s)));
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
    list.push_back(
        fmt::format("If you stop after {}: {}; within every limit of bow, twist and slip {}; within every limit, the "
                    "reserve of strength and "
                    "the evenness wanted too, {}{}.",
                    degrees_f(c.stages[s].temperature), damage_text(k.damage[s].chance()), chance_words(k.shape[s]),
                    chance_words(k.holds[s]), over.empty() ? "" : "; over its limit there: " + over));
  }
  std::string weights;
  for (const InputWeight& w : k.weights)
    if (w.share >= weight_told)
      weights += fmt::format("{}{} ({}): {} ({} to {})", weights.empty() ? "" : "; ", unsure_text(w.input),
                             spread_text(w), percent_text(w.share), percent_text(w.low), percent_text(w.high));
  if (!weights.empty())
    list.push_back(
        fmt::format("What the {} at {} hangs on, as shares of its variance: {}. Measure the first of them next.",
                    governing_text(k), degrees_f(c.stages[k.governing_stage].temperature), weights));
  for (const bool slides : {false, true}) {
    const auto risky = risky_zones(plan, slides, risk_told);
    std::vector<int> zones;
    for (const RiskyZone& r : risky) zones.push_back(r.zone);
    if (zones.empty())
      list.push_back(slides ? "No zone has a chance of 10 % of sliding too far."
                            : fmt::format("No zone has a chance of 10 % of pulling {} off the mean.",
                                          percent_text(c.wanted.uneven_share)));
    else
      list.push_back(fmt::format(
          "{}: {}; at worst {}.",
          slides ? fmt::format("Cloth may slide by more than {}",
                               small_length_both(c.wanted.slide.value_or(c.limits.slip)))
                 : fmt::format("Pull may end more than {} off the mean", percent_text(c.wanted.uneven_share)),
          zone_list(plan.panel, zones), percent_text(risky.front().risk)));
  }
  if (k.edge.runs > 0)
    list.push_back(
        fmt::format("The chance of damage comes from a fit to these; {} runs drawn where the fit puts the edge came "
                    "out {:+.1f} % off it in the "
                    "mean and scatter by {:.1f} % (the others about it by {:.1f} %){}.",
                    k.edge.runs, 100 * k.edge.mean, 100 * k.edge.scatter, 100 * k.edge.fit_scatter,
                    k.edge.shift > 0 ? fmt::format("; it is raised by {:.1f} %", 100 * k.edge.shift) : ""));
  list.push_back(fmt::format(
      "From {} ways the job may turn out, on a reduced model of {} cloth points set right by the full one. "
      "On {} of them run zone by zone on {} points its {} was off by {:.1f} % (rms), and {} of {} agreed on "
      "whether all holds. In brackets: 95 % interval of the sampling.",
      k.scenarios, k.nodes, k.agreement.scenarios, k.agreement.nodes, governing_text(k), 100 * k.agreement.rms,
      k.agreement.decisions, k.agreement.scenarios));
  return list;
}

const char* unsure_text(Unsure u) {
  switch (u) {
    case Unsure::free_shrink: return "free shrink of the cloth";
    case Unsure::pull: return "pull of the cloth";
    case Unsure::cloth_stiffness: return "stiffness of the cloth";
    case Unsure::member_stiffness: return "stiffness of the members";
    case Unsure::friction: return "friction";
    case Unsure::looseness: return "looseness of the cloth as laid on";
    case Unsure::half_time: return "how fast the cloth heats and shrinks";
    case Unsure::sole: return "true temperature of the sole";
    case Unsure::joints: return "turning of the joints and give of the supports";
  }
  return "";
}

std::string spread_text(const InputWeight& w) {
  if (w.input == Unsure::joints) return "over their range";
  if (w.input == Unsure::sole) return fmt::format("± {} °F", std::lround(w.spread * kelvin_to_degF));
  return fmt::format("± {} %", std::lround(100 * w.spread));
}

}  // namespace evenpull::viz
