// What is asked of the disk: every fsync of this program goes by here, so that a test sees when a file is made safe, and may
// let it fail.
#pragma once

#include <functional>
#include <string>

namespace evenpull_test::disk_watch {

/// While it lives: for the name of each file or folder that is synced, what `state` said when that was done first.
class Watch {
 public:
  /// `error`: what the fsync of that name fails with, of any if there is none; 0: none fails.
  explicit Watch(std::function<std::string()> state, int error = 0, const std::string& of = "");
  ~Watch();
  Watch(const Watch&) = delete;
  Watch& operator=(const Watch&) = delete;

  std::string seen(const std::string& name) const;
};

/// While it lives only so many more renames succeed.
class RenamesFail {
 public:
  explicit RenamesFail(int after);
  ~RenamesFail();
  RenamesFail(const RenamesFail&) = delete;
  RenamesFail& operator=(const RenamesFail&) = delete;
};

}  // namespace evenpull_test::disk_watch
