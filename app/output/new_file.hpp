// A single file, whole or not there.
#pragma once

#include <filesystem>
#include <string>

namespace evenpull {

/// Writes aside and puts it there only if no file has that name. Throws CannotWrite.
void write_new_file(const std::filesystem::path& file, const std::string& text);
/// The same, in the place of an earlier one.
void write_over_file(const std::filesystem::path& file, const std::string& text);
/// Throws CannotWrite, saying what to do, where something has that name already.
void check_is_new(const std::filesystem::path& file);

}  // namespace evenpull
