#include "app/command/parallel.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <stdexcept>
#include <vector>

using namespace evenpull;

TEST_CASE("every piece of work is done once", "[parallel]") {
  std::vector<std::atomic<int>> done(100);
  parallel_for(
      100, [&](int i) { ++done[static_cast<size_t>(i)]; }, 2);
  for (const auto& d : done) CHECK(d == 1);
  parallel_for(
      0, [](int) { FAIL("no work was given"); }, 2);
}

TEST_CASE("an error of a piece of work reaches the caller, the first in number of several", "[parallel]") {
  const auto work = [](int i) {
    if (i == 3 || i == 7) throw std::runtime_error("piece " + std::to_string(i));
  };
  for (int threads : {1, 2, 4}) CHECK_THROWS_WITH(parallel_for(10, work, threads), "piece 3");
}
