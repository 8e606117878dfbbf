// Holds the windows of plans against panels drawn independently and ironed on a finer mesh: the calibration table of
// docs/verification.md. `evenpull_window_report [panels] [panels of other kinds] [nodes] CASE...`
#include "app/command/parallel.hpp"
#include "app/input/case_reader.hpp"
#include "sequencer/planner/planner.hpp"
#include "tests/support/drawn_panels.hpp"

#include <algorithm>
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
    std::printf("after stage %d to %d, %s: ", w.stage + 1, w.next + 1, w.needed ? "only by reading" : "safe as planned");
    if (!w.opens()) {
      std::printf("no window\n");
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
