// Holds the windows of plans against panels drawn independently and ironed on a finer mesh: the calibration table of
// docs/verification.md. `evenpull_window_report [panels] [panels of other kinds] [nodes] CASE...`
#include "app/command/parallel.hpp"
#include "app/input/case_reader.hpp"
#include "sequencer/planner/planner.hpp"
#include "tests/support/drawn_panels.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

using namespace evenpull;

namespace {

constexpr unsigned first_panel = 2'000'000;

struct Bin {
  double from, to;
};
constexpr Bin bins[] = {{0, 0.5}, {0.5, 0.8}, {0.8, 0.9}, {0.9, 0.95}, {0.95, 0.99}, {0.99, 1.001}};

struct Spread {
  double sum = 0, squares = 0;
  int n = 0;
  void add(double v) { sum += v, squares += v * v, ++n; }
  double mean() const { return n > 0 ? sum / n : 0; }
  double sigma() const { return n > 1 ? std::sqrt(std::max(0.0, squares / n - mean() * mean()) * n / (n - 1)) : 0; }
};

// One bay, and the tightest and loosest of a set, as promised and as they came.
void print_readings(const Plan& plan, const OutcomeModel& m, const StageWindow& w,
                    const std::vector<tests::DrawnPanel>& all) {
  std::vector<ReadingPlace> places;
  for (const BayWindow& b : w.bays)
    for (const BenchCheck& c : plan.bench_checks[static_cast<std::size_t>(w.stage)])
      if (c.side == b.side && c.bay == b.bay)
        if (const auto p = place_of(m, plan.the_case.wanted, plan.panel.bays, w.stage, c)) places.push_back(*p);
  Spread one[2], tightest[2], loosest[2];
  const auto add = [&](int which, const std::vector<double>& sags) {
    one[which].add(sags.front());
    tightest[which].add(*std::min_element(sags.begin(), sags.end()));
    loosest[which].add(*std::max_element(sags.begin(), sags.end()));
  };
  const Eigen::MatrixXd sets = GivenReadings(m, places).whole_sets(20000);
  for (Eigen::Index s = 0; s < sets.rows(); ++s) {
    const Eigen::VectorXd row = sets.row(s);
    add(0, {row.begin(), row.end()});
  }
  for (const tests::DrawnPanel& d : all)
    if (!d.sags.empty()) add(1, d.sags);
  const auto line = [](const char* what, const Spread(&s)[2]) {
    std::printf("  %s, log over expected: promised %.3f ± %.3f, came %.3f ± %.3f\n", what, s[0].mean(), s[0].sigma(),
                s[1].mean(), s[1].sigma());
  };
  line("one bay", one), line("tightest bay", tightest), line("loosest bay", loosest);
}

void report(const std::string& path, int panels, int others, int nodes) {
  const Case c = read_case(path);
  PlanOptions options;
  options.parallel = [](int n, const std::function<void(int)>& work) { parallel_for(n, work, usual_threads()); };
  OutcomeModel outcomes;
  std::vector<Step> planned;
  options.outcomes = [&](const OutcomeModel& m, const std::vector<Step>& steps) { outcomes = m, planned = steps; };
  const Plan plan = make_plan(c, options);
  std::printf("\n%s: hottest safe stage %d, model of %d runs, runs not fitted scatter %.2f times as much at worst\n",
              std::filesystem::path(path).stem().c_str(), plan.ceiling.value_or(-1) + 1, outcomes.runs,
              outcomes.worst_check);
  for (const StageWindow& w : plan.windows) {
    std::printf("after stage %d to %d, %s: ", w.stage + 1, w.next + 1,
                w.needed ? "only by reading" : "safe as planned");
    if (!w.opens()) {
      std::vector<ReadingPlace> places;
      for (const BenchCheck& k : plan.bench_checks[static_cast<std::size_t>(w.stage)])
        if (const auto p = place_of(outcomes, c.wanted, plan.panel.bays, w.stage, k)) places.push_back(*p);
      std::printf("no window, %zu bays; what stands against it by sag:", places.size());
      const GivenReadings given(outcomes, places);
      for (const double sag : {-0.4, -0.2, 0.0, 0.2, 0.4, 0.6, 0.8}) {
        const Given g = given.at(std::vector<double>(places.size(), sag));
        std::printf(" %.1f %d (%.0f, %.4f, %.3f)", sag,
                    static_cast<int>(given.stands_against(g, w.next, c.wanted.damage_chance, c.wanted.confidence)),
                    g.effective, given.damage(g, w.next), given.shape(g, w.next));
      }
      std::printf("\n");
      continue;
    }
    std::printf("sag %.2f to %.2f of expected, worst damage %.4f, worst shape %.3f, reads inside %.3f\n",
                w.bays[0].least / w.bays[0].expected, w.bays[0].most / w.bays[0].expected, w.damage, w.shape, w.inside);
    std::printf("| kind | panels | without reading damaged / distorted | inside | of these damaged / distorted |\n");
    for (const tests::PanelKind& k : tests::panel_kinds(plan.the_case)) {
      const int n = k.name == "as drawn" ? panels : others;
      const std::vector<tests::DrawnPanel> all =
          tests::iron_drawn_panels(plan, outcomes, planned, w, k, first_panel, n, nodes, options.parallel);
      int inside = 0, damaged = 0, distorted = 0, damaged_in = 0, distorted_in = 0;
      for (const tests::DrawnPanel& d : all) {
        damaged += d.damaged, distorted += d.distorted;
        if (!d.inside) continue;
        ++inside, damaged_in += d.damaged, distorted_in += d.distorted;
      }
      std::printf("| %s | %d | %d / %d | %d | %d / %d |\n", k.name.c_str(), n, damaged, distorted, inside, damaged_in,
                  distorted_in);
      if (k.name != "as drawn") continue;
      for (const Bin& b : bins) {
        int in = 0, kept = 0;
        double promised = 0;
        for (const tests::DrawnPanel& d : all)
          if (d.promised_shape >= b.from && d.promised_shape < b.to)
            ++in, kept += !d.distorted, promised += d.promised_shape;
        if (in > 0)
          std::printf("  shape promised %.2f to %.2f (mean %.3f): %d of %d kept it\n", b.from, std::min(1.0, b.to),
                      promised / in, kept, in);
      }
      print_readings(plan, outcomes, w, all);
      double promised = 0;
      for (const tests::DrawnPanel& d : all) promised += d.promised_damage;
      std::printf("  damage promised in all %.2f of %d, came to %d\n", promised, n, damaged);
    }
    std::fflush(stdout);
  }
}

}  // namespace

int main(int argc, char** argv) {
  int numbers[3] = {128, 48, 250}, given = 0;
  for (int i = 1; i < argc; ++i) {
    if (given < 3 && std::atoi(argv[i]) > 0) numbers[given++] = std::atoi(argv[i]);
    else report(argv[i], numbers[0], numbers[1], numbers[2]);
  }
}
