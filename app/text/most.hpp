// The most that a file may hold: ours, far beyond any panel, and small enough that whatever is read is read at once.
#pragma once

#include <cstddef>

namespace evenpull::most {

constexpr std::size_t file_bytes = 4 * 1024 * 1024;
constexpr std::size_t string_letters = 2000, title_letters = 200, name_letters = 80, quantity_letters = 60;
constexpr std::size_t key_parts = 8, nesting = 8;                  ///< the formats need 4
constexpr std::size_t case_values = 10000, order_values = 400000;  ///< all keys and list entries of a file

constexpr std::size_t members = 40, braces = 200, battens = 40, supports = 200, places_of_a_support = 100, motions = 6;
constexpr std::size_t changes = 12;  ///< of a member's shape along the span
constexpr std::size_t attachments = 200;
constexpr std::size_t pockets = 6, hinge_gaps = 12;
constexpr std::size_t bays = 60, ribs = bays + 1;
constexpr std::size_t outline_points = 200, profile_points = 200;
constexpr std::size_t curve_points = 40, materials = 60;
constexpr std::size_t stages = 8, passes = 12;
constexpr std::size_t marks = 24, readings_of_a_mark = 100;
constexpr std::size_t order_steps = 20000;

constexpr std::size_t tap_readings = 240;  ///< every bay of a panel on both sides, twice
constexpr std::size_t recording_bytes = 40000000, plan_bytes = 200000000;  ///< of a recording of taps, of a plan.json
constexpr int recording_seconds = 120;

}  // namespace evenpull::most
