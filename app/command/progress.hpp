// What is being computed and how long it will still take: on one line of a terminal; elsewhere a line a part, of what takes
// over two seconds.
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>

namespace evenpull {

/// The line: a bar, how much is done, what is being computed and what is left, cut to the columns of the terminal.
std::string progress_line(double share, const std::string& what, double seconds, int columns);

class Progress {
 public:
  /// Writes on standard error if `wanted`.
  explicit Progress(bool wanted);
  ~Progress();

  /// share 0..1 of the whole, and what is being done now; may be called from any thread.
  void show(double share, const std::string& what);
  /// All is done: the bar ends full.
  void finish();

 private:
  struct Line;
  std::unique_ptr<Line> line_;
};

}  // namespace evenpull
