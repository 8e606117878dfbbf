#include "sequencer/sure/safety.hpp"

#include "sequencer/replay/ceiling.hpp"
#include "sequencer/replay/loose_cloth.hpp"

namespace evenpull::inline sequencer {

bool damage_is_rare(const Chances& k, int stage) {
  const DamageChance& d = k.damage[static_cast<std::size_t>(stage)];
  return d.known && d.chance() <= k.damage_wanted;
}

bool shape_is_sure(const Chances& k, int stage) { return k.shape[static_cast<std::size_t>(stage)].low >= k.confidence; }

bool shape_is_open(const Chances& k, int stage) {
  const Chance& c = k.shape[static_cast<std::size_t>(stage)];
  return c.low < k.confidence && c.high >= k.confidence;
}

std::vector<StageSafety> stage_safety(const std::vector<StageVerdict>& judged, const Chances& k) {
  std::vector<StageSafety> out;
  bool holds = true;
  for (const StageVerdict& v : judged) {
    StageSafety s;
    s.stage = v.stage;
    holds = holds && !breaks_history(v, true);
    if (!holds) s.lacking.push_back(Lacking::as_stated);
    if (is_loose(v)) s.lacking.push_back(Lacking::tight);
    if (holds && k.scenarios > 0 && v.stage < static_cast<int>(k.shape.size())) {
      if (!k.damage[static_cast<std::size_t>(v.stage)].known) s.lacking.push_back(Lacking::damage_unknown);
      else if (!damage_is_rare(k, v.stage)) s.lacking.push_back(Lacking::damage);
      if (!shape_is_sure(k, v.stage)) s.lacking.push_back(Lacking::shape);
    }
    out.push_back(std::move(s));
  }
  return out;
}

}  // namespace evenpull::inline sequencer
