// signoff: what was planned, done, read and found, on a page to be filled in by hand.
#include "app/command/put_out_slip.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/log_lines.hpp"
#include "app/input/plan_file.hpp"
#include "app/input/raw_file.hpp"
#include "app/text/checksum.hpp"
#include "app/text/version.hpp"
#include "viz/words/log_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/sign_off_words.hpp"

#include <fmt/format.h>

#include <filesystem>

namespace evenpull {
namespace {

// A file that the page speaks of.
struct NamedFile {
  std::string what, name, sum;
};

struct SignOff {
  const CaseFile& file;
  SignOffFacts facts{};
  JobLog log{};
  std::vector<NamedFile> files{};
};

std::string bare_name(const std::string& path) { return std::filesystem::path(path).filename().string(); }

// What was asked for must be there; what is only usual may be missing.
std::optional<std::string> given_or_usual(const std::string& asked, const std::string& by_name) {
  if (!asked.empty()) return asked;
  if (std::filesystem::exists(by_name)) return by_name;
  return {};
}

void take_plan(const Request& r, const Panel& panel, SignOff& s) {
  const auto from = given_or_usual(r.sign_off.from, plan_file_in(usual_plan_folder(r)));
  if (!from) return;
  const std::string text = read_plan_text(*from);
  s.facts.plan = plan_digest_of(text, plan_file_in(*from), s.file.value);
  for (const PlanDigest::Step& step : s.facts.plan->steps)
    if (step.step.bay > panel.bays || step.step.strip > panel.strips)
      throw CaseFileError(*from, {}, "",
                          "is the plan of another panel than this case: say with --from where its own lies");
  s.files.push_back({"plan", bare_name(plan_file_in(*from)), sha256(text)});
}

void take_log(const Request& r, const Panel& panel, SignOff& s) {
  const auto from = given_or_usual(r.sign_off.log, usual_log_file(r));
  if (!from) return;
  const std::string text = read_raw(*from);
  LogRead read = read_log_text(text, *from);
  check_log_is_of(read.log, panel_mark(s.file.value, panel.bays, panel.strips), *from);
  s.log = std::move(read.log);
  s.facts.work = work_so_far(s.log, s.file.value);
  s.facts.log_damaged = read.damaged_line > 0 && !read.cut_at_end;
  if (s.facts.plan) s.facts.standing = standing_of(*s.facts.plan, *s.facts.work);
  s.files.push_back({"log", bare_name(*from), sha256(text)});
}

Json sign_off_json(const SignOff& s, const std::vector<OpenItem>& open) {
  Json j = slip_json(s.file.value);
  auto files = Json::array(), items = Json::array(), passes = Json::array(), readings = Json::array();
  for (const NamedFile& f : s.files) files.push_back({{"what", f.what}, {"name", f.name}, {"sha256", f.sum}});
  for (const OpenItem i : open) items.push_back(viz::open_item_text(i));
  if (s.facts.plan && s.facts.work)
    for (const viz::PassRow& p : viz::pass_rows(*s.facts.plan, *s.facts.work))
      passes.push_back({{"pass", p.pass}, {"worked", p.worked}});
  if (s.facts.standing)
    for (const ReadingJudged& r : s.facts.standing->readings) {
      const viz::ReadingRow row = viz::reading_row(r);
      readings.push_back({{"of", row.where}, {"read", row.read}, {"expected", row.expected}, {"says", row.says}});
    }
  j["files"] = files;
  j["plan"] = s.facts.plan ? Json({{"program", s.facts.plan->program},
                                   {"first_look", s.facts.plan->first_look},
                                   {"hottest_safe_degF", s.facts.plan->hottest_safe
                                                             ? json_number(to_degF(*s.facts.plan->hottest_safe), "safe")
                                                             : Json(nullptr)},
                                   {"order", s.facts.plan->order}})
                           : Json(nullptr);
  j["log_entries"] = s.log.entries.size();
  j["open"] = items;
  j["passes"] = passes;
  j["readings"] = readings;
  j["to_be_inspected"] = viz::inspection_list(s.file.value);
  return j;
}

SlipPart done_part(const SignOff& s) {
  SlipPart part;
  part.heading = "Done";
  part.columns = {{"stage and pass", 0.55}, {"zones worked", 0.45, true}};
  if (s.facts.plan && s.facts.work)
    for (const viz::PassRow& p : viz::pass_rows(*s.facts.plan, *s.facts.work)) part.rows.push_back({p.pass, p.worked});
  if (part.rows.empty()) part.notes = {"Nothing is shown: there is no log, or no plan to set it beside."};
  return part;
}

SlipPart read_part(const SignOff& s) {
  SlipPart part;
  part.heading = "Read and found";
  part.columns = {{"read", 0.32}, {"was", 0.26}, {"expected", 0.22}, {"says", 0.2, true}};
  if (s.facts.standing)
    for (const ReadingJudged& r : s.facts.standing->readings) {
      const viz::ReadingRow row = viz::reading_row(r);
      part.rows.push_back({row.where, row.read, row.expected, row.says});
    }
  if (part.rows.empty()) part.notes = {"Nothing was read."};
  return part;
}

SlipPart remarks_part(const SignOff& s) {
  SlipPart part;
  part.heading = "Remarks of the log";
  const PlanDigest none;
  for (const int n : entries_that_hold(s.log)) {
    const LogEntry& e = s.log.entries[static_cast<std::size_t>(n) - 1];
    if (e.kind == LogEntry::Kind::remark || e.kind == LogEntry::Kind::jolted)
      part.notes.push_back(viz::entry_text(n, e, s.facts.plan.value_or(none), true));
  }
  if (part.notes.empty()) part.heading.clear();
  return part;
}

WorkSlip sign_off_slip(const SignOff& s, const std::vector<OpenItem>& open) {
  const Case& c = s.file.value;
  WorkSlip slip{"Sign-off", c.title, viz::sign_off_headline(open), "page kept with", {}};
  SlipPart items, planned, files, inspect, by_hand;
  items.warnings = {viz::sign_off_caution()};
  for (const OpenItem i : open) items.notes.push_back(viz::open_item_text(i));
  planned.heading = "Planned";
  planned.columns = {{"what", 0.4}, {"", 0.6, true}};
  if (s.facts.plan) planned.rows = viz::planned_rows(c, s.file.adhesive, *s.facts.plan);
  else planned.notes = {"No plan was given."};
  files.heading = "Files that this page speaks of (SHA-256)";
  for (const NamedFile& f : s.files) files.notes.push_back(fmt::format("{}: {} {}", f.what, f.name, f.sum));
  inspect.heading = "Still to be inspected by a licensed mechanic";
  for (const std::string& what : viz::inspection_list(c)) inspect.checks.push_back({"", what, ""});
  by_hand.heading = "By hand";
  by_hand.to_write = viz::sign_off_lines();
  slip.parts = {items, planned, done_part(s), read_part(s), remarks_part(s), files, inspect, by_hand};
  return slip;
}

}  // namespace

void run_signoff(const Request& r, std::ostream& out) {
  const CaseFile file = read_case_file(r.case_file);
  SignOff s{file};
  s.files.push_back({"case", bare_name(r.case_file), sha256(file.text)});
  const Panel panel = panel_of(r, file);
  take_plan(r, panel, s);
  take_log(r, panel, s);
  const std::vector<OpenItem> open = open_items(file.value, file.adhesive, s.facts);
  put_out_slip(r, out, sign_off_slip(s, open), SlipSize::whole_sheet, "signoff", sign_off_json(s, open));
}

}  // namespace evenpull
