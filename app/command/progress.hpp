// A progress bar on a terminal, nothing anywhere else.
#pragma once

#include <functional>
#include <memory>
#include <string>

namespace evenpull {

class Progress {
 public:
  /// Draws on standard error if that is a terminal and `wanted`.
  explicit Progress(bool wanted);
  ~Progress();

  /// share 0..1 of the whole; may be called from any thread.
  void show(double share);

 private:
  struct Bar;
  std::unique_ptr<Bar> bar_;
};

}  // namespace evenpull
