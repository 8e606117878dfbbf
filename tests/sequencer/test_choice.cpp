#include "sequencer/choice/choice.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using namespace evenpull;

namespace {

OrderResult order(int stages, double use, double unevenness = 0.1, double pull = 100, double slip = 1e-3,
                  int turns = 10) {
  OrderResult o;
  o.stages_passed = stages;
  o.worst_use = use;
  o.unevenness_final = unevenness;
  o.worst_pull_difference_spanwise = pull;
  o.worst_slip = slip;
  o.turn_overs = turns;
  return o;
}

}  // namespace

TEST_CASE("a hotter safe stage beats everything else") {
  CHECK(better_by(order(3, 0.95, 0.2), order(2, 0.5, 0.05), Prices{}, 0));
  CHECK_FALSE(better_by(order(2, 0.5, 0.05), order(3, 0.95, 0.2), Prices{}, 0));
}

TEST_CASE("the score: use, 0.05 for 100 N/m of pull difference, 0.2 of unevenness, 0.001 a turn-over") {
  const OrderResult plain = order(2, 0.90, 0.10, 100, 1e-3, 10);
  const double score = score_of(plain, Prices{});
  CHECK(score == Approx(0.90 + 0.05 + 0.02 + 0.010));
  CHECK(score_of(order(2, 0.90, 0.10, 300, 1e-3, 10), Prices{}) - score == Approx(0.10));
  CHECK(score_of(order(2, 0.90, 0.35, 100, 1e-3, 10), Prices{}) - score == Approx(0.05));
  CHECK(score_of(order(2, 0.90, 0.10, 100, 1e-3, 110), Prices{}) - score == Approx(0.10));
  CHECK(score_of(order(2, 0.90, 0.10, 100, 4e-3, 10), Prices{}) == Approx(score));  // slip is a limit, and in the use
}

TEST_CASE("turn-overs do not count where both sides can be reached") {
  CHECK(score_of(order(2, 0.9, 0.1, 100, 1e-3, 5), without_turn_overs({})) ==
        score_of(order(2, 0.9, 0.1, 100, 1e-3, 50), without_turn_overs({})));
}

TEST_CASE("the case sets the prices, and what it does not set is usual") {
  Case c;
  const OrderResult o = order(2, 0.90, 0.10, 100, 1e-3, 10);
  CHECK(score_of(o, prices_of(c)) == score_of(o, Prices{}));
  c.score = {0.4, 1e-3, 5e-3, 2};
  CHECK(score_of(o, prices_of(c)) == Approx(0.90 + 0.10 + 0.04 + 0.05));
  OrderResult searched = o;
  searched.order.family = Family::searched, searched.passes = 7;
  CHECK(score_of(searched, prices_of(c)) - score_of(o, prices_of(c)) == Approx(7 * 2 * 5e-3));
  c.both_sides_reachable = true;
  CHECK(score_of(o, prices_of(c)) == Approx(0.90 + 0.10 + 0.04));
}

TEST_CASE("an order without a rule in words pays three turn-overs a pass more") {
  OrderResult rule = order(2, 0.9), searched = rule;
  rule.order.family = Family::halving, searched.order.family = Family::searched;
  rule.passes = searched.passes = 7;
  CHECK(score_of(searched, Prices{}) - score_of(rule, Prices{}) == Approx(0.021));
}

TEST_CASE("the best of several is the same in whatever order they stand, and of equals the first") {
  const std::vector<OrderResult> list = {order(2, 0.91, 0.10, 120), order(2, 0.90, 0.12, 110),
                                         order(2, 0.905, 0.11, 90), order(2, 0.92, 0.02, 100)};
  std::vector<int> places = {0, 1, 2, 3};
  const OrderResult best = list[static_cast<std::size_t>(best_of(list, Prices{}))];
  do {
    std::vector<OrderResult> shuffled;
    for (const int i : places) shuffled.push_back(list[static_cast<std::size_t>(i)]);
    CHECK(score_of(shuffled[static_cast<std::size_t>(best_of(shuffled, Prices{}))], Prices{}) ==
          score_of(best, Prices{}));
  } while (std::next_permutation(places.begin(), places.end()));
  CHECK(best_of({order(2, 0.9), order(2, 0.9), order(2, 0.9)}, Prices{}) == 0);
}
