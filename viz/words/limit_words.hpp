// Limits, where and when they were read, and their values in the unit that suits each.
#pragma once

#include "sequencer/plan/limit.hpp"
#include "solver/geometry/panel.hpp"

#include <string>

namespace evenpull::viz {

/// "buckling", "end rib bow", "pull difference", "slip", "stress", "trailing edge bow", "twist", "unevenness".
const char* limit_text(Limit l);
/// The same of a reading, with what makes it another one: "stress beside a weld", "stress in compression".
std::string limit_text(const LimitReading& reading);
/// "on the way", "at stage end", "released".
const char* moment_text(Moment m);
/// The SI unit of its values: "Pa", "m", "rad", "N/m", "1".
const char* limit_unit(Limit l);
/// "trailing edge at 35.4 in (900 mm) from the root", "rib 3, 40 % of its length aft", "whole panel".
std::string place_text(const Panel& p, const Place& at);

std::string use_text(double use, double plus_minus);  ///< "0.83 ± 0.02", the bar rounded up; "0.83" without one
/// Whether the joints at the worse end of their range bring more use than can be left unsaid.
bool joints_matter(const LimitReading& reading);
std::string use_text(const LimitReading& reading);  ///< the same of a limit; "over" where the frame gave way
/// The value of a limit in the unit that suits its kind, of wood as it will be in time; "gave way" where the frame did.
std::string limit_value(const LimitReading& reading);
/// Any value of that kind.
std::string limit_value(const LimitReading& reading, double value);
/// The allowed value, with its sense where it is a least one: "0.12 in (3.0 mm)", "at least 2.0".
std::string limit_allowed(const LimitReading& reading);

}  // namespace evenpull::viz
