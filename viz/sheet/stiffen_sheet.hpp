// The page of what would buy a stage: the panel from above with each way numbered in its place, and what it brings.
#pragma once

#include "viz/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// From above: x from the leading edge back, y along the span [m].
struct StiffenLine {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  bool edge = false;  ///< of the panel: an edge or an end rib, drawn heavier
};

struct StiffenRow {
  int number = 0;
  bool comes_out = false;
  std::string what, size, stay, result, worse;
  double before = 0, after = 0;  ///< use of the limit; 0: not known, or it gave way
  std::vector<StiffenLine> pieces;
};

struct StiffenSheet {
  std::string title, headline, because;
  std::vector<std::string> warnings, notes;
  std::vector<StiffenLine> panel;
  std::vector<StiffenRow> rows;  ///< the best first
};

/// Throws CannotWriteFile that names the file when it cannot be written.
void write_stiffen_sheet(const StiffenSheet& sheet, Paper paper, const std::string& version, const std::string& path);

}  // namespace evenpull
