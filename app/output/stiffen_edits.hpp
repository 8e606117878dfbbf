// A way of stiffening as it is put into the text of a case.
#pragma once

#include "app/output/case_edit.hpp"
#include "shop/stiffen/candidate.hpp"

#include <vector>

namespace evenpull {

/// `c`: the case as it is. Throws CannotEdit for what this program does not put into a text.
std::vector<CaseEdit> edits_of(const Case& c, const Candidate& k);

}  // namespace evenpull
