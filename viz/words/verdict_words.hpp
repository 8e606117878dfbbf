// The one verdict in words: sheet, page, terminal and record say the same.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Over the answer: "Hottest safe stage", or that this is a first look, which calls nothing safe.
std::string verdict_heading(const Plan& plan);

/// Under it: by thermometer; without a stage, that nothing is to be ironed yet.
std::string verdict_note(const Plan& plan);

/// A chance of damage as a mechanic says it: "of 100 jobs like this one about 3 bend something for good".
std::string damage_text(double chance);

/// Chance of damage by the end of a stage that was studied, given what was read if something was.
double damage_by(const Plan& plan, int stage);
/// Chance of keeping the shape until then: "98 % (95 % to 100 %)"; given readings without the interval.
std::string shape_text(const Plan& plan, int stage);

/// One word or two for what a stage lacks.
const char* lacking_name(Lacking l);

/// What stands against a stage though it holds as stated; empty: nothing, or that it does not hold.
std::string lacking_text(const Plan& plan, const StageSafety& stage);

}  // namespace evenpull::viz
