// The half page of `tap`: what each bay read, its pull, and where it lies on the panel.
#pragma once

#include "viz/sheet/sheet.hpp"
#include "viz/words/tap_words.hpp"

#include <string>

namespace evenpull {

/// Half a sheet of letter or A4. Throws CannotWriteFile that names the file when it cannot be written.
void write_tap_slip(const TapTold& told, const Panel& panel, Paper paper, const std::string& version,
                    const std::string& path);

}  // namespace evenpull
