// What the iron has to do and how sure the plan is, as JSON (docs/plan-json.md).
#pragma once

#include "app/output/json_number.hpp"
#include "sequencer/plan/plan.hpp"

namespace evenpull {

/// Stages with their passes and the number of passes it takes.
Json heat_json(const Plan& p);
/// Chances, what matters most, zones at risk; null without a study.
Json chances_json(const Plan& p);
/// Contact time of a step over an open bay, and over the nose (null where the zone has none).
Json dwell_json(const Plan& p, const Step& s);
Json nose_dwell_json(const Plan& p, const Step& s);

}  // namespace evenpull
