// A rope round a post: T_high/T_low = exp(mu theta) at the limit. Euler (1769) and Eytelwein, Handbuch der
// Statik fester Koerper (1808), as quoted in textbooks (looked up).
#include "solver/equilibrium/friction.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;

namespace {

constexpr double degree = 3.14159265358979323846 / 180;

struct Row {
  double friction, wrap_deg, ratio;
};
// exp(mu theta) to five digits.
constexpr Row rows[] = {{0.15, 170, 1.5606}, {0.25, 90, 1.4810},  {0.25, 170, 2.0996},
                        {0.25, 180, 2.1933}, {0.30, 170, 2.4354}, {0.35, 160, 2.6575}};

// The pull above at which the pull difference reaches the threshold, over the pull below.
double sliding_ratio(double low, double friction, double wrap) {
  double sticks = low, slides = 100 * low;
  for (int i = 0; i < 100; ++i) {
    const double high = 0.5 * (sticks + slides);
    (high - low < wrap_threshold(high, low, friction, wrap) ? sticks : slides) = high;
  }
  return slides / low;
}

std::string print(double value) {
  std::string s = std::to_string(value);
  return s.substr(0, s.find('.') + 3);
}

}  // namespace

TEST_CASE("cloth round an edge begins to slide at the capstan ratio") {
  for (const Row& r : rows) {
    const double wrap = r.wrap_deg * degree, ratio = sliding_ratio(300, r.friction, wrap);
    // Half a unit of the table's last digit.
    book::enter(
        {.chapter = "Edge and friction",
         .check = "Rope round a post: pull above over pull below at the limit",
         .quantity = "mu = " + print(r.friction) + ", " + std::to_string(static_cast<int>(r.wrap_deg)) + " deg [1]",
         .source = "Eytelwein, Handbuch der Statik fester Koerper (1808), as quoted in textbooks: exp(mu theta)",
         .published = r.ratio,
         .ours = ratio,
         .tolerance = 4e-5});
    CHECK(sliding_ratio(0.01, r.friction, wrap) == Approx(ratio));  // whatever the size of the pull
    CHECK(wrap_threshold(5, 2, r.friction, wrap) == Approx(wrap_threshold(2, 5, r.friction, wrap)));
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
