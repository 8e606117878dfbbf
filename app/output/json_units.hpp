// What SI values are multiplied by on their way into a JSON document.
#pragma once

namespace evenpull {

inline constexpr double mm = 1000;
inline constexpr double percent = 100;

}  // namespace evenpull
