#include "sequencer/choice/choice.hpp"

#include <catch2/catch.hpp>

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
  CHECK(clearly_better(order(3, 0.95, 0.2), order(2, 0.5, 0.05), true));
}

TEST_CASE("among equal ceilings the lower worst use wins, unless it is within two percent") {
  CHECK(clearly_better(order(2, 0.80), order(2, 0.90), true));
  CHECK_FALSE(clearly_better(order(2, 0.890), order(2, 0.900), true));
}

TEST_CASE("when the worst limit ties, the next worst limits decide before anything else") {
  OrderResult a = order(2, 0.96, 0.11), b = order(2, 0.96, 0.09);
  a.uses = {0.96, 0.60, 0.50};
  b.uses = {0.96, 0.87, 0.40};
  CHECK(clearly_better(a, b, true));
  CHECK_FALSE(clearly_better(b, a, true));
}

TEST_CASE("close uses are decided by unevenness, then pull difference, then slip, then turn-overs") {
  CHECK(clearly_better(order(2, 0.90, 0.05), order(2, 0.90, 0.10), true));
  CHECK(clearly_better(order(2, 0.90, 0.10, 50), order(2, 0.90, 0.10, 100), true));
  CHECK(clearly_better(order(2, 0.90, 0.10, 100, 0.5e-3), order(2, 0.90, 0.10, 100, 1e-3), true));
  CHECK(clearly_better(order(2, 0.90, 0.10, 100, 1e-3, 5), order(2, 0.90, 0.10, 100, 1e-3, 10), true));
}

TEST_CASE("turn-overs do not count where both sides can be reached") {
  CHECK_FALSE(clearly_better(order(2, 0.9, 0.1, 100, 1e-3, 5), order(2, 0.9, 0.1, 100, 1e-3, 10), false));
}

TEST_CASE("of equals the easiest order is kept") {
  CHECK(best_of({order(2, 0.9), order(2, 0.9), order(2, 0.895)}, true) == 0);
}
