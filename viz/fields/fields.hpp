// Fields for a viewer of VTK files; what each array means is in docs/fields.md.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull {

/// Writes fields.pvd and, in the folder fields/, top_NNN.vtu, bottom_NNN.vtu (skins), frame_NNN.vtu and iron_NNN.vtu (the zone just ironed)
/// for each snapshot.
/// Beside them, for each stage with a buckling shape, buckling_<stage>_cloth.vtu and buckling_<stage>_frame.vtu.
/// `directory` must exist; fields.pvd is written last. Throws CannotWriteFile that names the file when one cannot be written,
/// CannotDraw with the snapshot and array when a value is not a number.
void write_fields(const Plan& plan, const std::string& directory);

}  // namespace evenpull
