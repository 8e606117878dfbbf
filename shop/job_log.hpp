// A job as it was worked and read, entry by entry, and what of it a plan can go on from. Plain values; nothing is ever struck
// out: an entry takes back another.
#pragma once

#include "sequencer/orders/order_steps.hpp"
#include "sequencer/plan/window.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace evenpull {

struct LogEntry {
  enum class Kind {
    ironed,     ///< zones, in the order worked
    read,       ///< a sag, a bow, a twist, a slip
    jolted,     ///< dropped, knocked, clamped anew: what was read of its shape before no longer holds
    remark,     ///< words alone
    taken_back  ///< an earlier entry was a mistake
  };
  Kind kind = Kind::remark;
  std::string when;                ///< date and time as they were, "2026-05-04 16:20"
  std::vector<OrderStep> steps{};  ///< ironed; temperature: of the stage meant [K]
  std::optional<double> sole{};    ///< ironed: what the sole truly was, where that is known [K]
  int passes = 0;                  ///< ironed: how many the plan has at that stage; 0: not known
  double after = 0;                ///< read: after this stage [K]
  Measured reading{};              ///< read; its `stage` says nothing, see `after`
  std::string text{};              ///< who, why, or what else
  int takes_back = 0;              ///< number of an entry, counted from 1
};

struct JobLog {
  std::string panel;  ///< mark of the panel that it is of (panel_mark)
  std::vector<LogEntry> entries;
};

/// What stands against going on, before any plan is asked.
enum class LogStop {
  jolted,             ///< and no shape was read since
  sole_above_planned  ///< it was where polyester loses tension
};

struct WorkSoFar {
  std::vector<OrderStep> steps{};  ///< temperature: the stage as it was worked [K]; rising
  std::map<double, int> passes{};  ///< planned at a temperature worked [K], where that is known
  struct Reading {
    double after = 0;  ///< K, as worked
    Measured reading{};
    int entry = 0;  ///< counted from 1
  };
  std::vector<Reading> readings{};
  std::vector<LogStop> stops{};
  bool out_of_turn = false;    ///< cooler work came after hotter: it is taken as if it had come before
  bool sole_differed = false;  ///< some work is reckoned at what the sole truly was
  int last_entry_used = 0;
};

/// Entries that were not taken back, in order.
std::vector<int> entries_that_hold(const JobLog& log);

/// A sole that differs from its stage by no more than what the case says it may be off by [K] is taken for the stage.
WorkSoFar work_so_far(const JobLog& log, const Case& c);

/// The case as it goes on from there: stages at the temperatures worked, with the passes worked and planned, then those of the
/// case that are hotter than all of them. A dwell that was stated is dropped where the sole was another.
Case case_as_worked(const Case& c, const WorkSoFar& work);

/// Readings in the terms of that case. Those after a stage of which it has no trace are left out.
std::vector<Measured> readings_for(const Case& as_worked, const WorkSoFar& work);

/// The stages of `as_worked` of which every zone was worked in the last pass begun, by stage. `zones`: of the panel.
std::vector<bool> stages_whole(const Case& as_worked, const WorkSoFar& work, int zones);

/// What tells one panel from another: outline, ribs and zones. Cloth, iron and limits may change while it is worked.
std::string panel_mark(const Case& c, int bays, int strips);

}  // namespace evenpull
