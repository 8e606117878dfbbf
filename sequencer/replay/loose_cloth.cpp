#include "sequencer/replay/loose_cloth.hpp"

#include "sequencer/plan/temperature_text.hpp"


#include <algorithm>

namespace evenpull {
namespace {

constexpr std::size_t zones_named = 8;

std::vector<std::string> names_of(const Panel& p, const std::vector<int>& zones) {
  const auto of_side = [&](Side side, const std::vector<int>* among) {
    std::vector<int> out;
    for (int z = 0; z < static_cast<int>(p.zones.size()); ++z)
      if (p.zones[z].side == side && (!among || std::find(among->begin(), among->end(), z) != among->end())) out.push_back(z);
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

void add_zones(std::vector<int>& zones, const std::vector<int>& more) {
  zones.insert(zones.end(), more.begin(), more.end());
  std::sort(zones.begin(), zones.end());
  zones.erase(std::unique(zones.begin(), zones.end()), zones.end());
}

bool is_loose(const StageVerdict& v) { return !v.summary.loose_zones.empty(); }

std::string zones_text(const Panel& p, const std::vector<int>& zones) {
  const std::vector<std::string> names = names_of(p, zones);
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i)
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return text;
}

std::string loose_sentence(const Case& c, const Panel& p, const StageSummary& s) {
  return "Loose cloth after " + temperature_text(c.stages[s.stage].temperature) + ": " + zones_text(p, s.loose_zones) +
         " with next to no pull.";
}

}  // namespace evenpull
