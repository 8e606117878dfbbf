// Processor time of this process, for the reports.
#pragma once

#include <sys/resource.h>

namespace evenpull {

/// User and system time so far [s].
inline double processor_seconds() {
  rusage use{};
  getrusage(RUSAGE_SELF, &use);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(use.ru_utime) + seconds(use.ru_stime);
}

}  // namespace evenpull
