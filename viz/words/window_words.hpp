// Going on to the next stage by what was read, in words for the bench.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// "Top, bay 1".
std::string window_bay(const BayWindow& b);
/// "0.12 to 0.26 in (3.1 to 6.8 mm)": each end rounded inward.
std::string window_range(const BayWindow& b);
std::string window_inches(const BayWindow& b);
std::string window_millimetres(const BayWindow& b);
/// Of all its bays.
std::string window_expected_all(const StageWindow& w);

/// What decides, what to do with less and with more; empty: nothing to read before going on.
std::vector<std::string> window_rules(const Plan& plan, const StageWindow& w);
/// Outcomes to tick.
std::vector<std::string> window_outcomes(const Plan& plan, const StageWindow& w);

/// What the page answers to what is typed in.
enum class WindowSays { inside, less, more, not_believed };
std::string window_said(const Plan& plan, const StageWindow& w, WindowSays what);

/// Over the steps of a stage that only readings open; empty for any other.
std::string stage_condition(const Plan& plan, int stage);
/// Beside the verdict: the stage beyond it that readings may open; empty: none.
std::string opens_sentence(const Plan& plan);
/// What readings that were given say; empty: there were none.
std::vector<std::string> read_sentences(const Plan& plan);

}  // namespace evenpull::viz
