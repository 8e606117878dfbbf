// How the iron gets from thing to thing, and a search that has nothing but the ways to go by.
#include "sequencer/orders/ways.hpp"
#include "sequencer/search/order_search.hpp"
#include "tests/sequencer/random_influence.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

struct Bench {
  Case the_case = sample::aileron(3, 0.9, 0.3);
  Panel panel = build_panel(the_case, {120});
};

}  // namespace

TEST_CASE("whole bays hold every zone once, each bay of one side from the leading edge back") {
  const Bench b;
  const Things bays = whole_bays(b.panel);
  REQUIRE(bays.size() == 6);
  std::vector<int> all = zones_in(bays, {0, 1, 2, 3, 4, 5});
  CHECK(holds_each_once(all, static_cast<int>(b.panel.zones.size())));
  for (std::size_t i = 0; i < bays.size(); ++i) {
    REQUIRE(static_cast<int>(bays[i].size()) == b.panel.strips);
    for (int k = 0; k < b.panel.strips; ++k) {
      const Zone& z = b.panel.zones[bays[i][k]];
      CHECK(z.strip == k);
      CHECK(z.bay == static_cast<int>(i) % 3);
      CHECK(z.side == (i < 3 ? Side::top : Side::bottom));
    }
  }
}

TEST_CASE("turning over is one between sides and none on a side, and nothing where both can be reached") {
  Bench b;
  const Things bays = whole_bays(b.panel);
  const Ways w = ways_between(b.the_case, b.panel, bays);
  for (int i = 0; i < 6; ++i)
    for (int k = 0; k < 6; ++k) CHECK(w.turn_over(i, k) == (i / 3 != k / 3 ? 1 : 0));
  b.the_case.both_sides_reachable = true;
  CHECK(ways_between(b.the_case, b.panel, bays).turn_over.sum() == 0);
}

TEST_CASE("the way from bay to bay is that of the bench: from the last strip to the first of the next, straight over") {
  // Bays of 0.3 m and equal strips: along the span the centres lie 0.3 m apart, along the chord all strips but one.
  const Bench b;
  const Ways w = ways_between(b.the_case, b.panel, whole_bays(b.panel));
  REQUIRE(b.panel.strips == 2);
  const double next = w.travel(0, 1), next_but_one = w.travel(0, 2), over = w.travel(0, 3);
  CHECK(next == Approx(w.travel(1, 2)).epsilon(1e-6));
  // The same way along the chord in both, which is the way straight over: Pythagoras.
  CHECK(std::hypot(0.3, over) == Approx(next).epsilon(1e-6));
  CHECK(std::hypot(0.6, over) == Approx(next_but_one).epsilon(1e-6));
}

TEST_CASE("with influences that do nothing the search finds the order of the shortest way, known by hand") {
  // Four things in a row, 1 m apart, the first two on top: the best way is along the row, 3 m and one turn-over.
  Influence i = random_influence(4, 1);
  i.effect.setZero();
  i.push.setZero();
  i.push.diagonal().setOnes();
  Ways w{Eigen::MatrixXd::Zero(4, 4), Eigen::MatrixXi::Zero(4, 4)};
  const int place[] = {0, 2, 1, 3};  // thing -> place in the row
  for (int a = 0; a < 4; ++a)
    for (int b = 0; b < 4; ++b) {
      w.travel(a, b) = std::abs(place[a] - place[b]);
      w.turn_over(a, b) = (place[a] < 2) != (place[b] < 2);
    }
  const InfluenceModel m(std::move(i), std::move(w), {1});
  const Prices prices;
  const Found found = search_orders(m, prices, {}, one_by_one, {});
  REQUIRE(found.stands);
  CHECK(found.exact);
  CHECK(found.tally.travel == 3);
  CHECK(found.tally.turn_overs == 1);
  CHECK((found.order == std::vector<int>{0, 2, 1, 3} || found.order == std::vector<int>{3, 1, 2, 0}));
  CHECK(found.cost == Approx(3 * prices.travel + prices.turn_over));
}

TEST_CASE("two cells that take from each other are worked in the order that is known to be best by hand") {
  // Cell 1 shrinks by 1 whatever came before. Cell 0 finds pull 0.5 more once cell 1 is worked and then shrinks by
  // (1 - 0.5)/(1 + 1) instead of 1/2; only cell 0 loads the gauge. So cell 1 first: use 0.25, else 0.5.
  Influence i;
  i.layout.uses = 1;
  i.layout.bays = 1;
  i.start = Eigen::VectorXd::Zero(i.layout.size());
  i.effect = Eigen::MatrixXd::Zero(i.layout.size(), 2);
  i.effect(0, 0) = 1;
  i.push = (Eigen::Matrix2d() << 1, 0.5, 0, 0).finished();
  i.shrink = i.pull = Eigen::VectorXd::Zero(2);
  i.free_shrink = i.give = Eigen::VectorXd::Ones(2);
  i.things = {{{0}}, {{1}}};
  const InfluenceModel m(std::move(i), Ways{}, {1});
  CHECK(evaluate(m, {}, {0, 1}).tally.use == Approx(0.5));
  const Found found = search_orders(m, {}, {}, one_by_one, {});
  CHECK(found.order == std::vector<int>{1, 0});
  CHECK(found.tally.use == Approx(0.25));
  CHECK(found.exact);
}
