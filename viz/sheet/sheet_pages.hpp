// The pages of the sheet, each drawn by a file of its own.
#pragma once

#include "viz/sheet/sheet_frame.hpp"
#include "viz/words/runs.hpp"

namespace evenpull::viz {

/// Page 1: the answer, why, the order at a glance, the worst numbers, the cautions.
void draw_answer_page(Sheet& sheet);
/// What to iron at this stage in this order, with boxes to tick.
void draw_work_page(Sheet& sheet, int stage, const StageOrder& order, bool only_order_of_stage);
/// What to check after the stage, the pull to expect, room for what was measured.
void draw_check_page(Sheet& sheet, int stage);
/// What readings after the stage decide on going on; only where there is such a window.
void draw_go_on_page(Sheet& sheet, int stage);
/// Limits, orders, assumptions, defaults, bounds, validity, notes; as many pages as they take.
void draw_record_pages(Sheet& sheet);

}  // namespace evenpull::viz
