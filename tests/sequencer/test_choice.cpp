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
  CHECK(better_by(order(3, 0.95, 0.2), order(2, 0.5, 0.05), true, 0));
  CHECK_FALSE(better_by(order(2, 0.5, 0.05), order(3, 0.95, 0.2), true, 0));
}

TEST_CASE("the score: use, 0.05 for 100 N/m of pull difference, 0.2 of unevenness, 0.001 a turn-over") {
  const OrderResult plain = order(2, 0.90, 0.10, 100, 1e-3, 10);
  const double score = score_of(plain, true);
  CHECK(score == Approx(0.90 + 0.05 + 0.02 + 0.010));
  CHECK(score_of(order(2, 0.90, 0.10, 300, 1e-3, 10), true) - score == Approx(0.10));
  CHECK(score_of(order(2, 0.90, 0.35, 100, 1e-3, 10), true) - score == Approx(0.05));
  CHECK(score_of(order(2, 0.90, 0.10, 100, 1e-3, 110), true) - score == Approx(0.10));
  CHECK(score_of(order(2, 0.90, 0.10, 100, 4e-3, 10), true) == Approx(score));  // slip is a limit, and in the use
}

TEST_CASE("turn-overs do not count where both sides can be reached") {
  CHECK(score_of(order(2, 0.9, 0.1, 100, 1e-3, 5), false) == score_of(order(2, 0.9, 0.1, 100, 1e-3, 50), false));
}

TEST_CASE("an order without a rule in words pays three turn-overs a pass more") {
  OrderResult rule = order(2, 0.9), searched = rule;
  rule.order.family = Family::halving, searched.order.family = Family::searched;
  rule.passes = searched.passes = 7;
  CHECK(score_of(searched, true) - score_of(rule, true) == Approx(0.021));
}

TEST_CASE("the best of several is the same in whatever order they stand, and of equals the first") {
  const std::vector<OrderResult> list = {order(2, 0.91, 0.10, 120), order(2, 0.90, 0.12, 110),
                                         order(2, 0.905, 0.11, 90), order(2, 0.92, 0.02, 100)};
  std::vector<int> places = {0, 1, 2, 3};
  const OrderResult best = list[static_cast<std::size_t>(best_of(list, true))];
  do {
    std::vector<OrderResult> shuffled;
    for (const int i : places) shuffled.push_back(list[static_cast<std::size_t>(i)]);
    CHECK(score_of(shuffled[static_cast<std::size_t>(best_of(shuffled, true))], true) == score_of(best, true));
  } while (std::next_permutation(places.begin(), places.end()));
  CHECK(best_of({order(2, 0.9), order(2, 0.9), order(2, 0.9)}, true) == 0);
}
