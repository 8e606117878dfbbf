// A job's log as text: JSON, one entry a line (jsonlines.org), each with a checksum of its own, so that a line cut short or
// changed is told from a whole one.
#pragma once

#include "shop/job_log.hpp"

#include <string>

namespace evenpull {

constexpr int log_format = 1;

/// The first line: what it is and of which panel.
std::string log_head(const std::string& panel, const std::string& title);
/// One entry, with its line end.
std::string log_line(const LogEntry& entry);

struct LogRead {
  JobLog log;
  int damaged_line = 0;         ///< counted from 1: from here on nothing was read; 0: whole
  int lines_left_out = 0;       ///< from there to the end
  bool cut_at_end = false;      ///< the last line was cut short, as by a pulled plug: it was not written to its end
  std::size_t whole_bytes = 0;  ///< up to the end of the last line that holds
};

/// True where a file begins like a log.
bool looks_like_a_log(const std::string& bytes);
/// Reads as far as it is whole. Throws CaseFileError for what is no log of ours or of a later format; `path` for messages.
LogRead read_log_text(const std::string& bytes, const std::string& path);
/// Throws CaseFileError for the log of another panel.
void check_log_is_of(const JobLog& log, const std::string& panel, const std::string& path);

}  // namespace evenpull
