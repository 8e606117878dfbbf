// What comes after the iron and is not computed: coats, sun, wood that gives under lasting pull.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// The coats to come tauten: there are no data, and so no verdict.
bool coats_tauten(const Case& c);
/// In place of a stage where there is none: "NONE", or "NO VERDICT" where the coats tauten.
std::string no_stage_text(const Plan& plan);
/// What the plan does not know of the time after the iron; of wood also what is counted of its creep. Never empty.
std::vector<std::string> after_iron_sentences(const Case& c);
/// The same for a screen, which is short; empty where the verdict says it.
std::string after_iron_in_short(const Case& c);
/// By how much a twist may grow when the pull lasts: the most of all members and ribs; 1: not at all.
double lasting_of_frame(const Case& c);

}  // namespace evenpull::viz
