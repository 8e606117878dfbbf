// The sizes of a section: read, and held against each other. What they do in the place where they stand is asked later
// (check_make.cpp, depth_doubts.cpp).
#pragma once

#include "app/input/case_parts.hpp"

namespace evenpull {

/// Shape, sizes and sizes as written, of the table `section` of `owner`; the material is left open but for that of a
/// web.
MemberMake read_section(const CaseTable& owner, MaterialShelf& shelf);

/// Refuses sizes that no section can have; `section` is the table that states them.
void check_sizes(const CaseTable& section, const SectionShape& shape);

/// Shapes of a span member beyond stations, `along = [{ from = "900 mm", section = { ... } }, ...]`, put into `make`.
void read_changes(const CaseTable& member, MemberMake& make, double span, MaterialShelf& shelf);

}  // namespace evenpull
