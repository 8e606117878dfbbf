// Runs of a plan that were computed before it was interrupted, and those computed now: so that it can go on. Every run is a
// plain value in and a plain value out; where they are kept is not the sequencer's business.
#pragma once

#include "sequencer/plan/run_id.hpp"
#include "sequencer/plan/step.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/sure/error_bars.hpp"
#include "sequencer/sure/outturn.hpp"

#include <array>
#include <functional>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

namespace evenpull::inline sequencer {

/// All that tells one run of a plan from another, for one case and one build of the program.
struct RunJob {
  enum class Kind { order, study, scenario };
  Kind kind = Kind::order;
  std::array<int, 3> mesh{};  ///< order: rows, columns, strips; else target nodes, fineness, zone parts
  std::vector<Step> steps{};
  bool kept_whole = false;              ///< order: ReplayJob::kept_whole
  RibTie inner_ribs = RibTie::bearing;  ///< study
  bool by_schedule = true;              ///< study: ribs are fastened as the case schedules it
  std::optional<JointEnd> joints{};     ///< study
  int last_stage = 0;                   ///< scenario
  int at_once = 1;                      ///< scenario
  std::vector<double> sigmas{};         ///< scenario
  std::optional<unsigned> number{};     ///< scenario
};

using RunValue = std::variant<ReplayResult, StudyRun, Outturn>;

/// Both may be called from any thread; unset: nothing is known, nothing kept.
struct KeptRuns {
  std::function<std::optional<RunValue>(const RunJob&)> known;
  std::function<void(const RunJob&, const RunValue&)> keep;
};

/// What is known of the job (`kept`: or none), else what `run` makes of it, which is kept. What `run` throws is not.
template <class T, class Run>
T known_or_run(const KeptRuns* kept, const RunJob& job, const Run& run) {
  if (kept && kept->known)
    if (std::optional<RunValue> found = kept->known(job))
      if (T* value = std::get_if<T>(&*found)) return std::move(*value);
  T made = run();
  if (kept && kept->keep) kept->keep(job, made);
  return made;
}

}  // namespace evenpull::inline sequencer
