// Cost of one zone-step on the metal aileron, and of the factorisation inside it.
// An iteration is one law per triangle + assembly + one factorisation + one solution; what is left after the other
// three is assembly.
#include "app/input/case_reader.hpp"
#include "solver/ironing/ironing.hpp"

#include <benchmark/benchmark.h>

#include <algorithm>

namespace {

using namespace evenpull;

const Case& aileron() {
  static const Case c = read_case(EVENPULL_CASES_DIR "/metal_aileron.toml");
  return c;
}

Model make_model(const benchmark::State& state) {
  MeshOptions options;
  options.target_nodes = static_cast<int>(state.range(0));
  return Model(aileron(), options);
}

void note_size(benchmark::State& state, const Model& m) {
  state.counters["nodes"] = static_cast<double>(m.panel.nodes.size());
  state.counters["unknowns"] = static_cast<double>(m.pattern.rows());
}

// A positive definite matrix of the tangent's pattern; the numbers in it do not change what a factorisation costs.
Sparse filled(const Model& m) {
  Sparse k = m.pattern;
  std::fill(k.valuePtr(), k.valuePtr() + k.nonZeros(), -1.0);
  for (int i : m.diagonal) k.valuePtr()[i] = 1e3;
  return k;
}

void mesh_and_pattern(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(make_model(state));
}

void factorise(benchmark::State& state) {
  const Model m = make_model(state);
  const Sparse k = filled(m);
  LinearSolver solver;
  solver.analyse(k);
  for (auto _ : state) benchmark::DoNotOptimize(solver.factorise(k));
  note_size(state, m);
}

void solve_with_factor(benchmark::State& state) {
  const Model m = make_model(state);
  const Sparse k = filled(m);
  LinearSolver solver;
  solver.analyse(k);
  solver.factorise(k);
  const Eigen::VectorXd b = Eigen::VectorXd::Ones(k.rows());
  Eigen::VectorXd x;
  for (auto _ : state) {
    solver.solve(b, x);
    benchmark::DoNotOptimize(x);
  }
}

// First zone of the first stage on loose cloth, a full dose: the hardest kind of step.
void first_zone_step(benchmark::State& state) {
  const Model m = make_model(state);
  Ironing ironing(m);
  const Covering start = ironing.begin();
  const int zone = static_cast<int>(m.panel.zones.size() / 4);  // in the middle of the top
  ironing.heat(0, 1, 1, 1);                                     // worked out once, as in a plan
  const int before = ironing.iterations();
  for (auto _ : state) {
    Covering c = start;
    ironing.iron(c, zone, ironing.heat(0, 1, 1, 1), "benchmark");
  }
  state.counters["iterations"] =
      static_cast<double>(ironing.iterations() - before) / static_cast<double>(state.iterations());
  note_size(state, m);
}

// What a stage end costs: settled, then the fixture taken off and settled again.
void settle_and_release(benchmark::State& state) {
  const Model m = make_model(state);
  Ironing ironing(m);
  Covering start = ironing.begin();
  ironing.iron(start, 0, ironing.heat(0, 1, 1, 1), "benchmark");
  for (auto _ : state) {
    Covering c = start;
    ironing.settle(c, "benchmark");
    ironing.release(c, "benchmark");
  }
  note_size(state, m);
}

BENCHMARK(mesh_and_pattern)->Arg(220)->Arg(2000)->Unit(benchmark::kMillisecond);
BENCHMARK(factorise)->Arg(220)->Arg(2000)->Arg(8000)->Unit(benchmark::kMillisecond);
BENCHMARK(solve_with_factor)->Arg(220)->Arg(2000)->Arg(8000)->Unit(benchmark::kMillisecond);
BENCHMARK(first_zone_step)->Arg(220)->Arg(2000)->Unit(benchmark::kMillisecond);
BENCHMARK(settle_and_release)->Arg(220)->Arg(2000)->Unit(benchmark::kMillisecond);

}  // namespace
