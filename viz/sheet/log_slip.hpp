// The half page of a job's log: where it stands, what comes next, what was read.
#pragma once

#include "viz/sheet/sheet.hpp"
#include "viz/words/log_words.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct LogSlip {
  std::string title;
  std::string headline;                ///< "NEXT", "STOP"
  std::vector<std::string> sentences;  ///< most important first
  std::vector<viz::PassRow> passes;
  std::vector<viz::ReadingRow> readings;
  std::vector<std::string> entries;  ///< the last ones, newest first
};

/// Half a sheet of letter or A4. Throws CannotWriteFile that names the file when it cannot be written.
void write_log_slip(const LogSlip& slip, Paper paper, const std::string& version, const std::string& path);

}  // namespace evenpull
