#include "sequencer/planner/verdict.hpp"

#include "sequencer/replay/ceiling.hpp"
#include "sequencer/sure/safety.hpp"

#include <algorithm>
#include <utility>

namespace evenpull::inline sequencer {

Verdict judge_order(const PlanJob& job, const Panel& p, const Tried& order, StudyRuns study) {
  Verdict v{study_order(job, p, order, std::move(study)), {}};
  v.nominal = stage_ceiling(v.studied.stages, true);
  if (!job.quick()) {
    job.meter.begin(PlanPart::chances, 1);
    ChanceStudy chances = study_chances(job.the_case, order.result.planned, v.studied.stages, order.result.stages,
                                        v.nominal, job.options.parallel, job.options.kept, job.meter.job(0));
    v.chances = std::move(chances.chances);
    v.outcomes = std::move(chances.outcomes);
  }
  v.safety = stage_safety(v.studied.stages, v.chances);
  return v;
}

std::optional<int> held_back_by_chance(const Verdict& v) {
  const int next = v.ceiling().value_or(-1) + 1;
  if (!v.nominal || next > *v.nominal || next >= static_cast<int>(v.safety.size())) return {};
  const std::vector<Lacking>& lacking = v.safety[static_cast<std::size_t>(next)].lacking;
  const auto by_chance = [](Lacking l) { return l == Lacking::damage || l == Lacking::shape; };
  return !lacking.empty() && std::all_of(lacking.begin(), lacking.end(), by_chance) ? std::optional(next)
                                                                                    : std::nullopt;
}

}  // namespace evenpull::inline sequencer
