// The one main() of all test programs. While a test runs, an invalid operation or a division by zero stops it at once,
// so that no NaN travels on to a place where nobody knows where it came from.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>

#include <cfenv>

/// Set for each test program by tests/CMakeLists.txt.
extern const bool evenpull_trap_floating_point;

namespace {

constexpr int trapped = FE_INVALID | FE_DIVBYZERO;

struct Traps : Catch::TestEventListenerBase {
  using TestEventListenerBase::TestEventListenerBase;
  void testCaseStarting(const Catch::TestCaseInfo&) override {
    if (!evenpull_trap_floating_point) return;
    std::feclearexcept(FE_ALL_EXCEPT);  // a flag left standing would fire at once
    feenableexcept(trapped);
  }
  void testCaseEnded(const Catch::TestCaseStats&) override { fedisableexcept(trapped); }
};

}  // namespace

CATCH_REGISTER_LISTENER(Traps)
