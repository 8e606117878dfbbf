// Cost of the whole job on the metal aileron: what a person waits for. On one core, nothing drawn or written.
#include "app/input/case_reader.hpp"
#include "sequencer/planner/planner.hpp"

#include <benchmark/benchmark.h>

namespace {

using namespace evenpull;

void whole_plan(benchmark::State& state) {
  const Case c = read_case(EVENPULL_CASES_DIR "/metal_aileron.toml");
  PlanOptions options;
  options.accuracy = state.range(0) != 0 ? Accuracy::quick : Accuracy::normal;
  for (auto _ : state) {
    const Plan p = make_plan(c, options);
    state.counters["nodes"] = p.solve.nodes;
    state.counters["steps"] = p.solve.steps;
    state.counters["iterations"] = p.solve.iterations;
  }
}
BENCHMARK(whole_plan)->ArgName("quick")->Arg(1)->Arg(0)->Iterations(1)->Unit(benchmark::kSecond);

}  // namespace
