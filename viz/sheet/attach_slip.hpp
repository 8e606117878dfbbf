// The page on fastening the cloth to ribs: the ribs from above with how and when, and what each schedule does.
#pragma once

#include "solver/statement/case.hpp"
#include "viz/sheet/sheet.hpp"
#include "viz/words/attach_words.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct AttachSlip {
  std::string headline;
  std::vector<std::string> warnings;
  std::vector<std::string> schedule;  ///< what the case states, a sentence an entry
  viz::AttachTables tables;
  std::vector<std::string> notes;
};

/// A sheet of letter or A4, and further ones where it takes more. Throws CannotWriteFile that names the file when it cannot be written.
void write_attach_slip(const Case& c, const AttachSlip& slip, Paper paper, const std::string& version,
                       const std::string& path);

}  // namespace evenpull
