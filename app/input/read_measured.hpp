// What was read after stages that are done, as the table `measured` of an order file states it.
#pragma once

#include "app/input/case_table.hpp"
#include "sequencer/orders/order_steps.hpp"
#include "sequencer/plan/window.hpp"

#include <string>
#include <vector>

namespace evenpull {

// Beyond these it is another unit, or no sag under a weight.
inline constexpr Range weight_range{0.02, 10, "what stands on the lid, usually 0.1 to 2 kg"};
inline constexpr Range sag_range{0.0001, 0.05, "with the weight less without, usually 1 to 10 mm"};
/// Of a bow, a twist over the chord, or a slip; none is 0.
inline constexpr Range shape_range{0, 0.1, "less what the bare frame read, usually up to 5 mm"};

/// The stage of the case that `key` of this table names. Throws CaseFileError where it names none.
int stage_index(const CaseTable& t, const Case& c, const std::string& key = "stage");

/// What a reading of the shape is called in files, in the order of shape_limits.
const std::vector<std::string>& shape_names();
std::string shape_name(Limit limit);
/// Of the name at this place.
Limit shape_limit(std::size_t name);

/// Each is a sag of a bay under a weight, the tone of a tap on it, or a shape (bow, twist, slip) of the whole panel. Only of stages that are done: what is
/// read amid a stage says nothing of its end. Throws CaseFileError.
std::vector<Measured> read_measured(const CaseTable& top, const Case& c, const std::vector<OrderStep>& steps,
                                    const std::vector<bool>& done);

/// Readings as lines of an order file.
std::vector<std::string> measured_lines(const Case& c, const std::vector<Measured>& readings);
std::vector<std::string> measured_lines(const Plan& plan);

}  // namespace evenpull
