// How far edges, end ribs and the line of the hinges stand from straight, and what is allowed of it (docs/model.md,
// section 7).
#pragma once

#include "solver/readings/readings.hpp"

namespace evenpull::inline solver {

/// Bow allowed of a piece of this length [m], as a share of it: what is no matter however short the piece counts too.
double allowed_bow(const Limits& l, double length);

/// Index of the span member whose bow between the hinges is read: the one that is said to carry them, else the first on
/// which the panel hangs by two or more in use; -1: none.
int hinge_line_member(const Case& c);

/// Fills in everything of the bows. Bows are read at once; of a material that gives under lasting pull `lasting` says by how
/// much they grow.
void read_bows(const Model& m, const Covering& s, Readings& r);

}  // namespace evenpull::inline solver
