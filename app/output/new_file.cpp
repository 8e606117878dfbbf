#include "app/output/new_file.hpp"

#include "app/output/interruption.hpp"
#include "app/output/result_folder.hpp"
#include "app/output/to_disk.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace evenpull {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void cannot_write_file(const fs::path& file, const std::string& why) {
  throw CannotWrite(fmt::format("{}: cannot be written ({}); nothing was changed", file.string(), why));
}

[[noreturn]] void is_there_already(const fs::path& file) {
  throw CannotWrite(
      fmt::format("{}: is there already, and is never overwritten; give another name, or move it away", file.string()));
}

void write_all(int descriptor, const fs::path& aside, const fs::path& file, const std::string& text) {
  std::string error;
  for (std::size_t done = 0; done < text.size() && error.empty();) {
    const auto n = ::write(descriptor, text.data() + done, text.size() - done);
    if (n < 0 && errno != EINTR) error = std::strerror(errno);
    if (n > 0) done += static_cast<std::size_t>(n);
  }
  if (error.empty() && ::fsync(descriptor) != 0 && errno != EINVAL && errno != ENOTSUP) error = std::strerror(errno);
  ::close(descriptor);
  if (error.empty()) return;
  ::unlink(aside.c_str());
  cannot_write_file(file, error);
}

/// Beside the file, under a hidden name.
fs::path write_beside(const fs::path& file, const std::string& text) {
  std::string aside = (file.parent_path() / fmt::format(".{}.writing-XXXXXX", file.filename().string())).string();
  const int descriptor = ::mkstemp(aside.data());
  if (descriptor < 0) cannot_write_file(file, std::strerror(errno));
  constexpr mode_t usual_mode = 0666;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  ::fchmod(descriptor, usual_mode & ~mask);
  write_all(descriptor, aside, file, text);
  return aside;
}

void names_are_safe(const fs::path& file) {
  try {
    names_to_disk(file.parent_path());
  } catch (const NotOnDisk& e) {
    cannot_write_file(file, e.reason);
  }
}

}  // namespace

void check_is_new(const fs::path& file) {
  std::error_code ignored;
  if (fs::symlink_status(file, ignored).type() != fs::file_type::not_found) is_there_already(file);
}

void write_new_file(const fs::path& given, const std::string& text) {
  const fs::path file = fs::absolute(given);
  const Uninterrupted whole;
  check_is_new(given);
  const fs::path aside = write_beside(file, text);
  int error = ::link(aside.c_str(), file.c_str()) == 0 ? 0 : errno;
  // A file system without links: nobody else is at work on that name, or has had no time to be.
  if (error == EPERM || error == ENOTSUP || error == ENOSYS) {
    std::error_code ignored;
    error = fs::symlink_status(file, ignored).type() != fs::file_type::not_found ? EEXIST
            : ::rename(aside.c_str(), file.c_str()) == 0                         ? 0
                                                                                 : errno;
  }
  ::unlink(aside.c_str());
  if (error == EEXIST) is_there_already(given);
  if (error) cannot_write_file(given, std::strerror(error));
  names_are_safe(file);
}

void write_over_file(const fs::path& given, const std::string& text) {
  const fs::path file = fs::absolute(given);
  const Uninterrupted whole;
  const fs::path aside = write_beside(file, text);
  if (::rename(aside.c_str(), file.c_str()) != 0) {
    const int error = errno;
    ::unlink(aside.c_str());
    cannot_write_file(given, std::strerror(error));
  }
  names_are_safe(file);
}

}  // namespace evenpull
