// A rope round a post: T_high/T_low = exp(mu theta) at the limit. Euler (1769) and Eytelwein (1808), from memory.
#include "solver/friction.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

constexpr double degree = 3.14159265358979323846 / 180;

struct Row {
  double friction, wrap_deg, ratio;
};
// exp(mu theta) to five digits, computed by hand.
constexpr Row rows[] = {{0.15, 170, 1.5606}, {0.25, 90, 1.4810},  {0.25, 170, 2.0996},
                        {0.25, 180, 2.1933}, {0.30, 170, 2.4354}, {0.35, 160, 2.6575}};

}  // namespace

TEST_CASE("cloth round an edge begins to slide at the capstan ratio") {
  for (const Row& r : rows) {
    CAPTURE(r.friction, r.wrap_deg);
    for (double low : {0.01, 5.0, 300.0}) {
      const double high = low * r.ratio;
      const double threshold = wrap_threshold(high, low, r.friction, r.wrap_deg * degree);
      CHECK(threshold == Approx(high - low).epsilon(1e-4));  // ratio - 1 from a table of five digits
      CHECK(wrap_threshold(low, high, r.friction, r.wrap_deg * degree) == Approx(threshold));
    }
  }
}

TEST_CASE("an edge without friction or without wrap holds nothing back") {
  CHECK(wrap_threshold(300, 100, 0, 170 * degree) == 0);
  CHECK(wrap_threshold(300, 100, 0.25, 0) == 0);
}

TEST_CASE("loose cloth on both sides gives no friction, not a negative one") {
  CHECK(wrap_threshold(0, 0, 0.25, 170 * degree) == 0);
  CHECK(wrap_threshold(-1, 0.5, 0.25, 170 * degree) == 0);
}

TEST_CASE("friction never exceeds its threshold, however far the cloth slides") {
  const double width = 2e-7, threshold = 12;
  for (double slip : {1e-9, 1e-7, 2e-7, 1e-6, 1e-3, -5e-3}) {
    const FrictionStep f = friction_step({slip, 0}, {0, 0}, {0, 0}, threshold, width);
    CHECK(std::abs(f.predicted[0]) <= threshold * (1 + 1e-12));
    CHECK(f.predicted[0] * slip > 0);
    if (std::abs(slip) > width) CHECK(std::abs(f.predicted[0]) == Approx(threshold));
  }
}

TEST_CASE("friction that was there before is still there when nothing moves") {
  const FrictionStep f = friction_step({0, 0}, {7, -2}, {7, -2}, 12, 2e-7);
  CHECK(f.predicted[0] == Approx(7));
  CHECK(f.predicted[1] == Approx(-2));
}
