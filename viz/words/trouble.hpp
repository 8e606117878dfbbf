// Two kinds of trouble with what is drawn and written: the disk's, and ours.
#pragma once

#include <stdexcept>
#include <string>

namespace evenpull {

/// A file cannot be written: the disk is full, the folder is gone. Whoever looks after the disk can mend it.
struct CannotWriteFile : std::runtime_error {
  std::string path, reason;
  CannotWriteFile(const std::string& path_, const std::string& reason_)
      : std::runtime_error("cannot write " + path_ + ": " + reason_ + "; check the folder and the free space"),
        path(path_),
        reason(reason_) {}
};

/// What is to be written is no number, or is not there, or cannot be drawn as asked: a mistake of ours, whatever the disk.
struct CannotDraw : std::logic_error {
  using std::logic_error::logic_error;
};

}  // namespace evenpull
