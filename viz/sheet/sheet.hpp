// The printed plan: made for a bench, read at arm's length, black-and-white safe, ticked off with a pencil.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull {

enum class Paper { letter, a4 };

/// Writes plan.pdf, whole or not at all; two runs of the same plan give the same bytes. Ironing steps are printed up to
/// the ceiling only, none without one. `version` is printed in the foot line. Throws CannotWriteFile that names the
/// file when it cannot be written.
void write_sheet(const Plan& plan, Paper paper, const std::string& version, const std::string& path);

}  // namespace evenpull
