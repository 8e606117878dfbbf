// Where a job stands beside its plan: what comes next, what was left out or worked before its turn, and what the readings after a
// stage say of going on.
#pragma once

#include "shop/job_clock.hpp"
#include "shop/job_log.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

/// What a job needs of its plan, as plan.json tells it.
struct PlanDigest {
  struct Step {
    OrderStep step;
    std::string label;  ///< "T3"
    int run = 0;        ///< between two turn-overs
    bool to_be_ironed = false, only_by_reading = false;
  };
  struct Bay {
    Side side = Side::top;
    int bay = 0;
    double weight = 0;           ///< kg
    double expected = 0;         ///< m
    double least = 0, most = 0;  ///< m; of a window, or what mesh and formula leave open
  };
  struct Shape {
    Limit limit = Limit::edge_bow;
    double expected = 0,
           stop = 0;  ///< m where it is read: 2 in 100 of those that hold every limit read more than the second
  };
  struct Stage {
    double temperature = 0;        ///< K
    std::optional<double> next{};  ///< the stage that a window opens [K]
    bool needed = false;           ///< nothing but readings opens it
    std::vector<Bay> window{};     ///< every one must be read; empty: none, or no reading lets the work go on
    std::vector<Bay> bays{};       ///< what else can be weighed
    std::vector<Shape> shapes{};
  };
  std::string title, case_file;
  std::string program;              ///< that made it: "evenpull 0.1.0"
  std::string order;                ///< its name
  std::vector<StageHours> hours{};  ///< of what is to be ironed; empty: nothing is
  bool first_look = false;
  std::optional<double> hottest_safe{};  ///< K; none: no stage is
  std::vector<Step> steps{};
  std::vector<Stage> stages{};
  std::vector<WorkSoFar::Reading> read{};  ///< what the plan was made with: its verdict rests on these
};

/// What one reading says.
enum class ReadingSays { inside, less, more, far_off, nothing_expected, in_the_plan };

struct ReadingJudged {
  WorkSoFar::Reading reading;
  ReadingSays says = ReadingSays::nothing_expected;
  double expected = 0;         ///< of the weight that stood there [m]
  double least = 0, most = 0;  ///< m
  bool of_window = false;      ///< going on hangs on it
};

/// What is to be done now.
enum class NextMove {
  work,        ///< the next step of the plan
  read_first,  ///< the stage is done: bays of its window are not read yet
  work_again,  ///< bays read more than their window
  stop,        ///< a bay read less than its window, a shape went past where to stop, or what the log itself says
  plan_anew,   ///< the work went off the plan
  finished     ///< nothing is left that may be ironed
};

/// Why.
enum class OffPlan { hotter_than_safe, sole_differed, left_out, before_its_turn, not_of_the_plan, reads_otherwise };

struct JobStanding {
  NextMove move = NextMove::work;
  std::vector<int> next{};  ///< steps of the plan that come next, up to the next turn-over or the end of the pass
  std::vector<LogStop> stops{};
  std::vector<OffPlan> off{};
  std::vector<std::string> left_out{};    ///< labels of zones of an earlier stage or pass that were not worked
  std::optional<int> stage_done{};        ///< of PlanDigest::stages: all its steps are worked and nothing hotter
  std::vector<ReadingJudged> readings{};  ///< of all stages
  std::vector<PlanDigest::Bay> not_read{};
  std::vector<PlanDigest::Bay> again{};
  int done = 0, to_work = 0;  ///< steps of the plan, of those that may be ironed without a reading
};

JobStanding standing_of(const PlanDigest& plan, const WorkSoFar& work);

/// The last pass that a stage has in a plan; 0: none.
int passes_of(const PlanDigest& plan, double stage);

}  // namespace evenpull
