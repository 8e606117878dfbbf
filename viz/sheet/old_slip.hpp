// The half page on cloth that was ironed before, or on a patch.
#pragma once

#include "viz/sheet/sheet.hpp"
#include "viz/words/old_words.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct OldSlip {
  std::string name;  ///< "Cloth ironed before", "A patch"
  std::string title;
  std::string headline;  ///< "DO NOT IRON"; or what it pulls now
  std::vector<viz::MoreRow> rows;
  std::vector<std::string> steps;  ///< numbered
  std::vector<std::string> warnings, notes;
};

/// Half a sheet of letter or A4. Throws CannotWriteFile that names the file when it cannot be written.
void write_old_slip(const OldSlip& slip, Paper paper, const std::string& version, const std::string& path);

}  // namespace evenpull
