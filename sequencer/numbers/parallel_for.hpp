// How work is spread over threads that the caller has: this room has none of its own.
#pragma once

#include <functional>

namespace evenpull::inline sequencer {

/// Runs work(0) ... work(n - 1), in any order, on as many threads as the caller likes. Results do not depend on it.
using ParallelFor = std::function<void(int n, const std::function<void(int)>& work)>;
/// The plainest of them.
inline void one_by_one(int n, const std::function<void(int)>& work) {
  for (int i = 0; i < n; ++i) work(i);
}

}  // namespace evenpull::inline sequencer
