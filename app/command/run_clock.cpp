// clock: the whole job as a list to tick, with the time at which each part begins.
#include "app/command/put_out_slip.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/plan_file.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/clock_words.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <regex>

namespace evenpull {
namespace {

constexpr double hour_seconds = 3600, minute_seconds = 60;
constexpr int last_hour = 23;

std::optional<double> start_of(const std::string& text) {
  if (text.empty()) return {};
  static const std::regex clock("([0-9]{1,2}):([0-5][0-9])");
  std::smatch m;
  if (!std::regex_match(text, m, clock) || std::stoi(m[1]) > last_hour)
    throw CaseFileError(
        "--start", {}, "",
        in_quotes(text) + " is no time of the day; write hours from 0 to 23 and minutes, like 9:00 or 14:30");
  return std::stoi(m[1]) * hour_seconds + std::stoi(m[2]) * minute_seconds;
}

std::optional<PlanDigest> plan_of(const Request& r, const Case& c) {
  const bool asked = !r.clock.from.empty();
  const std::string from = asked ? r.clock.from : usual_plan_folder(r);
  if (!asked && !std::filesystem::exists(plan_file_in(from))) return {};
  return read_plan_folder(from, c);
}

viz::ClockFrom kind_of(const std::optional<PlanDigest>& plan) {
  if (!plan) return viz::ClockFrom::nothing;
  return plan->first_look ? viz::ClockFrom::first_look : viz::ClockFrom::plan;
}

const char* part_key(JobPart p) {
  switch (p) {
    case JobPart::frame_check: return "check of the frame";
    case JobPart::cut: return "cut";
    case JobPart::pre_coat: return "pre-coat";
    case JobPart::lay_in: return "lay-in";
    case JobPart::brush_through: return "brush-through";
    case JobPart::wait_between: return "wait between coats";
    case JobPart::wait_before_iron: return "wait before the iron";
    case JobPart::iron: return "iron";
    case JobPart::turn_over: return "turn over";
    case JobPart::cool_and_check: return "cool and check";
    case JobPart::ironing_not_planned: return "ironing, not planned";
    case JobPart::ironing_not_allowed: return "ironing, no stage safe";
    case JobPart::attach_scheduled: return "fasten as scheduled";
    case JobPart::attach_ribs: return "attach to ribs";
    case JobPart::tapes: return "tapes";
    case JobPart::inspection: return "inspection";
    case JobPart::sign_off: return "sign-off";
  }
  return "";
}

Json item_json(const Case& c, const ClockItem& i, const std::optional<double>& start) {
  return {{"part", part_key(i.part)},
          {"stage_degF", i.stage ? json_number(to_degF(*i.stage), "stage") : Json(nullptr)},
          {"seconds", json_number(i.seconds, "seconds")},
          {"begins_s", json_number(i.begins, "begins")},
          {"begins_known", i.known},
          {"clock", viz::clock_text(i, start)},
          {"in_words", viz::clock_check(c, i, start).what}};
}

}  // namespace

void run_clock(const Request& r, std::ostream& out) {
  const std::optional<double> start = start_of(r.clock.start);
  const CaseFile file = read_case_file(r.case_file);
  const Case& c = file.value;
  const std::optional<PlanDigest> plan = plan_of(r, c);
  std::optional<PlannedIroning> ironing;
  if (plan) ironing = PlannedIroning{plan->hottest_safe.has_value(), plan->hours};
  const std::vector<ClockItem> items = job_clock(c, panel_of(r, file), file.adhesive, file.finish, ironing);

  WorkSlip slip{"Work list", c.title, viz::clock_headline(items), "by, date", {}};
  SlipPart warnings, list, notes;
  warnings.warnings = viz::clock_warnings(file.adhesive, kind_of(plan), ironing && !ironing->allowed);
  for (const ClockItem& i : items) list.checks.push_back(viz::clock_check(c, i, start));
  notes.notes = viz::clock_notes(file.finish);
  slip.parts = {warnings, list, notes};

  Json j = slip_json(c);
  j["from_plan"] = plan ? Json({{"program", plan->program}, {"first_look", plan->first_look}}) : Json(nullptr);
  j["known_s"] = json_number(known_seconds(items), "known");
  auto all = Json::array();
  for (const ClockItem& i : items) all.push_back(item_json(c, i, start));
  j["items"] = all;
  j["warnings"] = warnings.warnings;
  j["defaults_used"] = defaults_json(file.finish.taken);
  put_out_slip(r, out, slip, SlipSize::whole_sheet, "clock", j);
}

}  // namespace evenpull
