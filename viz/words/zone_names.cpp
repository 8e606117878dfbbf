#include "viz/words/zone_names.hpp"

#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {

namespace {

constexpr std::size_t zones_named = 8, zones_listed = 10;

std::vector<std::string> names_of(const Panel& p, const std::vector<int>& zones) {
  const auto of_side = [&](Side side, const std::vector<int>* among) {
    std::vector<int> out;
    for (int z = 0; z < static_cast<int>(p.zones.size()); ++z)
      if (p.zones[z].side == side && (!among || std::find(among->begin(), among->end(), z) != among->end()))
        out.push_back(z);
    return out;
  };
  if (zones.size() == p.zones.size()) return {"all of the cloth"};
  std::vector<std::string> names;
  for (const Side side : {Side::top, Side::bottom}) {
    const std::vector<int> loose = of_side(side, &zones);
    if (loose.size() == of_side(side, nullptr).size())
      names.push_back(side == Side::top ? "all of the top" : "all of the bottom");
    else
      for (int z : loose) names.push_back(p.zones[z].label);
  }
  if (names.size() > zones_named) {
    const std::size_t more = names.size() - zones_named;
    names.resize(zones_named);
    names.push_back(std::to_string(more) + " more");
  }
  return names;
}

}  // namespace

std::string zones_text(const Panel& p, const std::vector<int>& zones) {
  const std::vector<std::string> names = names_of(p, zones);
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i)
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return text;
}

std::string zone_list(const Panel& p, const std::vector<int>& zones) {
  std::string text;
  for (std::size_t i = 0; i < zones.size() && i < zones_listed; ++i) text += (i ? " " : "") + p.zones[zones[i]].label;
  if (zones.size() > zones_listed) text += fmt::format(" and {} more", zones.size() - zones_listed);
  return text;
}

std::string loose_headline(const Plan& plan) { return plan.advice.never_tight ? "NOT TIGHT" : ""; }

std::string loose_sentence(const Plan& plan) {
  if (!plan.advice.loose) return "";
  const LooseCloth& l = *plan.advice.loose;
  std::string text = fmt::format("Loose cloth after {}: {} with next to no pull.", stage_both(plan.the_case, l.stage),
                                 zones_text(plan.panel, l.zones));
  if (l.tight_after)
    text += fmt::format(" Do not stop there: it is tight after {}.", stage_both(plan.the_case, *l.tight_after));
  return text;
}

}  // namespace evenpull::viz
