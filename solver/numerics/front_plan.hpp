// How a sparse symmetric matrix is factorised front by front, decided once from its pattern (multifrontal method:
// Duff and Reid 1983; Liu, SIAM Review 34, 1992, from memory). Columns of equal structure are taken together as one
// front, a dense lower triangle whose first columns are final and whose rest is handed to the parent front.
#pragma once

#include "solver/numerics/elimination.hpp"

#include <cstddef>
#include <vector>

namespace evenpull::inline solver {

/// One front: its columns of the factor stand at `panel`, column by column, `height` values each, of which the first
/// `columns` + `below` are meant and the rest is padding. What it hands on is a square of `handed` columns at `stack`.
struct Front {
  int first = 0;    ///< first column, in elimination order
  int columns = 0;  ///< columns eliminated here
  int below = 0;    ///< rows under them
  int handed = 0;   ///< `below` rounded up to whole vectors
  int height = 0;   ///< columns + handed
  int parent = -1;
  std::size_t panel = 0;  ///< offset in the factor
  std::size_t stack = 0;  ///< offset in the workspace
  int rows = 0;           ///< offset in FrontPlan::rows, in_parent and run_end: `below` values
  int entries = 0;        ///< first of its matrix entries in FrontPlan::from and to; ends where the next front's begin
  int first_child = -1;   ///< children are linked by `sibling`
  int sibling = -1;
};

struct FrontPlan {
  /// `lower`: lower triangle of the pattern; values do not matter.
  explicit FrontPlan(const Sparse& lower);

  int size = 0;
  std::vector<int> original;   ///< unknown that is eliminated at each place
  std::vector<Front> fronts;   ///< children before parents; one more at the end, whose `entries` is the total
  std::vector<int> rows;       ///< of each front below its own columns, in elimination order, ascending
  std::vector<int> in_parent;  ///< where each of these rows stands in the parent front
  std::vector<int> run_end;    ///< end of the run of rows (counted within the front) that stay together in the parent
  std::vector<int> from;       ///< positions in the matrix's values
  std::vector<int> to;         ///< where they go within the panel
  std::size_t factor_size = 0, stack_size = 0;
  int tallest = 0;  ///< largest height
};

}  // namespace evenpull::inline solver
