// The searches against every order there is, against each other and against panels worked by hand.
#include "sequencer/search/order_proof.hpp"
#include "sequencer/search/order_search.hpp"
#include "tests/sequencer/random_influence.hpp"
#include "tests/support/every_order.hpp"
#include "tests/support/line_panel.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>
#include <utility>

using namespace evenpull;

namespace {

class KeepsEveryPrefix : public InfluenceModel {
 public:
  explicit KeepsEveryPrefix(InfluenceModel m) : InfluenceModel(std::move(m)) {}
  int kept_every() const override { return 1; }
};

}  // namespace

TEST_CASE("branch and bound finds what trying every order finds, up to eight things") {
  const Prices prices;
  for (int n : {2, 4, 6}) {
    for (unsigned seed = 1; seed <= 10; ++seed) {
      const InfluenceModel m = random_model(n, seed, seed % 2 ? std::vector<double>{1} : std::vector<double>{0.5, 1});
      const Found all = try_all(m, prices), found = branch_and_bound(m, prices, 10'000'000);
      INFO(n << " things, seed " << seed);
      CHECK(found.exact);
      CHECK(found.cost == Approx(all.cost).epsilon(1e-12));
      CHECK(found.steps <= all.steps);
    }
  }
  const InfluenceModel m = random_model(8, 5);
  CHECK(branch_and_bound(m, prices, 10'000'000).cost == Approx(try_all(m, prices).cost).epsilon(1e-12));
}

TEST_CASE("every search gives every thing once and never does worse than its seed") {
  const Prices prices;
  for (unsigned seed = 1; seed <= 5; ++seed) {
    const InfluenceModel m = random_model(12, seed);
    std::vector<int> plain(12);
    std::iota(plain.begin(), plain.end(), 0);
    const Found from = evaluate(m, prices, plain);
    const Found better = improve(m, prices, plain, 50000, one_by_one);
    const Found all = search_orders(m, prices, {9, 20000, 8, 20000}, one_by_one, {plain});
    CHECK(holds_each_once(better.order, 12));
    CHECK(holds_each_once(all.order, 12));
    CHECK(better.cost <= from.cost);
    CHECK(all.cost <= from.cost);
    CHECK(all.least_cost <= all.cost);
  }
}

TEST_CASE(
    "a best-first search finds the same whether prefixes are kept or made again, and what it leaves open is a bound") {
  const Prices prices;
  for (unsigned seed = 1; seed <= 4; ++seed) {
    const InfluenceModel m = random_model(7, seed);
    std::vector<int> plain(7);
    std::iota(plain.begin(), plain.end(), 0);
    const double least = try_all(m, prices).cost;
    for (const long steps : {50L, 2000L, 1'000'000L}) {
      INFO("seed " << seed << ", " << steps << " steps");
      const Found start = evaluate(m, prices, plain);
      const Found a = bound_best_first(m, prices, steps, start, one_by_one);
      const Found b = bound_best_first(KeepsEveryPrefix(m), prices, steps, start, one_by_one);
      CHECK(a.order == b.order);
      CHECK(a.cost == b.cost);
      CHECK(a.least_cost == b.least_cost);
      CHECK(a.least_use == b.least_use);
      CHECK(a.steps == b.steps);
      CHECK(a.least_cost <= least + 1e-12);
      if (a.exact) CHECK(a.cost == Approx(least).epsilon(1e-9));
    }
  }
}

TEST_CASE("a search gives the same order in whatever order its work is done") {
  const Prices prices;
  const InfluenceModel m = random_model(10, 3);
  const ParallelFor backwards = [](int n, const std::function<void(int)>& work) {
    for (int i = n - 1; i >= 0; --i) work(i);
  };
  std::vector<int> plain(10);
  std::iota(plain.begin(), plain.end(), 0);
  const SearchOptions options{9, 5000, 4, 5000};
  CHECK(search_orders(m, prices, options, one_by_one, {plain}).order ==
        search_orders(m, prices, options, backwards, {plain}).order);
}

