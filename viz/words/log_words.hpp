// A job's log in words: where it stands, what comes next, what the readings say.
#pragma once

#include "shop/job_standing.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Why nothing may be planned or worked before somebody has looked.
std::string log_stop_text(LogStop stop);
std::string damaged_log_text(int line, int lines_left_out);

/// "STOP", "READ FIRST", "WORK AGAIN", "PLAN ANEW", "NEXT", "ALL DONE".
std::string next_move_headline(NextMove move);
/// What to do now and why, most important first. `again`: the command that plans anew from the log.
std::vector<std::string> standing_sentences(const PlanDigest& plan, const JobStanding& s, const std::string& again);

/// "T3 T4 B1 at 250 °F, pass 2"; of many the first ten.
std::string next_steps_text(const PlanDigest& plan, const JobStanding& s);
/// Of one reading: where, what was read, what was expected, what it says.
struct ReadingRow {
  std::string where, read, expected, says;
};
ReadingRow reading_row(const ReadingJudged& r);

/// How much of each pass is worked: stage and pass, and "12 of 14".
struct PassRow {
  std::string pass, worked;
};
std::vector<PassRow> pass_rows(const PlanDigest& plan, const WorkSoFar& work);

/// One entry on a line: "3  2026-05-04 16:20  ironed T3 T4 B1 at 250 °F, pass 2".
std::string entry_text(int number, const LogEntry& e, const PlanDigest& plan, bool holds);

}  // namespace evenpull::viz
