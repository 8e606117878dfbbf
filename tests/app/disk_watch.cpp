#include "tests/app/disk_watch.hpp"

#include <cerrno>
#include <filesystem>
#include <map>

#include <fcntl.h>
#include <stdio.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace evenpull_test::disk_watch {
namespace {

std::function<std::string()>& state() {
  static std::function<std::string()> now;
  return now;
}
std::map<std::string, std::string>& records() {
  static std::map<std::string, std::string> all;
  return all;
}
int fails_with = 0;
constexpr int no_end = -1;
int renames_left = no_end;
std::string fails_of;

}  // namespace

Watch::Watch(std::function<std::string()> now, int error, const std::string& of) {
  state() = std::move(now);
  fails_with = error;
  fails_of = of;
  records().clear();
}

Watch::~Watch() {
  state() = nullptr;
  fails_with = 0;
}

std::string Watch::seen(const std::string& name) const {
  const auto at = records().find(name);
  return at == records().end() ? "never synced" : at->second;
}

RenamesFail::RenamesFail(int after) { renames_left = after; }
RenamesFail::~RenamesFail() { renames_left = no_end; }

}  // namespace evenpull_test::disk_watch

// Both in the place of the C library's, for this program.
extern "C" int fsync(int descriptor) {
  using namespace evenpull_test::disk_watch;
  if (state()) {
    std::error_code error;
    const auto path = std::filesystem::read_symlink("/proc/self/fd/" + std::to_string(descriptor), error);
    const auto name = path.filename().string();
    records().emplace(name, state()());
    if (fails_with && (fails_of.empty() || fails_of == name)) {
      errno = fails_with;
      return -1;
    }
  }
  return static_cast<int>(syscall(SYS_fsync, descriptor));
}

extern "C" int rename(const char* from, const char* to) noexcept {
  using namespace evenpull_test::disk_watch;
  if (renames_left == 0) {
    errno = EIO;
    return -1;
  }
  if (renames_left > 0) --renames_left;
  return renameat(AT_FDCWD, from, AT_FDCWD, to);
}
