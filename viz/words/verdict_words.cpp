#include "viz/words/verdict_words.hpp"

#include "viz/words/after_iron_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {
namespace {

constexpr double hundred = 100, thousand = 1000;

std::string wanted_text(const Chances& k) {
  const double per_hundred = k.damage_wanted * hundred;
  return per_hundred >= 1 ? fmt::format("{:.0f} of 100 is wanted at most", per_hundred)
                          : fmt::format("{:.0f} of 1000 is wanted at most", k.damage_wanted * thousand);
}

}  // namespace

std::string verdict_heading(const Plan& plan) {
  return plan.first_look() && !coats_tauten(plan.the_case)
             ? "First look (nothing is called safe); as stated it holds up to"
             : "Hottest safe stage";
}

std::string verdict_note(const Plan& plan) {
  if (plan.ceiling) return "True sole temperature, by thermometer.";
  if (coats_tauten(plan.the_case))
    return "The coats tauten, and no data say by how much. Do not iron by this plan. No steps are given.";
  return plan.nominal ? "Do not iron yet: measure first. No steps are given."
                      : "Do not iron this panel by this plan. No steps are given.";
}

std::string damage_text(double chance) {
  constexpr double few = 0.0005;  // less than one of a thousand, rounded
  if (chance < few) return "of 1000 jobs like this one fewer than 1 bends something for good";
  const bool rare = chance * hundred < 1;
  const long n = std::lround(chance * (rare ? thousand : hundred));
  return fmt::format("of {} jobs like this one about {} {} something for good", rare ? "1000" : "100", n,
                     n == 1 ? "bends" : "bend");
}

double damage_by(const Plan& plan, int stage) {
  const auto s = static_cast<std::size_t>(stage);
  return plan.read.used && s < plan.read.damage.size() ? plan.read.damage[s] : plan.chances.damage[s].chance();
}

std::string shape_text(const Plan& plan, int stage) {
  const auto s = static_cast<std::size_t>(stage);
  if (plan.read.used && s < plan.read.shape.size()) return percent_text(plan.read.shape[s]);
  const Chance& c = plan.chances.shape[s];
  return fmt::format("{} ({} to {})", percent_text(c.share()), percent_text(c.low), percent_text(c.high));
}

const char* lacking_name(Lacking l) {
  switch (l) {
    case Lacking::as_stated: return "limits as stated";
    case Lacking::tight: return "tight cloth";
    case Lacking::readings: return "readings that fit what was stated";
    case Lacking::damage: return "a small enough chance of damage";
    case Lacking::damage_unknown: return "a known chance of damage";
    case Lacking::shape: return "confidence in the shape";
    case Lacking::coats: return "data of coats that tauten";
  }
  return "";
}

std::string lacking_text(const Plan& plan, const StageSafety& stage) {
  const Chances& k = plan.chances;
  const auto has = [&](Lacking l) {
    return std::find(stage.lacking.begin(), stage.lacking.end(), l) != stage.lacking.end();
  };
  const auto s = static_cast<std::size_t>(stage.stage);
  if (has(Lacking::as_stated) || s >= k.shape.size()) return "";
  std::string text;
  const auto add = [&](const std::string& part) { text += (text.empty() ? "" : ", and ") + part; };
  if (has(Lacking::readings)) add("what was read fits neither what was stated nor itself");
  if (has(Lacking::damage)) add(damage_text(damage_by(plan, stage.stage)) + " (" + wanted_text(k) + ")");
  if (has(Lacking::damage_unknown))
    add("how often something would be bent for good is not known: too few scenarios, or the runs that check the fit "
        "scatter too much about it");
  if (has(Lacking::shape))
    add(fmt::format("only {} keep within every limit of bow, twist and slip ({} is wanted{})",
                    shape_text(plan, stage.stage), percent_text(k.confidence),
                    k.shape[s].share() >= k.confidence ? ", at the low end too" : ""));
  if (text.empty()) return "";
  text = fmt::format("At {} the values as stated hold, but by these spreads {}.",
                     degrees_both(plan.the_case.stages[s].temperature), text);
  // Such chances err to the safe side, and nobody should take them for well known.
  constexpr double good_agreement = 0.75;
  if (has(Lacking::shape) && k.agreement.scenarios > 0 &&
      k.agreement.decisions < good_agreement * k.agreement.scenarios)
    text +=
        fmt::format(" That is poorly known: the quick model behind it agreed with the whole one in {} of {} trials.",
                    k.agreement.decisions, k.agreement.scenarios);
  return text;
}

}  // namespace evenpull::viz
