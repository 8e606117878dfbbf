#include "app/command/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace evenpull {

void parallel_for(int n, const std::function<void(int)>& work, int threads) {
  std::atomic<int> next{0};
  std::vector<std::exception_ptr> errors(static_cast<size_t>(std::max(n, 0)));
  const auto take = [&] {
    for (int i = next++; i < n; i = next++) {
      try {
        work(i);
      } catch (...) {
        errors[static_cast<size_t>(i)] = std::current_exception();
      }
    }
  };
  std::vector<std::thread> others;
  for (int t = 1; t < std::min(threads, n); ++t) others.emplace_back(take);
  take();
  for (auto& t : others) t.join();
  for (const auto& error : errors)
    if (error) std::rethrow_exception(error);
}

int usual_threads() { return std::max(1, static_cast<int>(std::thread::hardware_concurrency())); }

}  // namespace evenpull
