// A line of n equal zones between rigid ends, worked one after the other with a full dose (docs/model.md, sections 1
// and 3). The pull N is the same everywhere and sum of (looseness - shrink_i + N/K) = 0, so each step is one linear
// equation in N. Derived here: with the shrink of the others so far S,
//   N (1/K + s/(n Nc)) = (S + s)/n - l,    shrink of this zone = s (1 - N/Nc)
// By hand: n = 1 241.4 N/m, n = 2 320.0 N/m.
#include "tests/support/book.hpp"
#include "tests/support/held_pass.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace evenpull;

namespace {

constexpr double stiffness = 1e5, limit_pull = 350, free_shrink = 0.04, loose = 0.01;

struct Chain {
  std::vector<double> shrink;
  double pull = 0;
};

// One zone hot: the pull at which looseness, stretch and shrink agree, by bisection (shrink falls with pull).
void work(Chain& c, std::size_t zone, double dose, double creep = 0) {
  const Eigen::Matrix3d cold = compliance(stiffness, stiffness, 0, stiffness / 20);
  ShrinkState s;
  s.free_shrink[0] = s.free_shrink[1] = free_shrink;
  s.limit_pull[0] = s.limit_pull[1] = limit_pull;
  ClothPoint p;
  p.cold = &cold;
  p.hot = true;
  p.shrink[0] = c.shrink[zone];
  p.line[0] = load_line(check::held_line(s, 0, dose), c.shrink[zone], creep);
  double others = 0;
  for (std::size_t i = 0; i < c.shrink.size(); ++i)
    if (i != zone) others += c.shrink[i];
  const double n = static_cast<double>(c.shrink.size());
  double low = 0, high = 5000;
  for (int i = 0; i < 100; ++i) {
    const double pull = 0.5 * (low + high);
    const double too_short = (others + shrink_after(p, 0, pull)) / n - loose - pull / stiffness;
    (too_short > 0 ? low : high) = pull;
  }
  c.pull = low;
  c.shrink[zone] = shrink_after(p, 0, low);
}

Chain one_pass(int zones, double dose) {
  Chain c{std::vector<double>(static_cast<std::size_t>(zones), 0.0)};
  for (std::size_t i = 0; i < c.shrink.size(); ++i) work(c, i, dose);
  return c;
}

// The recursion above.
double by_hand(int zones) {
  double others = 0, pull = 0;
  for (int i = 0; i < zones; ++i) {
    pull =
        std::max(0.0, ((others + free_shrink) / zones - loose) / (1 / stiffness + free_shrink / (zones * limit_pull)));
    others += free_shrink * (1 - pull / limit_pull);
  }
  return pull;
}

}  // namespace

TEST_CASE("a line of more and smaller zones ends its first pass at a higher pull") {
  CHECK(by_hand(1) == Approx(241.4).epsilon(5e-4));
  CHECK(by_hand(2) == Approx(320.0).epsilon(5e-4));
  double last = 0;
  for (int zones : {1, 2, 4, 16}) {
    const double pull = one_pass(zones, 1).pull;
    book::enter({.chapter = "Heat shrink",
                 .check = "Line of equal zones, one full pass",
                 .quantity = std::to_string(zones) + " zones: pull [N/m]",
                 .source = "derived here (docs/model.md, section 1)",
                 .published = by_hand(zones),
                 .ours = pull,
                 .tolerance = 1e-6});
    CHECK(pull > last);
    last = pull;
  }
}

TEST_CASE("working the same zone again with a full dose changes nothing") {
  Chain c = one_pass(4, 1);
  const Chain before = c;
  work(c, 3, 1);
  CHECK(c.pull == Approx(before.pull).epsilon(1e-9));
  CHECK(c.shrink[3] == Approx(before.shrink[3]).epsilon(1e-9));
}

TEST_CASE("a light pass leaves the zones more alike than a full one") {
  const auto spread = [](const Chain& c) {
    const auto [least, most] = std::minmax_element(c.shrink.begin(), c.shrink.end());
    return *most - *least;
  };
  Chain light = one_pass(6, 0.25);
  for (std::size_t i = 0; i < 6; ++i) work(light, i, 0.25);
  for (std::size_t i = 0; i < 6; ++i) work(light, i, 1);
  CHECK(spread(light) < 0.6 * spread(one_pass(6, 1)));
}

TEST_CASE("shrink never grows back unless creep is switched on") {
  Chain c = one_pass(4, 1);
  const double first = c.shrink[0];
  c.shrink[1] += 0.02;  // a neighbour shrunk hard: pull well beyond the limit
  Chain creeping = c;
  work(c, 0, 1);
  CHECK(c.pull > limit_pull);
  CHECK(c.shrink[0] == first);
  work(creeping, 0, 1, 0.5);
  CHECK(creeping.shrink[0] < first);
  CHECK(creeping.pull < c.pull);
}
