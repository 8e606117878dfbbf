// The offline page: the panel in three dimensions, the order as a checklist, a timer. One file that needs nothing else.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull {

/// Writes plan.html, whole or not at all; two runs of the same plan give the same bytes. Only steps up to the ceiling
/// can be ticked off, none without one; hotter ones can be looked at and are marked. Throws CannotWriteFile that
/// names the file when it cannot be written.
void write_page(const Plan& plan, const std::string& version, const std::string& path);

}  // namespace evenpull
