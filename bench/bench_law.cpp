// Cost of the law of one triangle: by itself, and as one iteration of the global method.
#include "solver/cloth/membrane.hpp"

#include <benchmark/benchmark.h>

namespace {

using namespace evenpull;

constexpr double beta = 1e-5;  // N/m, as the solver's default

struct Sample {
  Eigen::Matrix3d cold = compliance(1e5, 1e5, 0.1, 5e3);
  ClothPoint point;
  explicit Sample(bool hot) {
    point.cold = &cold;
    point.hot = hot;
    for (LoadLine& l : point.line) l = {0.04, 0.04 / 350, 0, 350};
  }
};

// Strains of loose, puckered and tight cloth.
const Mandel strains[3] = {{-0.01, -0.01, 0}, {0.004, -0.006, 0.002}, {0.004, 0.003, 0.001}};

void law_by_itself(benchmark::State& state) {
  const Sample s(state.range(1) != 0);
  const Mandel e = strains[state.range(0)];
  Tension t;
  for (auto _ : state) benchmark::DoNotOptimize(solve_law(s.point, e, beta, t));
}
BENCHMARK(law_by_itself)->ArgsProduct({{0, 1, 2}, {0, 1}})->ArgNames({"state", "hot"});

void law_linearised(benchmark::State& state) {
  const Sample s(false);
  Tension t;
  solve_law(s.point, strains[1], beta, t);
  for (auto _ : state) benchmark::DoNotOptimize(linearise(s.point, strains[1], t, beta));
}
BENCHMARK(law_linearised);

void strain_and_its_matrix(benchmark::State& state) {
  Corners placed;
  placed << 0, 0, 0, 0.03, 0, 0, 0, 0.04, 0;
  const Triangle t = make_triangle(placed, Eigen::Vector3d::UnitY(), 0.1, 0.5);
  for (auto _ : state) {
    benchmark::DoNotOptimize(placed);
    const auto f = deformation(t, placed);
    benchmark::DoNotOptimize(green_lagrange(f));
    benchmark::DoNotOptimize(strain_matrix(t, f));
  }
}
BENCHMARK(strain_and_its_matrix);

}  // namespace
