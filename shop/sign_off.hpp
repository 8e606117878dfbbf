// What stands open before a covering is signed off, from its case, its plan and its log. Whether it is airworthy is never said here.
#pragma once

#include "shop/adhesive.hpp"
#include "shop/job_standing.hpp"

#include <optional>
#include <vector>

namespace evenpull {

enum class OpenItem {
  no_plan,
  first_look_only,  ///< the plan has no chances: it calls nothing safe
  no_stage_safe,    ///< by the plan nothing may be ironed
  no_log,
  log_damaged,  ///< read as far as it is whole
  stopped,      ///< the log or a reading says stop
  off_the_plan,
  work_left,
  readings_left,
  work_again,
  reading_outside,       ///< of a bay or a shape: not within what was expected
  no_reading,            ///< nothing was read at all
  hotter_than_adhesive,  ///< ironed hotter than it bears by its maker
  adhesive_not_stated,   ///< what it bears
  waiting_not_stated,    ///< its maker's time before the iron
  below_approved_stage,  ///< finished, and cooler than the approved data ask for
  after_approved_stage   ///< ironed hotter than the approved data ask for
};

struct SignOffFacts {
  std::optional<PlanDigest> plan{};
  std::optional<WorkSoFar> work{};  ///< none: there is no log
  std::optional<JobStanding> standing{};
  bool log_damaged = false;
};

/// Most pressing first.
std::vector<OpenItem> open_items(const Case& c, const Adhesive& a, const SignOffFacts& f);

/// The hottest that was worked [K]; none: nothing was.
std::optional<double> hottest_worked(const WorkSoFar& work);

}  // namespace evenpull
