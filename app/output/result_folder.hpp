// A folder of results that is either whole or not there: written aside, put in place at the end. An earlier result is only
// given up once the new one is in place, and a folder that holds anything else is never touched. One run at a time works on
// a folder; what an interruption leaves is nothing, what a killed run left the next one mends.
#pragma once

#include "app/output/interruption.hpp"
#include "app/output/work_lock.hpp"

#include <filesystem>
#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace evenpull {

/// Results cannot be written; what() names the folder and what to do.
struct CannotWrite : std::runtime_error {
  using std::runtime_error::runtime_error;
};

class ResultFolder {
 public:
  /// Finds out whether `target` may be written, and keeps other runs off it from now on. `say` gets a sentence if something
  /// of an earlier run had to be mended or could not be taken away. Throws CannotWrite or FolderBusy.
  explicit ResultFolder(const std::filesystem::path& target, std::function<void(const std::string&)> say = {});
  /// Removes what was written aside if it was not published.
  ~ResultFolder();
  ResultFolder(const ResultFolder&) = delete;
  ResultFolder& operator=(const ResultFolder&) = delete;

  /// Makes the folder aside in which to write, if it is not there yet. A value: an interruption takes the folder away while
  /// others still write to it.
  std::filesystem::path open();
  /// Writes a whole text file into it. Throws CannotWrite.
  void write(const std::string& name, const std::string& text);
  /// Puts what was written in the place of `target`. Throws CannotWrite with an earlier result as it was.
  void publish();
  /// Does work that draws files in the folder aside, and turns what the disk refuses into CannotWrite.
  void draw(const std::function<void()>& work) const;

  /// What to say besides if the run is interrupted before its results are in place.
  void when_interrupted(std::string sentence);

  const std::filesystem::path& target() const { return target_; }

 private:
  void make_parents();
  std::filesystem::path as_it_will_be_called(const std::filesystem::path& file) const;
  std::string why_the_earlier_stays(const std::filesystem::path& earlier) const;
  void take_away_aside() const;
  void give_back();  ///< the lock, and folders made on the way that hold nothing
  void discard();
  std::string interrupted();
  void tell(const std::string& sentence) const;
  [[noreturn]] void cannot_write(const std::filesystem::path& file, const std::string& reason) const;

  std::filesystem::path target_, aside_;
  std::function<void(const std::string&)> say_;
  std::vector<std::filesystem::path> made_;  ///< folders above the target that were not there, the outermost first
  std::optional<WorkLock> lock_;
  std::optional<OnInterruption> on_interruption_;
  bool published_ = false;
  std::string when_interrupted_;
};

}  // namespace evenpull
