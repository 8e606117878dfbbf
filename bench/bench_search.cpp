// Pace of the reduced models and of the searches on them.
#include "app/input/case_reader.hpp"
#include "sequencer/search/coarse_model.hpp"
#include "sequencer/search/order_search.hpp"
#include "tests/support/line_panel.hpp"

#include <benchmark/benchmark.h>

#include <numeric>

namespace {

using namespace evenpull;

const Case& aileron() {
  static const Case c = read_case(EVENPULL_CASES_DIR "/metal_aileron.toml");
  return c;
}

std::vector<int> counted(int n) {
  std::vector<int> order(static_cast<std::size_t>(n));
  std::iota(order.begin(), order.end(), 0);
  return order;
}

// One more zone on a prefix of the first stage: items a second are nonlinear steps a second on one core.
void prefix_step(benchmark::State& state) {
  const Model m(aileron(), {static_cast<int>(state.range(0))});
  Ironing ironing(m);
  const CoarseModel model(m, 0, ironing.begin(), single_zones(m.panel));
  const std::vector<int> order = counted(model.size());
  for (auto _ : state) {
    PrefixPtr p = model.begin();
    for (int i : order) p = model.step(p, i);
    benchmark::DoNotOptimize(p);
  }
  state.SetItemsProcessed(state.iterations() * model.size());
  state.counters["nodes"] = static_cast<double>(m.panel.nodes.size());
}

// One more zone on superposed influences, all gauges of the aileron.
void influence_step(benchmark::State& state) {
  const Model m(aileron(), {search_nodes});
  Ironing ironing(m);
  const CoarseModel first(m, 0, ironing.begin(), single_zones(m.panel));
  const std::vector<int> order = counted(first.size());
  const PrefixPtr end = walk(first, first.begin(), order);
  const CoarseModel second(m, 1, CoarseModel::covering(*end), single_zones(m.panel));
  const InfluenceModel model(second.measure(order, one_by_one), second.ways(), aileron().stages[1].doses);
  for (auto _ : state) benchmark::DoNotOptimize(evaluate(model, {}, order));
  state.SetItemsProcessed(state.iterations() * model.size() * model.passes());
}

void search_line_panel(benchmark::State& state) {
  const InfluenceModel m = line_panel(static_cast<int>(state.range(0)));
  SearchOptions options;
  options.most_steps = 400'000;
  options.width = 16;
  options.most_tries = 200'000;
  for (auto _ : state) benchmark::DoNotOptimize(search_orders(m, {}, options, one_by_one, {counted(m.size())}));
  state.SetComplexityN(state.range(0));
}

BENCHMARK(prefix_step)->Arg(120)->Arg(200)->Arg(350)->Unit(benchmark::kMillisecond);
BENCHMARK(influence_step)->Unit(benchmark::kMicrosecond);
BENCHMARK(search_line_panel)
    ->Arg(12)
    ->Arg(24)
    ->Arg(48)
    ->Arg(120)
    ->Arg(400)
    ->Unit(benchmark::kMillisecond)
    ->Complexity();

}  // namespace
