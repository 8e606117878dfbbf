// The whole job as a list of work and waits, one after the other, with the time at which each begins.
#pragma once

#include "shop/adhesive.hpp"
#include "shop/finish.hpp"
#include "solver/geometry/panel.hpp"

#include <optional>
#include <vector>

namespace evenpull {

enum class JobPart {
  frame_check,
  cut,
  pre_coat,
  lay_in,
  brush_through,
  wait_between,      ///< its maker's time from one coat to the next
  wait_before_iron,  ///< its maker's time from the last coat to the iron
  iron,
  turn_over,
  cool_and_check,
  ironing_not_planned,  ///< no plan says how long
  ironing_not_allowed,  ///< the plan calls no stage safe
  attach_scheduled,     ///< as an entry of Case::attachments has it
  attach_ribs,
  tapes,
  inspection,
  sign_off
};

/// What a plan says of one stage.
struct StageHours {
  double temperature = 0;                        ///< K
  double ironing = 0, turning = 0, waiting = 0;  ///< s, as StageTime
  int turn_overs = 0;
};

/// What a plan says of the ironing that is still to be done.
struct PlannedIroning {
  bool allowed = false;              ///< it calls a stage safe, or holds one as stated
  std::vector<StageHours> stages{};  ///< none, where all of it is done
};

struct ClockItem {
  JobPart part = JobPart::frame_check;
  std::optional<double> seconds{};  ///< none: nobody stated it
  std::optional<double> stage{};    ///< K
  int count = 0;                    ///< turn-overs, ribs; of a coat which one, from 1
  int attachment = -1;              ///< of Case::attachments
  double amount = 0;                ///< m of tape, m^2 of glue line; 0: does not apply
  double begins = 0;                ///< s after the start, at the earliest
  bool known = true;                ///< false: something before it has no length, so that it begins later than `begins`
};

/// `ironing`: what a plan says; none: no plan was given.
std::vector<ClockItem> job_clock(const Case& c, const Panel& p, const Adhesive& a, const Finish& f,
                                 const std::optional<PlannedIroning>& ironing);

/// Of all items whose length is known [s].
double known_seconds(const std::vector<ClockItem>& items);

}  // namespace evenpull
