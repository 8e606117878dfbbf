// What the numbers rest on, what they do not cover, and how they were computed: for the record.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// What the numbers rest on: cloth, blanket, ties, iron, doses, supports.
std::vector<std::string> assumptions(const Plan& plan);
/// What the numbers do not cover.
std::vector<std::string> limits_of_validity(const Plan& plan);
/// Size of the model, error bars and residuals.
std::vector<std::string> how_computed(const Plan& plan);
/// Inner ribs free or glued.
std::vector<std::string> bounds_in_words(const Plan& plan);
std::string bounds_title(const Plan& plan);
/// "clamp", "hinge", "sliding hinge", "rest", "horn", "holds".
const char* support_kind_text(SupportKind k);
/// "hinge on the main spar at 10.6 in (270 mm) (holds x, y, z)"
std::string support_words(const Case& c, const Support& support);
/// The same with the station in words of the caller's, as the survey reads it back.
std::string support_words(const Case& c, const Support& s, const std::string& station);
/// Defaults used, a sentence for each table of the case: "iron: swing 20 degF; mass 1.2 kg". Where each comes from is in plan.json.
std::vector<std::string> defaults_by_table(const Plan& plan);
/// "clamp on the nose at 0.0 in (0 mm) and 70.9 in (1800 mm); rest on ..."
std::string held_while_ironed(const Case& c);

}  // namespace evenpull::viz
