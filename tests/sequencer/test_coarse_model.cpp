// The reduced models against the model that they stand for, on a small invented panel.
#include "sequencer/orders/families.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/search/coarse_model.hpp"
#include "sequencer/search/influence.hpp"
#include "sequencer/search/order_search.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

Case small() {
  Case c = sample::aileron(3, 0.9, 0.3);
  c.stages.resize(2);
  c.stages[0].doses = {0.25, 1};
  c.stages[1].doses = {1, 1};
  return c;
}

struct Bench {
  Case the_case = small();
  Model mesh{the_case, {120}};
  Ironing ironing{mesh};
  CoarseModel first{mesh, 0, ironing.begin(), whole_bays(mesh.panel)};
  std::vector<int> order = {1, 4, 0, 3, 5, 2};
};

}  // namespace

TEST_CASE("a walk through prefixes is the replay of the same steps on the same mesh") {
  Bench b;
  const PrefixPtr end = walk(b.first, b.first.begin(), b.order);
  Order o;
  o.zones = zones_in(b.first.things(), b.order);
  std::vector<Step> steps = steps_of(b.the_case, b.mesh.panel, o);
  std::erase_if(steps, [](const Step& s) { return s.stage > 0; });
  const ReplayResult r = replay(b.mesh, steps, {});
  double use = 0, difference = 0, slip = 0;
  for (const Tally& t : r.moments)
    use = std::max(use, t.use), difference = std::max(difference, t.difference), slip = std::max(slip, t.slip);
  CHECK(end->tally.use >= use);  // the settled and the released state count as well
  CHECK(end->tally.difference == Approx(std::max(difference, r.stages[0].worst_difference_chord)).epsilon(0.02));
  CHECK(end->tally.slip == Approx(r.stages[0].worst_slip).epsilon(0.02).margin(1e-6));
}

TEST_CASE("a prefix is not changed by what is tried after it, and a step asked for twice gives the same bits") {
  Bench b;
  const PrefixPtr one = b.first.step(b.first.begin(), 2);
  const double use = one->tally.use;
  const PrefixPtr a = b.first.step(one, 3), other = b.first.step(one, 5), again = b.first.step(one, 3);
  CHECK(one->tally.use == use);
  CHECK(one->steps == 1);
  CHECK(a->tally.use == again->tally.use);
  CHECK(a->tally.difference == again->tally.difference);
  CHECK(CoarseModel::gauges(*a) == CoarseModel::gauges(*again));
  CHECK(CoarseModel::gauges(*a) != CoarseModel::gauges(*other));
}

TEST_CASE("superposed influences foretell the second stage within a tenth, in the order measured and in another") {
  Bench b;
  const PrefixPtr end = walk(b.first, b.first.begin(), b.order);
  REQUIRE(end->stands);
  const CoarseModel second(b.mesh, 1, CoarseModel::covering(*end), whole_bays(b.mesh.panel));
  const InfluenceModel fast(second.measure(b.order, one_by_one), second.ways(), b.the_case.stages[1].doses);
  for (const std::vector<int>& order : {b.order, std::vector<int>{0, 1, 2, 3, 4, 5}}) {
    PrefixPtr slow = second.begin(), quick = fast.begin();
    double worst_use = 0, worst_difference = 0, mean_pull = 0;
    for (int pass = 0; pass < 2; ++pass)
      for (int i : order) {
        slow = second.step(slow, i), quick = fast.step(quick, i);
        Tally s, q;
        take_gauges(second.layout(), CoarseModel::gauges(*slow), s);
        take_gauges(second.layout(), InfluenceModel::gauges(*quick), q);
        worst_use = std::max(worst_use, std::abs(s.use - q.use) / s.use);
        worst_difference = std::max(worst_difference, std::abs(s.difference - q.difference));
      }
    const GaugeLayout& l = second.layout();
    mean_pull = CoarseModel::gauges(*slow).segment(l.first_zone(), 2 * l.zones).mean();
    INFO("use " << worst_use << ", difference " << worst_difference << " of a mean pull of " << mean_pull);
    CHECK(worst_use < 0.1);
    CHECK(worst_difference < 0.1 * mean_pull);
  }
}

TEST_CASE("gauges read back what the readings say") {
  Bench b;
  const PrefixPtr p = b.first.step(b.first.begin(), 1);
  const Readings r = read_off(b.mesh, CoarseModel::covering(*p));
  Tally from_gauges;
  take_gauges(b.first.layout(), CoarseModel::gauges(*p), from_gauges);
  const Tally direct = tally_of(b.the_case.limits, r);
  CHECK(from_gauges.use == Approx(direct.use));
  CHECK(from_gauges.difference == Approx(direct.difference));
  CHECK(from_gauges.slip == Approx(direct.slip));
  CHECK(unevenness_of(b.first.layout(), CoarseModel::gauges(*p)) == Approx(direct.unevenness));
}

TEST_CASE("gauges and readings agree on which directions carry enough to be called uneven") {
  Bench b;
  Covering s = laid_on(b.mesh);
  for (const double fill : {2.0, 200.0}) {  // next to nothing, and a good share
    for (std::size_t t = 0; t < s.tension.size(); ++t)
      s.tension[t].pull = Mandel(400, fill * (b.mesh.panel.quads[t / 4].zone % 2 ? 1 : 2), 0);
    const Readings r = read_off(b.mesh, s);
    CHECK((r.unevenness > 0.1) == (fill > 100));
    const Eigen::VectorXd gauges = gauges_of(b.mesh, b.first.layout(), r);
    CHECK(unevenness_of(b.first.layout(), gauges) == Approx(r.unevenness).margin(1e-12));
  }
}

TEST_CASE("the search in the first stage never ends worse than the orders it began with") {
  Bench b;
  const Found seed = evaluate(b.first, {}, b.order);
  const Found found = search_orders(b.first, {}, {0, 60, 1, 40}, one_by_one, {b.order});
  CHECK(found.stands);
  CHECK(found.cost <= seed.cost);
  CHECK(found.least_cost <= found.cost);
  CHECK(found.least_use <= found.tally.use);
}
