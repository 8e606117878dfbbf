// A folder of results that is either whole or not there: written aside, renamed at the end. An earlier result is only
// given up once the new one is in place, and a folder that holds anything else is never touched.
#pragma once

#include <filesystem>
#include <functional>
#include <stdexcept>
#include <string>

namespace evenpull {

/// Results cannot be written; what() names the folder and what to do.
struct CannotWrite : std::runtime_error {
  using std::runtime_error::runtime_error;
};

class ResultFolder {
 public:
  /// Checks that `target` may be written; makes nothing yet. Throws CannotWrite.
  explicit ResultFolder(const std::filesystem::path& target);
  /// Removes what was written aside if it was not published.
  ~ResultFolder();
  ResultFolder(const ResultFolder&) = delete;
  ResultFolder& operator=(const ResultFolder&) = delete;

  /// Makes the folder aside in which to write.
  const std::filesystem::path& open();
  /// Puts what was written in the place of `target`.
  void publish();

  const std::filesystem::path& target() const { return target_; }

 private:
  std::filesystem::path target_, aside_;
};

/// Runs work that draws files, and turns what the disk refuses into CannotWrite.
void draw_files(const std::function<void()>& work);

/// Writes a whole text file. Throws CannotWrite.
void write_text(const std::filesystem::path& path, const std::string& text);

}  // namespace evenpull
