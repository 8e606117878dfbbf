#include "sequencer/choice/front.hpp"
#include "sequencer/replay/tally.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

OrderResult order(const std::string& name, int turn_overs, double use, double difference) {
  OrderResult o;
  o.name = name;
  o.turn_overs_a_pass = turn_overs;
  o.worst_use = use;
  o.worst_pull_difference_spanwise = difference;
  return o;
}

}  // namespace

TEST_CASE("the front keeps what no other order beats in turn-overs, use and pull difference at once") {
  const auto front = front_of({order("many", 6, 0.80, 70), order("beaten", 6, 0.90, 90), order("few", 2, 0.85, 240),
                               order("few and even", 2, 0.95, 150), order("worse than few", 3, 0.86, 250)});
  REQUIRE(front.size() == 3);
  CHECK(front[0].order == "many");
  CHECK(front[1].order == "few");
  CHECK(front[2].order == "few and even");
}

TEST_CASE("of equal orders one stays on the front") {
  CHECK(front_of({order("a", 2, 0.5, 100), order("b", 2, 0.5, 100)}).size() == 1);
}

TEST_CASE("the chosen order is always on the list, beaten or not") {
  std::vector<OrderResult> all = {order("best", 1, 0.5, 50), order("easier", 2, 0.51, 60)};
  all[1].chosen = true;
  CHECK(front_of(all).size() == 2);
}

TEST_CASE("the trade of turn-overs is said in one sentence, and not at all when there is none") {
  const auto front = front_of({order("many", 6, 0.80, 70), order("one", 1, 0.85, 240)});
  CHECK(front_sentence(front) ==
        "6 turn-overs a pass keep the worst pull difference at 70 N/m and the use at 0.80; 1 turn-over makes them 240 N/m "
        "and 0.85 (coarse mesh).");
  CHECK(front_sentence(front_of({order("only", 1, 0.5, 10)})).empty());
}

TEST_CASE("what is proven about an order says for which model, and when nothing was left out") {
  Case c;
  c.stages = {{394.26, {1}}};
  StageSearch s;
  s.model = "of this test";
  s.things = 6;
  s.cost = 1, s.least_cost = 0.9, s.use = 0.8, s.least_use = 0.7;
  const std::string open = gap_sentence(c, {s}, 0);
  CHECK(open.find("below 0.70") != std::string::npos);
  CHECK(open.find("at most 10 % more") != std::string::npos);
  CHECK(open.find("of this test") != std::string::npos);
  s.least_cost = 0.1, s.steps = 700;
  CHECK(gap_sentence(c, {s}, 0).find("nothing useful is proven") != std::string::npos);
  s.exact = true;
  CHECK(gap_sentence(c, {s}, 0).find("no order of the 6 pieces costs less") != std::string::npos);
  CHECK(gap_sentence(c, {}, 0).empty());
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
