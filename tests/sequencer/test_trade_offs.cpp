#include "sequencer/choice/choice.hpp"
#include "sequencer/choice/trade_offs.hpp"
#include "sequencer/replay/tally.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

OrderResult order(Family family, int turn_overs, double use, double difference) {
  OrderResult o;
  o.order.family = family;
  o.turn_overs_a_pass = turn_overs;
  o.worst_use = use;
  o.worst_pull_difference_spanwise = difference;
  return o;
}

}  // namespace

TEST_CASE("what is traded is what no other order beats in turn-overs, use and pull difference at once") {
  const auto kept = trade_offs_of({order(Family::halving, 6, 0.80, 70), order(Family::jumping, 6, 0.90, 90),
                                   order(Family::one_side, 2, 0.85, 240), order(Family::searched, 2, 0.95, 150),
                                   order(Family::root_to_tip, 3, 0.86, 250)});
  REQUIRE(kept.size() == 3);
  CHECK(kept[0].order.family == Family::halving);
  CHECK(kept[1].order.family == Family::one_side);
  CHECK(kept[2].order.family == Family::searched);
}

TEST_CASE("of equal orders one stays") {
  CHECK(trade_offs_of({order(Family::halving, 2, 0.5, 100), order(Family::jumping, 2, 0.5, 100)}).size() == 1);
}

TEST_CASE("the chosen order is always on the list, beaten or not") {
  std::vector<OrderResult> all = {order(Family::searched, 1, 0.5, 50), order(Family::halving, 2, 0.51, 60)};
  all[1].chosen = true;
  CHECK(trade_offs_of(all).size() == 2);
}

TEST_CASE("there is something to trade only where turn-overs differ") {
  CHECK(is_a_trade(trade_offs_of({order(Family::halving, 6, 0.80, 70), order(Family::one_side, 1, 0.85, 240)})));
  CHECK_FALSE(is_a_trade(trade_offs_of({order(Family::halving, 1, 0.5, 10)})));
}

TEST_CASE("an order that gave way is on no list of trades, and is never better than one that stands") {
  OrderResult fell = order(Family::one_side, 1, 2, 5), stands = order(Family::halving, 6, 2.1, 300);
  fell.gave_way = true;
  REQUIRE(trade_offs_of({fell, stands}).size() == 1);
  CHECK(trade_offs_of({fell, stands})[0].order.family == Family::halving);
  CHECK(better_by(stands, fell, Prices{}, 0));
  CHECK_FALSE(better_by(fell, stands, Prices{}, 0));
}

TEST_CASE("joined tallies take the worst of each, the end of the later one and the sum of the ways") {
  const Tally a{0.5, 100, 1e-3, 0.3, 2, 4}, b{0.4, 150, 0.5e-3, 0.1, 3, 6};
  const Tally t = joined(a, b);
  CHECK(t.use == 0.5);
  CHECK(t.difference == 150);
  CHECK(t.slip == 1e-3);
  CHECK(t.unevenness == 0.1);
  CHECK(t.travel == 5);
  CHECK(t.turn_overs == 10);
  CHECK(cost_of(t, {}) - least_cost_of(t, {}) == Approx(Prices{}.unevenness * 0.1));
}
