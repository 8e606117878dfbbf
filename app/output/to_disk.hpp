// What was written is safe from a power failure once the disk has said so, not when a file is closed.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>

namespace evenpull {

/// The disk does not say that a file is safe.
struct NotOnDisk : std::runtime_error {
  std::filesystem::path path;
  std::string reason;
  NotOnDisk(const std::filesystem::path& path_, const std::string& reason_)
      : std::runtime_error(path_.string() + ": " + reason_), path(path_), reason(reason_) {}
};

/// Waits until everything in the folder, however deep, and the folder itself is on the disk. Throws NotOnDisk.
void folder_to_disk(const std::filesystem::path& folder);

/// Waits until the names in the folder are on the disk: after something in it was renamed. Throws NotOnDisk.
void names_to_disk(const std::filesystem::path& folder);

}  // namespace evenpull
