// What the program understood of a case, drawn, so that a mistyped outline is seen before a run.
#pragma once

#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <string>

namespace evenpull {

/// Plan view with members, ribs, stations, supports, zones and dimensions, the profile underneath. A path that ends in
/// .pdf gives a PDF, any other a PNG. Throws CannotWriteFile that names the file when it cannot be written.
void write_survey_picture(const Case& c, const Panel& panel, const std::string& path);

}  // namespace evenpull
