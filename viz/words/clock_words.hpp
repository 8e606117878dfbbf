// The work list of a job in words, with its clock. It never says "dry".
#pragma once

#include "shop/job_clock.hpp"
#include "viz/words/work_slip.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull::viz {

/// "9:40", "next day 0:10", "after 14:05" where something before it has no length. `start`: seconds after midnight; none: from
/// the beginning of the job, "0:40 h in".
std::string clock_text(const ClockItem& item, const std::optional<double>& start);

SlipCheck clock_check(const Case& c, const ClockItem& item, const std::optional<double>& start);

/// What the list is made of.
enum class ClockFrom { plan, first_look, nothing };
std::string clock_headline(const std::vector<ClockItem>& items);
std::vector<std::string> clock_warnings(const Adhesive& a, ClockFrom from, bool no_stage);
std::vector<std::string> clock_notes(const Finish& f);

}  // namespace evenpull::viz
