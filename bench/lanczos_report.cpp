// Our Lanczos search beside that of Spectra (Debian: libspectra-dev), on one and the same operator: the buckling problem of an
// invented aileron after a full pass over every zone, -K_G x = mu T x, with the same factor of T. Prints what RECORD.md holds.
#include "solver/equilibrium/holding.hpp"
#include "solver/ironing/ironing.hpp"
#include "solver/numerics/lanczos.hpp"
#include "tests/support/sample_case.hpp"

#include <Spectra/SymGEigsSolver.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <vector>

using namespace evenpull;

namespace {

constexpr int repetitions = 7;

// T and K_G of the panel as it stands, and what they do to a vector. `solved` counts solutions with the factor of T.
struct Problem {
  Model model;
  Sparse tangent, geometric;
  std::vector<int> held;
  mutable LinearSolver factor;
  mutable long solved = 0;

  explicit Problem(int nodes) : model(sample::aileron(), {nodes}) {
    Ironing ironing(model);
    Covering s = ironing.begin();
    for (int z = 0; z < static_cast<int>(model.panel.zones.size()); ++z)
      ironing.iron(s, z, ironing.heat(0, 1, 1, 1), "benchmark");
    ironing.settle(s, "benchmark");
    Assembly at(model, ironing.options().smoothing);
    at.prepare_frame(s);
    at.take_state(s);
    at.place_nodes(s.unknowns);
    at.assemble();
    hold(model, s.held, at.matrix());
    tangent = at.matrix();
    geometric = at.geometric(s);
    held = model.held[static_cast<int>(s.held)];
    factor.use(model.analysis);
    if (!factor.factorise(tangent)) std::printf("the panel does not stand\n");
  }
  Eigen::VectorXd times_t(const Eigen::VectorXd& x) const { return tangent.selfadjointView<Eigen::Lower>() * x; }
  Eigen::VectorXd times_a(const Eigen::VectorXd& x) const { return -(geometric.selfadjointView<Eigen::Lower>() * x); }
  Eigen::VectorXd solve_t(const Eigen::VectorXd& b) const {
    Eigen::VectorXd x;
    factor.solve(b, x);
    for (int i : held) x[i] = 0;
    ++solved;
    return x;
  }
  Eigen::VectorXd start() const {
    Eigen::VectorXd v = chance_vector(static_cast<int>(tangent.rows()), 0);
    for (int i : held) v[i] = 0;
    return v;
  }
  double residual(double mu, const Eigen::VectorXd& x) const {
    const Eigen::VectorXd r = times_a(x) - mu * times_t(x);
    return std::sqrt(std::max(0.0, r.dot(solve_t(r))) / x.dot(times_t(x))) / std::abs(mu);
  }
};

using In = Eigen::Map<const Eigen::VectorXd>;
using Out = Eigen::Map<Eigen::VectorXd>;

// The two operators as Spectra asks for them.
struct TimesA {
  using Scalar = double;
  const Problem& p;
  Eigen::Index rows() const { return p.tangent.rows(); }
  Eigen::Index cols() const { return p.tangent.rows(); }
  void perform_op(const double* x, double* y) const { Out(y, rows()) = p.times_a(In(x, rows())); }
};
struct WithT {
  using Scalar = double;
  const Problem& p;
  Eigen::Index rows() const { return p.tangent.rows(); }
  Eigen::Index cols() const { return p.tangent.rows(); }
  void perform_op(const double* x, double* y) const { Out(y, rows()) = p.times_t(In(x, rows())); }
  void solve(const double* x, double* y) const { Out(y, rows()) = p.solve_t(In(x, rows())); }
};

// What one search gave.
struct Run {
  std::vector<double> values;
  std::vector<Eigen::VectorXd> vectors;
  double seconds = 0;  // of the processor
  long solved = 0;
};

template <class F>
Run timed(const Problem& p, const F& search) {
  Run r;
  p.solved = 0;
  const std::clock_t begin = std::clock();
  search(r);
  r.seconds = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  r.solved = p.solved;
  return r;
}

Run ours(const Problem& p, int count, double tolerance) {
  SymmetricPencil pencil{static_cast<int>(p.tangent.rows()), [&](const Eigen::VectorXd& x) { return p.times_a(x); },
                         [&](const Eigen::VectorXd& x) { return p.times_t(x); },
                         [&](const Eigen::VectorXd& b) { return p.solve_t(b); }};
  LanczosOptions options;
  options.count = count, options.tolerance = tolerance;
  return timed(p, [&](Run& r) {
    for (const EigenPair& e : largest_from(pencil, p.start(), options))
      r.values.push_back(e.value), r.vectors.push_back(e.vector);
  });
}

Run theirs(const Problem& p, int count, double tolerance, int kept) {
  return timed(p, [&](Run& r) {
    TimesA a{p};
    WithT t{p};
    Spectra::SymGEigsSolver<TimesA, WithT, Spectra::GEigsMode::RegularInverse> solver(a, t, count, kept);
    // The same start: in the range of T^-1 A.
    const Eigen::VectorXd start = p.solve_t(p.times_a(p.start()));
    solver.init(start.data());
    constexpr int most_rounds = 1000;
    solver.compute(Spectra::SortRule::LargestAlge, most_rounds, tolerance);
    const Eigen::VectorXd values = solver.eigenvalues();
    const Eigen::MatrixXd vectors = solver.eigenvectors();
    for (Eigen::Index i = 0; i < values.size(); ++i) r.values.push_back(values[i]), r.vectors.push_back(vectors.col(i));
  });
}

bool same_bytes(const Run& a, const Run& b) {
  if (a.values != b.values || a.vectors.size() != b.vectors.size()) return false;
  for (std::size_t i = 0; i < a.vectors.size(); ++i)
    if (std::memcmp(a.vectors[i].data(), b.vectors[i].data(), sizeof(double) * a.vectors[i].size()) != 0) return false;
  return true;
}

template <class F>
Run median_of(const F& search, bool& same) {
  std::vector<Run> runs;
  for (int i = 0; i < repetitions; ++i) runs.push_back(search());
  same = std::all_of(runs.begin(), runs.end(), [&](const Run& r) { return same_bytes(r, runs.front()); });
  std::sort(runs.begin(), runs.end(), [](const Run& a, const Run& b) { return a.seconds < b.seconds; });
  return runs[repetitions / 2];
}

void row(const Problem& p, const char* who, const Run& r, double unit, bool same) {
  double worst = 0;
  for (std::size_t i = 0; i < r.values.size(); ++i) worst = std::max(worst, p.residual(r.values[i], r.vectors[i]));
  std::printf("| %ld | %s | %.2f | %ld | %zu | %.15g | %.1e | %s |\n", static_cast<long>(p.tangent.rows()), who,
              r.seconds / unit, r.solved, r.values.size(), r.values.empty() ? 0 : r.values.front(), worst,
              same ? "yes" : "no");
}

}  // namespace

int main() {
  std::printf(
      "| unknowns | search | time | solutions with T | pairs | largest mu | worst residual | same bytes |\n"
      "|---|---|---|---|---|---|---|---|\n");
  for (const int nodes : {200, 2000}) {
    const Problem p(nodes);
    for (const auto& [count, tolerance] : {std::pair(1, 1e-4), std::pair(6, 1e-9)}) {
      bool same = false;
      const Run own = median_of([&] { return ours(p, count, tolerance); }, same);
      row(p, count > 1 ? "ours, six" : "ours, one", own, own.seconds, same);
      for (const int kept : {10, 15, 20, 40}) {
        const Run other = median_of([&] { return theirs(p, count, tolerance, kept); }, same);
        char who[32];
        std::snprintf(who, sizeof who, "Spectra, %d kept", kept);
        row(p, who, other, own.seconds, same);
      }
    }
  }
}
