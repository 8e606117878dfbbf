// A slip of the bench on paper: half a sheet, or a whole one where there is much to tick.
#pragma once

#include "viz/sheet/sheet.hpp"
#include "viz/words/work_slip.hpp"

#include <string>

namespace evenpull {

enum class SlipSize { half_sheet, whole_sheet };

/// Letter or A4; runs on over further pages. Throws CannotWriteFile that names the file when it cannot be written.
void write_work_slip(const WorkSlip& slip, Paper paper, SlipSize size, const std::string& version,
                     const std::string& path);

}  // namespace evenpull
