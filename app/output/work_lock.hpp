// Who may write a result folder: one run at a time. A file beside the folder carries the lock of the operating system, which
// goes with the process however it ends, and names who holds it.
#pragma once

#include <filesystem>
#include <stdexcept>

namespace evenpull {

/// Another run is at work on the same folder; what() names it.
struct FolderBusy : std::runtime_error {
  using std::runtime_error::runtime_error;
};

class WorkLock {
 public:
  /// The folder that `target` lies in must be there. Throws FolderBusy, or CannotWrite.
  explicit WorkLock(const std::filesystem::path& target);
  ~WorkLock() { release(); }
  WorkLock(const WorkLock&) = delete;
  WorkLock& operator=(const WorkLock&) = delete;

  /// Takes the file away and lets go.
  void release();
  /// False where the file system knows no locks: then nobody can tell whether others are at work.
  bool held() const { return held_; }

 private:
  std::filesystem::path file_;
  int descriptor_ = -1;
  bool held_ = false;
};

}  // namespace evenpull