TEST_CASE("two zones worked by hand: the second is held back by the first") {
  // Invented panel of two zones. free = 1, give = 1, own push 1, mutual push 0.5:
  // alone s = 1 - s, so s = 1/2; the second after the first: s = 1 - (s + 0.5 * 0.5), so s = 3/8.
  Influence i;
  i.layout.uses = 1;
  i.start = Eigen::VectorXd::Zero(1);
  i.effect = Eigen::MatrixXd(1, 2);
  i.effect << 1, 2;
  i.shrink = i.pull = Eigen::VectorXd::Zero(2);
  i.push = Eigen::MatrixXd(2, 2);
  i.push << 1, 0.5, 0.5, 1;
  i.free_shrink = i.give = Eigen::VectorXd::Ones(2);
  i.things = {{{0}}, {{1}}};
  const InfluenceModel m(i, {}, {1});
  CHECK(walk(m, m.begin(), {0, 1})->tally.use == Approx(0.5 * 1 + 0.375 * 2));
  CHECK(walk(m, m.begin(), {1, 0})->tally.use == Approx(0.5 * 2 + 0.375 * 1));
  const Found best = branch_and_bound(m, {}, 100);
  CHECK(best.order == std::vector<int>{0, 1});
  // The bound: both full ends 1/2 + 1, less the dearer of the two losses, 2 * 1/8.
  CHECK(m.least_end_use(*m.begin()) == Approx(1.5 - 0.25));
  CHECK(best.least_use == Approx(1.25));
}

TEST_CASE(
    "the ratchet: worked again, a zone that others have relieved shrinks further and one that others pull stays") {
  Influence i;
  i.layout.uses = 1;
  i.start = Eigen::VectorXd::Zero(1);
  i.effect = Eigen::MatrixXd::Ones(1, 2);
  i.shrink = i.pull = Eigen::VectorXd::Zero(2);
  i.push = Eigen::MatrixXd(2, 2);
  i.push << 1, -0.5, 0.5, 1;  // 1 relieves 0, 0 pulls 1
  i.free_shrink = i.give = Eigen::VectorXd::Ones(2);
  i.things = {{{0}}, {{1}}};
  const InfluenceModel m(i, {}, {1, 1});
  PrefixPtr p = m.step(m.begin(), 0);
  p = m.step(p, 1);
  const Eigen::VectorXd once = InfluenceModel::gained(*p);
  p = m.step(p, 0);
  CHECK(InfluenceModel::gained(*p)[0] == Approx((1 + 0.5 * once[1]) / 2));
  p = m.step(p, 1);
  CHECK(InfluenceModel::gained(*p)[1] == once[1]);
}

TEST_CASE("a light dose goes its share of the way along the load line") {
  // s = phi (1 - N), N = s: s = phi/(1 + phi), from the law in influence.hpp.
  Influence i;
  i.layout.uses = 1;
  i.start = Eigen::VectorXd::Zero(1);
  i.effect = Eigen::MatrixXd::Ones(1, 1);
  i.shrink = i.pull = Eigen::VectorXd::Zero(1);
  i.push = Eigen::MatrixXd::Ones(1, 1);
  i.free_shrink = i.give = Eigen::VectorXd::Ones(1);
  i.things = {{{0}}};
  const InfluenceModel m(i, {}, {0.25});
  CHECK(InfluenceModel::gained(*m.step(m.begin(), 0))[0] == Approx(0.25 / 1.25));
}

TEST_CASE("on a panel with two like sides the mirrored order costs the same") {
  // Two sides of four zones each; influences are the same with the sides exchanged. Invented.
  const int n = 8;
  Influence i = random_influence(n, 9, 2);
  const auto mirror = [](int c) { return c % 2 == 0 ? c + 1 : c - 1; };
  for (int r = 0; r < n; ++r)
    for (int c = 0; c < n; ++c)
      if (c % 2 == 1) i.push(r, c) = i.push(mirror(r), mirror(c));
  for (int c = 1; c < n; c += 2) {
    for (int g = 0; g < 2; ++g)
      i.effect(g, c) = i.effect(1 - g, mirror(c));  // gauge 0 sees the top as 1 sees the bottom
    for (int k = 0; k < 4; ++k) i.effect(2 + k, c) = i.effect(2 + (k ^ 1), mirror(c));
  }
  const InfluenceModel m(i, {}, {1});
  std::vector<int> order = {3, 0, 5, 6, 1, 7, 2, 4}, image;
  for (int c : order) image.push_back(mirror(c));
  CHECK(evaluate(m, {}, order).cost == Approx(evaluate(m, {}, image).cost).epsilon(1e-12));
}

TEST_CASE("of a panel of 48 zones the order found is proven to be within 10 % of the best of the model") {
  SearchOptions options;
  options.width = 64, options.most_steps = 100'000, options.most_tries = 50'000;
  const Found f = search_orders(line_panel(48), {}, options, one_by_one, {});
  CHECK(f.least_use <= f.tally.use);
  CHECK(f.gap() < 0.10);  // 6 % with the searches of a normal plan
}
