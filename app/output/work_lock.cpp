#include "app/output/work_lock.hpp"

#include "app/output/result_folder.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <climits>
#include <cstring>
#include <ctime>
#include <string>

namespace evenpull {
namespace {

namespace fs = std::filesystem;

constexpr const char* begins = "process ";

/// "process 4711 on bench since 2026-11-27 14:05:12"
std::string who_we_are() {
  std::array<char, HOST_NAME_MAX + 1> host{};
  if (gethostname(host.data(), host.size() - 1) != 0) host[0] = '?';
  return fmt::format("{}{} on {} since {:%Y-%m-%d %H:%M:%S}", begins, getpid(), host.data(),
                     fmt::localtime(std::time(nullptr)));
}

/// What the holder wrote; nothing if it has not got that far, or if it is not ours.
std::string who_holds(int descriptor) {
  std::array<char, 512> text{};
  const auto n = pread(descriptor, text.data(), text.size(), 0);
  const std::string line(text.data(), n > 0 ? static_cast<std::size_t>(n) : 0);
  if (line.rfind(begins, 0) != 0) return "";
  return line.substr(0, line.find('\n'));
}

/// Somebody who had the lock may have taken the file away between our opening it and our locking it.
bool still_there(int descriptor, const fs::path& file) {
  struct stat ours {
  }, there{};
  return fstat(descriptor, &ours) == 0 && lstat(file.c_str(), &there) == 0 && ours.st_dev == there.st_dev &&
         ours.st_ino == there.st_ino;
}

}  // namespace

WorkLock::WorkLock(const fs::path& target)
    : file_(target.parent_path() / ("." + target.filename().string() + ".evenpull-lock")) {
  const auto refuse = [&](int error) {
    throw CannotWrite(fmt::format("{}: cannot be written ({}); choose another folder with --out", target.string(),
                                  std::strerror(error)));
  };
  for (;;) {
    bool ours_to_write = true;
    descriptor_ = ::open(file_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (descriptor_ < 0 && errno == EACCES) {  // somebody else's: it can be locked all the same
      ours_to_write = false;
      descriptor_ = ::open(file_.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
    }
    if (descriptor_ < 0) refuse(errno);
    const int error = flock(descriptor_, LOCK_EX | LOCK_NB) == 0 ? 0 : errno;
    if (error == EWOULDBLOCK) {
      const auto who = who_holds(descriptor_);
      close(descriptor_);
      throw FolderBusy(
          fmt::format("{}: another run of evenpull is at work on this folder{}, so nothing was touched; wait until it "
                      "has ended, or "
                      "choose another folder with --out",
                      target.string(), who.empty() ? "" : " (" + who + ")"));
    }
    held_ = error == 0;
    if (!held_ || (ours_to_write && still_there(descriptor_, file_))) break;
    // Gone, or left by somebody else's run that is dead.
    const int gone = ours_to_write || unlink(file_.c_str()) == 0 ? 0 : errno;
    close(descriptor_);
    if (gone) refuse(gone);
  }
  // The lock counts, not its text: a full disk may refuse that.
  const auto line = who_we_are() + "\n";
  if (ftruncate(descriptor_, 0) != 0 || pwrite(descriptor_, line.data(), line.size(), 0) < 0) return;
}

void WorkLock::release() {
  if (descriptor_ < 0) return;
  unlink(file_.c_str());  // first: whoever locks it afterwards sees that it is gone
  close(descriptor_);
  descriptor_ = -1;
}

}  // namespace evenpull
