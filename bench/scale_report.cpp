// What a zone-step costs as the mesh grows, beside one factorisation of the same tangent by CHOLMOD with OpenBLAS: the table of
// RECORD.md. One core: run it with OPENBLAS_NUM_THREADS=1. `evenpull_scale_report [most nodes]`, 30,000 if not said: some
// minutes; 100,000: half an hour. `evenpull_scale_report NODES FOLDER` also leaves there what scipy_step.py reads. The panel is that of tests/cases/three_ribs.toml, 16 zones whatever the mesh.
#include "app/input/case_reader.hpp"
#include "bench/processor_time.hpp"
#include "sequencer/orders/families.hpp"
#include "solver/ironing/ironing.hpp"
#include "solver/numerics/linear_solver.hpp"

#include <Eigen/CholmodSupport>
#include <unsupported/Eigen/SparseExtra>

#include <omp.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <vector>

namespace {

using namespace evenpull;

template <class Work>
double median_of_three(const Work& work) {
  std::vector<double> t;
  for (int i = 0; i < 3; ++i) {
    const double start = processor_seconds();
    work();
    t.push_back(processor_seconds() - start);
  }
  std::sort(t.begin(), t.end());
  return t[1];
}

// Seconds of one factorisation of this tangent, by ours and by CHOLMOD.
struct Factorisations {
  double ours = 0, cholmod = 0;
};

Factorisations factorise(const Sparse& lower) {
  Factorisations f;
  LinearSolver ours;
  ours.analyse(lower);
  f.ours = median_of_three([&] { ours.factorise(lower); });
  // CHOLMOD asks for four threads by name, which count here and only wait for each other on matrices of this size.
  omp_set_max_active_levels(0);
  Eigen::CholmodSupernodalLLT<Sparse, Eigen::Lower> other;
  other.cholmod().nmethods = 1;
  other.cholmod().method[0].ordering = CHOLMOD_AMD;
  other.cholmod().postorder = 1;
  other.analyzePattern(lower);
  f.cholmod = median_of_three([&] { other.factorize(lower); });
  return f;
}

struct Job {
  double seconds = 0;
  int steps = 0, iterations = 0;
};

// The order's first `most` zone-steps, certified, with the end of each stage that they reach.
Job iron(const Model& m, std::size_t most, Covering& s) {
  const std::vector<Order> orders = order_families(m.panel);
  const auto centre_out =
      std::find_if(orders.begin(), orders.end(), [](const Order& o) { return o.id.is(Family::halving); });
  const std::vector<Step> steps = steps_of(m.the_case, m.panel, *centre_out);
  Ironing ironing(m, certified_options(m));
  s = ironing.begin();
  const int before = ironing.iterations();
  const double start = processor_seconds();
  Job job;
  for (std::size_t i = 0; i < std::min(most, steps.size()); ++i, ++job.steps) {
    const Step& step = steps[i];
    ironing.iron(s, step.zone, ironing.heat(step.stage, step.pass, step.dose, step.dose == 1 ? 1 : 0),
                 SolveName("bench"));
    if (i + 1 == steps.size() || steps[i + 1].stage != step.stage) ironing.settle(s, SolveName("bench"));
  }
  job.seconds = processor_seconds() - start;
  job.iterations = ironing.iterations() - before;
  return job;
}

struct Row {
  double nodes = 0, whole = 0, first = 0;  // seconds a step
};

// The tangent and what ours took, for a library that is no part of this build.
void leave(const std::string& folder, const Sparse& lower, const Row& row, const Job& job, double factorisation) {
  const std::string name = folder + "/step_" + std::to_string(static_cast<int>(row.nodes));
  Eigen::saveMarket(lower, name + ".mtx", Eigen::Lower);
  std::ofstream(name + ".json") << "{\"nodes\": " << row.nodes
                                << ", \"iterations_a_step\": " << static_cast<double>(job.iterations) / job.steps
                                << ", \"seconds_a_step\": " << job.seconds / job.steps
                                << ", \"seconds_a_factorisation\": " << factorisation << "}\n";
}

double exponent(const std::vector<Row>& rows, double Row::*value) {
  double n = 0, x = 0, y = 0, xx = 0, xy = 0;
  for (const Row& r : rows) {
    if (r.*value <= 0) continue;
    const double a = std::log(r.nodes), b = std::log(r.*value);
    ++n, x += a, y += b, xx += a * a, xy += a * b;
  }
  return (n * xy - x * y) / (n * xx - x * x);
}

}  // namespace

int main(int argc, char** argv) {
  constexpr std::size_t few = 4;         // steps of a comparison that the largest meshes bear
  constexpr int most_for_whole = 30000;  // nodes of a whole job
  const int most = argc > 1 ? std::atoi(argv[1]) : most_for_whole;
  const Case c = read_case(EVENPULL_TEST_CASES_DIR "/three_ribs.toml");
  std::printf(
      "| nodes | unknowns | factorisation, ours / CHOLMOD | iterations a step | a step of the whole job, in "
      "factorisations "
      "of CHOLMOD | iterations, first 4 steps | a step of these |\n|---|---|---|---|---|---|---|\n");
  std::vector<Row> rows;
  for (const int nodes : {2000, 8000, 30000, 100000}) {
    if (nodes > most) break;
    MeshOptions options;
    options.target_nodes = nodes;
    const Model m(c, options);
    Row row;
    row.nodes = static_cast<double>(m.panel.nodes.size());
    Covering s;
    const Job first = iron(m, few, s);
    row.first = first.seconds / first.steps;
    Equilibrium shape(m, usual_options(m));
    const Sparse tangent = shape.tangent(s);
    const Factorisations f = factorise(tangent);
    std::printf("| %.0f | %d | %.2f | ", row.nodes, static_cast<int>(m.pattern.rows()), f.ours / f.cholmod);
    if (nodes <= most_for_whole) {
      const Job whole = iron(m, static_cast<std::size_t>(-1), s);
      row.whole = whole.seconds / whole.steps;
      if (argc > 2) leave(argv[2], tangent, row, whole, f.ours);
      std::printf("%.1f | %.1f |", static_cast<double>(whole.iterations) / whole.steps, row.whole / f.cholmod);
    } else {
      std::printf("| |");
    }
    std::printf(" %.1f | %.1f |\n", static_cast<double>(first.iterations) / first.steps, row.first / f.cholmod);
    std::fflush(stdout);
    rows.push_back(row);
  }
  std::printf("\nTime grows with the nodes to the power %.2f (whole job), %.2f (first steps).\n",
              exponent(rows, &Row::whole), exponent(rows, &Row::first));
}
