// The file beside a result folder in which a plan keeps what it has computed, run by run, so that `--resume` can go on from
// there after an interruption. It is gone once the results are in place.
#pragma once

#include "sequencer/sure/kept_runs.hpp"

#include <filesystem>
#include <fstream>
#include <map>
#include <mutex>
#include <optional>
#include <string>

namespace evenpull {

/// "<target>.unfinished".
std::filesystem::path kept_file_of(const std::filesystem::path& target);

class KeptFile {
 public:
  /// `stated`: the case, the options and the build that all runs are of. With `go_on` what the file holds of the same
  /// statement is known from now on: as far as it is whole, and nothing where it is of another one. Without, it begins anew.
  /// Where it cannot be written, or another file has its name, nothing is kept: that is no reason not to plan.
  KeptFile(std::filesystem::path path, const std::string& stated, bool go_on);
  KeptFile(const KeptFile&) = delete;
  KeptFile& operator=(const KeptFile&) = delete;

  /// Serves a plan for as long as this lives.
  const KeptRuns& runs() const { return runs_; }
  /// Whether what is computed from now on is kept.
  bool keeps() const { return out_.good() && !path_.empty(); }
  /// How many runs were known at the beginning.
  std::size_t known_at_first() const { return known_at_first_; }
  /// The plan is done: removes the file.
  void remove();

 private:
  void read(const std::string& stated);
  std::optional<RunValue> known(const RunJob& job);
  void keep(const RunJob& job, const RunValue& value);

  std::filesystem::path path_;
  std::ofstream out_;
  std::mutex one_at_a_time_;
  std::map<std::string, std::string> values_;  ///< by job, both as bytes
  std::size_t known_at_first_ = 0;
  KeptRuns runs_;
};

}  // namespace evenpull
