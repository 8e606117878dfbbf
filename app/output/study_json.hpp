// Error bars and what they rest on, as JSON.
#pragma once

#include "app/output/json_number.hpp"
#include "sequencer/plan/plan.hpp"

namespace evenpull {

/// quick, normal or fine.
const char* accuracy_word(Accuracy a);

/// Levels, approach, order and bars of one number, multiplied by `unit`; null where it was not studied.
Json study_json(const NumberStudy& s, double unit = 1);

/// The bar alone; null where it was not studied, or where the frame gave way in a study run.
Json error_bar_json(const NumberStudy& s, double unit = 1);

/// The runs behind the error bars.
Json study_levels_json(const Plan& p);

}  // namespace evenpull
