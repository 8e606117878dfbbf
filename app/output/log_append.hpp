// Entries added to the end of a log: never anything but added, on the disk before the command says so, one run at a time.
#pragma once

#include "app/input/log_lines.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace evenpull {

/// Begins the log where there is none. What a pulled plug left of a last line is cut off before anything is added. Throws
/// CannotWrite, FolderBusy where another run adds to it, and CaseFileError where it is no log, is damaged before its
/// end, or is of another panel than `panel`.
void append_to_log(const std::filesystem::path& file, const std::string& panel, const std::string& title,
                   const std::vector<LogEntry>& entries);

}  // namespace evenpull
