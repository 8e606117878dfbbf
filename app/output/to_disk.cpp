#include "app/output/to_disk.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace evenpull {
namespace {

namespace fs = std::filesystem;

void wait_for(const fs::path& path) {
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
  if (descriptor < 0) throw NotOnDisk(path, std::strerror(errno));
  int error = 0;
  do error = fsync(descriptor) == 0 ? 0 : errno;
  while (error == EINTR);
  close(descriptor);
  // A file system that cannot be asked is no trouble of its files.
  if (error && error != EINVAL && error != ENOTSUP) throw NotOnDisk(path, std::strerror(error));
}

}  // namespace

void folder_to_disk(const fs::path& folder) {
  for (const auto& entry : fs::directory_iterator(folder)) {
    const auto status = entry.symlink_status();
    if (fs::is_directory(status)) folder_to_disk(entry.path());
    else if (fs::is_regular_file(status)) wait_for(entry.path());
  }
  wait_for(folder);
}

void names_to_disk(const fs::path& folder) { wait_for(folder); }

}  // namespace evenpull
