// What must not be exceeded, when it was read, and the words for both.
#pragma once

namespace evenpull {

/// In the order of their words, so that lists by limit are the same wherever they are made.
enum class Limit { buckling, end_rib_bow, pull_difference, slip, stress, edge_bow, twist, unevenness };

/// When a reading was taken.
enum class Moment { on_the_way, stage_end, released };

/// "buckling", "end rib bow", "pull difference", "slip", "stress", "trailing edge bow", "twist", "unevenness".
const char* limit_text(Limit l);

/// "on the way", "at stage end", "released".
const char* moment_text(Moment m);

}  // namespace evenpull
