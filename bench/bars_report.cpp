// Whether error bars from the half mesh hold what a full study on the plan's mesh finds: zones cut in two there, inner ribs
// free and glued there. One row a case; the sums at the end.
#include "app/input/case_reader.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/planner/planner.hpp"
#include "sequencer/sure/error_bars.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <string>
#include <vector>

using namespace evenpull;

namespace {

// Uses below it decide nothing.
constexpr double least_use = 0.1;

struct Sums {
  int readings = 0, held = 0;
  std::vector<double> width;  // new bar over that of the full study
  int bounds = 0;
  double worst_bound = 0;  // error of a bound's governing use
};

double change_by_zones(const LimitReading& l) { return l.study.zones.empty() ? 0 : l.study.zones.back().change; }

double use_of(const StageVerdict& v, Limit limit) {
  for (const LimitReading& l : v.limits)
    if (l.limit == limit) return l.use;
  return 0;
}

void study(const std::string& path, Sums& sums) {
  PlanOptions quick;
  quick.accuracy = Accuracy::quick;
  quick.only_rules = true;
  const Plan p = make_plan(read_case_file(path).value, quick);
  const Case& c = p.the_case;
  const std::optional<MeshOptions> half = half_mesh(c, Accuracy::normal);
  if (!half) return;
  std::vector<Step> steps = p.steps;
  std::erase_if(steps, [&](const Step& s) { return s.stage > p.ceiling.value_or(0); });
  const MeshOptions own = plan_mesh(c, Accuracy::normal);
  const auto run = [&](const Case& of, int fineness, int parts) {
    MeshOptions m = own;
    m.fineness = fineness, m.zone_parts = parts;
    return run_for_study(of, m, p.panel, steps, {});
  };
  const StudyRun plain = run(c, 2, 1), fine = run(c, 3, 1), coarse = run(c, 1, 1);
  const std::vector<StageVerdict> from_half = with_error_bars(plain.stages, {coarse, plain, fine, run(c, 1, 2)});
  const std::vector<StageVerdict> in_full = with_error_bars(plain.stages, {coarse, plain, fine, run(c, 2, 2)});
  int readings = 0, held = 0;
  for (std::size_t s = 0; s < from_half.size(); ++s)
    for (std::size_t i = 0; i < from_half[s].limits.size(); ++i) {
      const LimitReading &a = from_half[s].limits[i], &b = in_full[s].limits[i];
      if (a.gave_way || a.use < least_use) continue;
      ++readings;
      const bool in = std::abs(change_by_zones(b)) <= a.use_plus_minus;
      held += in;
      if (!in)
        std::printf(
            "  stage %d limit %d: use %.3f, zones cut change it by %+.4f in full, %+.4f on the half mesh; bar %.4f\n",
            a.stage + 1, static_cast<int>(a.limit), a.use, change_by_zones(b), change_by_zones(a), a.use_plus_minus);
      if (b.use_plus_minus > 0) sums.width.push_back(a.use_plus_minus / b.use_plus_minus);
    }
  double worst_bound = 0;
  for (const RibTie ribs : {RibTie::free, RibTie::glued}) {
    Case tied = c;
    tied.blanket.inner_ribs = ribs;
    const StudyRun whole = run(tied, 2, 1), on_half = run(tied, 1, 1);
    for (std::size_t s = 0; s < std::min(whole.stages.size(), on_half.stages.size()); ++s) {
      double from_half_use = 0, full_use = 0;
      for (const LimitReading& l : on_half.stages[s].limits) {
        const double at = use_of(coarse.stages[s], l.limit);
        from_half_use = std::max(from_half_use, l.use * (at > 0 ? use_of(plain.stages[s], l.limit) / at : 1));
        full_use = std::max(full_use, use_of(whole.stages[s], l.limit));
      }
      if (full_use < least_use) continue;
      ++sums.bounds;
      worst_bound = std::max(worst_bound, std::abs(from_half_use / full_use - 1));
    }
  }
  sums.readings += readings, sums.held += held;
  sums.worst_bound = std::max(sums.worst_bound, worst_bound);
  std::printf("| %s | %d of %d | %.1f %% |\n", path.substr(path.rfind('/') + 1).c_str(), held, readings,
              100 * worst_bound);
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  Sums sums;
  std::printf("| case | readings whose bar holds the full study | bounds off by at most |\n|---|---|---|\n");
  for (int i = 1; i < argc; ++i) study(argv[i], sums);
  std::sort(sums.width.begin(), sums.width.end());
  std::printf("| all | %d of %d | %.1f %% (%d bounds) |\n", sums.held, sums.readings, 100 * sums.worst_bound,
              sums.bounds);
  if (!sums.width.empty())
    std::printf("\nwidth of the bar over that of the full study: median %.2f, least %.2f, largest %.2f\n",
                sums.width[sums.width.size() / 2], sums.width.front(), sums.width.back());
}
