// Usual sizes of what stiffens a panel, as shops keep them [m]. Common practice, no source; which of them is offered is
// judgement.
#pragma once

#include <array>

namespace evenpull::usual_sizes {

constexpr double inch = 0.0254;

/// Spruce batten clamped outside an end rib: across (in the panel's plane) and upright.
constexpr double outside_width = 1.5 * inch, outside_height = 0.75 * inch;
/// One that stays along an end rib.
constexpr double end_width = 0.75 * inch, end_height = 0.5 * inch;
/// Within the fold of the cloth along a trailing edge: lying.
constexpr double edge_width = 0.75 * inch, edge_height = 0.25 * inch;
/// Blocks and bridges: square wood, or round tube.
constexpr double block_side = 0.5 * inch, block_tube = 0.5 * inch, tube_wall = 0.035 * inch;
/// A strip through ribs.
constexpr double strip_width = 0.25 * inch, strip_height = 0.75 * inch, strip_tube = 0.375 * inch;

/// From which the next one is taken.
constexpr std::array<double, 9> tubes{0.25 * inch,  0.375 * inch, 0.5 * inch,  0.625 * inch, 0.75 * inch,
                                      0.875 * inch, 1.0 * inch,   1.25 * inch, 1.5 * inch};
constexpr std::array<double, 8> sheets{0.016 * inch, 0.020 * inch, 0.025 * inch, 0.032 * inch,
                                       0.040 * inch, 0.050 * inch, 0.063 * inch, 0.080 * inch};
constexpr std::array<double, 9> sticks{0.125 * inch, 0.1875 * inch, 0.25 * inch, 0.375 * inch, 0.5 * inch,
                                       0.625 * inch, 0.75 * inch,   1.0 * inch,  1.25 * inch};

/// A size within so much of one that is sold is that one.
constexpr double same_size = 0.03;

}  // namespace evenpull::usual_sizes
