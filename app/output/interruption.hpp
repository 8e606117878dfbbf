// INT, TERM and HUP, at any moment: what is half done is taken away, one line says so, and the program ends with 128 and
// the signal's number, as a shell would say it.
#pragma once

#include <functional>
#include <mutex>
#include <string>

namespace evenpull {

/// What any run needs before anything else: standard streams that are there, an answer instead of a signal where a file
/// grows too large, and await_interruption().
void begin_process();

/// Signals are from now on waited for by a thread of their own, so that what they set off may do whatever a program may.
/// To be called before any other thread is there. What whoever started us wants ignored stays ignored.
void await_interruption();

/// While one lives an interruption waits: for steps that must not be cut in two. An interruption that came first never lets
/// another thread in again.
class Uninterrupted {
 public:
  Uninterrupted();

 private:
  std::lock_guard<std::recursive_mutex> hold_;
};

/// What an interruption has to do while this lives; it gives a sentence on what became of the results.
class OnInterruption {
 public:
  explicit OnInterruption(std::function<std::string()> work);
  ~OnInterruption();
  OnInterruption(const OnInterruption&) = delete;
  OnInterruption& operator=(const OnInterruption&) = delete;
};

/// The work is over: an interruption from here on changes nothing any more. Gives the code back.
int past_interruption(int exit_code);

}  // namespace evenpull
