// Orders by name and rule, and what is wrong with one that somebody gave.
#include "sequencer/orders/families.hpp"
#include "tests/support/sample_case.hpp"
#include "viz/words/order_words.hpp"

#include <catch2/catch.hpp>

#include <set>

using namespace evenpull;
using namespace evenpull::viz;
using Catch::Matchers::Contains;

TEST_CASE("every family of orders has a name of its own and a rule of whole sentences") {
  std::set<std::string> names;
  for (const Order& o : order_families(build_panel(sample::aileron(6, 1.8, 0.4), {}))) {
    CHECK(names.insert(order_name(o.id)).second);
    CHECK(order_rule(o.id).back() == '.');
  }
  for (const Family f : {Family::searched, Family::searched_for_last, Family::searched_by_stage,
                         Family::searched_few_turns, Family::searched_rest, Family::as_given}) {
    CHECK(names.insert(order_name({f})).second);
    CHECK(order_rule({f}).back() == '.');
  }
}

TEST_CASE("a mirrored order says how it was mirrored, and its rule is the one that is mirrored") {
  const Panel p = build_panel(sample::aileron(3, 0.9, 0.3), {});
  const Order plain = order_families(p)[1];
  const Order both = mirrored(p, mirrored(p, plain, true, false), false, true);
  CHECK(order_name(both.id) == order_name(plain.id) + " (sides exchanged) (root and tip exchanged)");
  CHECK(order_rule(both.id) == order_rule(plain.id) + " Mirrored: sides exchanged. Mirrored: root and tip exchanged.");
  CHECK(mirrored(p, plain, false, false).id == plain.id);
}

TEST_CASE("a searched order of whole bays is said bay by bay") {
  OrderId o{Family::searched};
  o.bays = {{Side::top, 2}, {Side::top, 0}, {Side::bottom, 1}};
  CHECK(order_rule(o) == "Bay by bay, counted from the root, each from the leading edge back: top 3, 1; bottom 2.");
}

TEST_CASE("an order that cannot be worked is refused with the step and what there is instead") {
  using Kind = OrderTrouble::Kind;
  CHECK(order_trouble_text({Kind::no_such_bay, 4, 0, 9, 5}) ==
        "step 4: bay 9 does not exist; the panel has bays 1 to 5");
  CHECK_THAT(order_trouble_text({Kind::no_such_stage, 1, 394.2611}), Contains("no stage at 250"));
  CHECK_THAT(order_trouble_text({Kind::stage_left_out, 2, 394.2611}), Contains("leaves out the stage at 250"));
  CHECK_THAT(order_trouble_text({Kind::nothing_left}), Contains("nothing left to plan"));
  CHECK_THAT(order_trouble_text({Kind::pass_not_stated, 0, 394.2611, 4, 2}),
             Contains("pass 4") && Contains("state that pass"));
}
