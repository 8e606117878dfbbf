// Independent pieces of work on the machine's cores.
#pragma once

#include <functional>

namespace evenpull {

/// Runs work(0) ... work(n - 1) on up to `threads` threads and waits for all. If several throw, the one with the lowest
/// number is rethrown, so that an error does not depend on the clock.
void parallel_for(int n, const std::function<void(int)>& work, int threads);

/// As many as the machine has processors.
int usual_threads();

}  // namespace evenpull
