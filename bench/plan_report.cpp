// Where the time of a whole plan goes, and what its certified replay costs a step: the table of RECORD.md. On one core,
// nothing drawn or written. `evenpull_plan_report [quick] [normal] [CASE.toml ...]`; none: both, the metal aileron.
#include "app/input/case_reader.hpp"
#include "bench/processor_time.hpp"
#include "sequencer/planner/planner.hpp"

#include <sys/resource.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <fstream>
#include <map>
#include <string>
#include <vector>

namespace {

using namespace evenpull;

double most_megabytes() {
  rusage use{};
  getrusage(RUSAGE_SELF, &use);
  return static_cast<double>(use.ru_maxrss) / 1024;
}

// Resident now; 0 where the system does not say.
double megabytes() {
  long all = 0, resident = 0;
  std::ifstream("/proc/self/statm") >> all >> resident;
  return static_cast<double>(resident) * static_cast<double>(sysconf(_SC_PAGESIZE)) / (1024 * 1024);
}

struct Part {
  PlanPart part;
  const char* name;
};
constexpr std::array<Part, 9> parts{{{PlanPart::passes, "choice of passes"},
                                     {PlanPart::search, "search for an order"},
                                     {PlanPart::ranking, "ranking on the coarse mesh"},
                                     {PlanPart::finalists, "finalists on the half mesh"},
                                     {PlanPart::in_full, "the best in full, certified, and error bars"},
                                     {PlanPart::given_order, "the order given"},
                                     {PlanPart::error_bars, "error bars run once more"},
                                     {PlanPart::setting, "setting between stages, way there"},
                                     {PlanPart::chances, "chances"}}};

// Processor time since the last change of part goes to the part that ends.
class Split {
 public:
  void at(int part) {
    if (part == now_) return;
    const double t = processor_seconds();
    spent_[now_] += t - since_;
    held_[now_] = megabytes();
    since_ = t, now_ = part;
  }
  double held(int part) const {
    const auto found = held_.find(part);
    return found == held_.end() ? 0 : found->second;
  }
  double of(int part) const {
    const auto found = spent_.find(part);
    return found == spent_.end() ? 0 : found->second;
  }

 private:
  static constexpr int passes = -1;  // chosen before the first part says anything
  int now_ = passes;
  double since_ = processor_seconds();
  std::map<int, double> spent_, held_;
};

void print_iterations(const Plan& p) {
  struct Count {
    long iterations = 0;
    int solves = 0;
  };
  std::map<std::pair<int, Moment>, Count> by_stage;
  for (const Certificate& k : p.certificates) {
    Count& c = by_stage[{k.stage, k.when}];
    c.iterations += k.solve.iterations;
    ++c.solves;
  }
  std::printf("| stage | steps | iterations a step | at its end |\n|---|---|---|---|\n");
  for (int s = 0; s < static_cast<int>(p.the_case.stages.size()); ++s) {
    const Count way = by_stage[{s, Moment::on_the_way}];
    if (way.solves == 0) continue;
    long end = 0;
    for (const auto& [at, count] : by_stage)
      if (at.first == s && at.second != Moment::on_the_way) end += count.iterations;
    std::printf("| %d | %d | %.1f | %ld |\n", s + 1, way.solves,
                static_cast<double>(way.iterations) / static_cast<double>(way.solves), end);
  }
}

void report(const std::string& path, Accuracy accuracy) {
  const Case c = read_case(path);
  Split split;
  PlanOptions options;
  options.accuracy = accuracy;
  options.progress = [&](double, PlanPart part) { split.at(static_cast<int>(part)); };
  const double start = processor_seconds();
  const Plan p = make_plan(c, options);
  split.at(-2);
  const double whole = processor_seconds() - start;
  std::printf("\n%s, %s, %d nodes, %d steps, %d iterations in the printed replay, %.0f MB at most so far\n\n",
              path.c_str(), accuracy == Accuracy::quick ? "quick" : "normal", p.solve.nodes, p.solve.steps,
              p.solve.iterations, most_megabytes());
  std::printf("| part | processor s | share | MB at its end |\n|---|---|---|---|\n");
  const auto line = [&](const char* name, double t, double held) {
    std::printf("| %s | %.1f | %.0f %% | %.0f |\n", name, t, 100 * t / whole, held);
  };
  for (const Part& part : parts)
    if (const double t = split.of(static_cast<int>(part.part)); t > 0)
      line(part.name, t, split.held(static_cast<int>(part.part)));
  line("whole plan", whole, megabytes());
  std::printf("\n");
  print_iterations(p);
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  std::vector<std::string> cases;
  std::vector<Accuracy> accuracies;
  for (const std::string& word : std::vector<std::string>(argv + 1, argv + argc)) {
    if (word == "quick") accuracies.push_back(Accuracy::quick);
    else if (word == "normal") accuracies.push_back(Accuracy::normal);
    else cases.push_back(word);
  }
  if (cases.empty()) cases = {EVENPULL_CASES_DIR "/metal_aileron.toml"};
  if (accuracies.empty()) accuracies = {Accuracy::quick, Accuracy::normal};
  for (const std::string& path : cases)
    for (const Accuracy a : accuracies) report(path, a);
}
