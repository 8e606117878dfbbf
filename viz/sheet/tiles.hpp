// A drawing at its true size on many sheets of paper, to be laid edge on edge.
#pragma once

#include "viz/kit/one_to_one.hpp"
#include "viz/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// Sheets that no line crosses are left out. Each bears its place, lines on which neighbours meet with a mark in their
/// middles, and the bar by which the print is checked. Throws CannotWriteFile that names the file when it cannot be written.
void write_tiles(const std::vector<viz::TrueDrawing>& drawings, Paper paper, const std::string& version,
                 const std::string& path);

}  // namespace evenpull
