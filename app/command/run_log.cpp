// log: what was ironed and read, added to a file that only grows; what comes next.
#include "app/command/commands.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/document.hpp"
#include "app/input/log_lines.hpp"
#include "app/input/log_words_in.hpp"
#include "app/input/page_file.hpp"
#include "app/input/plan_file.hpp"
#include "app/input/raw_file.hpp"
#include "app/input/typed.hpp"
#include "app/output/json_number.hpp"
#include "app/output/log_append.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/most.hpp"
#include "app/text/quoted.hpp"
#include "app/text/version.hpp"
#include "shop/job_standing.hpp"
#include "viz/sheet/log_slip.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/log_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/terminal_text.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <ostream>

namespace evenpull {
namespace {

constexpr std::size_t entries_on_slip = 6;
constexpr Range sole_range{300, 600, "usually 250 to 350 degF, by a thermometer at the sole"};

std::string stem_of(const Request& r) {
  return r.case_file == "-" ? "standard-input" : std::filesystem::path(r.case_file).stem().string();
}
std::string log_file_of(const Request& r) { return r.log.file.empty() ? stem_of(r) + "-log.jsonl" : r.log.file; }
std::string plan_folder_of(const Request& r) { return r.log.plan.empty() ? stem_of(r) + "-plan" : r.log.plan; }

// As the clock on the wall has it; SOURCE_DATE_EPOCH (reproducible-builds.org) stands for the clock where it is set.
std::string time_now() {
  const char* fixed = std::getenv("SOURCE_DATE_EPOCH");
  if (fixed) return fmt::format("{:%Y-%m-%d %H:%M}", fmt::gmtime(static_cast<std::time_t>(std::atoll(fixed))));
  return fmt::format("{:%Y-%m-%d %H:%M}", fmt::localtime(std::time(nullptr)));
}

struct Job {
  Case the_case;
  PlanDigest plan;
  std::string panel;
  LogRead read;
};

LogRead read_log_if_there(const std::string& path, const std::string& panel) {
  if (!std::filesystem::exists(path)) return {};
  LogRead out = read_log_text(read_raw(path), path);
  check_log_is_of(out.log, panel, path);
  return out;
}

Job job_of(const Request& r) {
  Job j;
  j.the_case = read_case_file(r.case_file).value;
  const Panel panel = build_panel(j.the_case, {j.the_case.target_nodes});
  j.panel = panel_mark(j.the_case, panel.bays, panel.strips);
  j.plan = read_plan_folder(plan_folder_of(r), j.the_case);
  for (const PlanDigest::Step& s : j.plan.steps)
    if (s.step.bay > panel.bays || s.step.strip > panel.strips)
      throw CaseFileError(plan_folder_of(r), {}, "",
                          "is the plan of another panel than this case: plan again, or say with --plan where it lies");
  j.read = read_log_if_there(log_file_of(r), j.panel);
  return j;
}

std::optional<double> sole_of(const LogRequest& q) {
  if (q.sole.empty()) return {};
  if (q.worked.empty())
    throw CaseFileError("--sole", {}, "",
                        "says nothing by itself: give it with --worked, for the zones that were ironed so");
  return Typed("--sole", q.sole).quantity(Quantity::temperature, sole_range);
}

// Entries are made one after the other: what was worked before has a say in what "next" is.
class Entries {
 public:
  explicit Entries(const Job& job) : job_(job), log_(job.read.log) {}
  void add(LogEntry e) {
    e.when = now_;
    log_.entries.push_back(e);
    fresh_.push_back(std::move(e));
  }
  WorkSoFar work() const { return work_so_far(log_, job_.the_case); }
  const JobLog& log() const { return log_; }
  const std::vector<LogEntry>& fresh() const { return fresh_; }

 private:
  const Job& job_;
  JobLog log_;
  std::vector<LogEntry> fresh_;
  std::string now_ = time_now();
};

// One entry a stage and pass.
void add_worked(Entries& all, const Job& job, const std::string& text, const std::optional<double>& sole) {
  LogEntry e;
  for (const OrderStep& s : worked_steps_of(text, "--worked", job.plan, all.work(), job.the_case)) {
    if (!e.steps.empty() && (e.steps.back().temperature != s.temperature || e.steps.back().pass != s.pass)) {
      all.add(e);
      e.steps.clear();
    }
    e.kind = LogEntry::Kind::ironed, e.sole = sole;
    e.passes = passes_of(job.plan, s.temperature);
    e.steps.push_back(s);
  }
  all.add(std::move(e));
}

void add_asked_for(Entries& all, const Job& job, const LogRequest& q) {
  if (q.take_back) {
    if (*q.take_back < 1 || *q.take_back > static_cast<int>(all.log().entries.size()))
      throw CaseFileError("--take-back", {}, "",
                          fmt::format("{}: the log has {} entries", *q.take_back, all.log().entries.size()));
    LogEntry e;
    e.kind = LogEntry::Kind::taken_back, e.takes_back = *q.take_back;
    all.add(std::move(e));
  }
  if (!q.page.empty())
    for (LogEntry& e : entries_of_page(q.page, job.plan, all.work())) all.add(std::move(e));
  const std::optional<double> sole = sole_of(q);
  for (const std::string& text : q.worked) add_worked(all, job, text, sole);
  if (q.jolted) {
    LogEntry e;
    e.kind = LogEntry::Kind::jolted, e.text = on_one_line(*q.jolted);
    all.add(std::move(e));
  }
  for (const std::string& text : q.read) all.add(reading_entry_of(text, "--read", job.plan, all.work(), job.the_case));
  if (!q.remark.empty()) {
    LogEntry e;
    e.kind = LogEntry::Kind::remark, e.text = on_one_line(q.remark);
    all.add(std::move(e));
  }
  for (const LogEntry& e : all.fresh())
    if (e.text.size() > most::string_letters)
      throw CaseFileError("evenpull log", {}, "",
                          fmt::format("a remark is longer than {} letters, which is the most", most::string_letters));
}

Json standing_json(const Job& job, const WorkSoFar& work, const JobStanding& s, const LogSlip& slip,
                   const std::string& file) {
  auto next = Json::array(), readings = Json::array(), passes = Json::array();
  for (const int i : s.next) next.push_back(job.plan.steps[static_cast<std::size_t>(i)].label);
  for (const viz::ReadingRow& r : slip.readings)
    readings.push_back({{"of", r.where}, {"read", r.read}, {"expected", r.expected}, {"says", r.says}});
  for (const viz::PassRow& p : slip.passes) passes.push_back({{"pass", p.pass}, {"worked", p.worked}});
  Json j;
  j["format"] = 1;
  j["program"] = std::string("evenpull ") + version();
  j["title"] = job.the_case.title;
  j["log"] = std::filesystem::path(file).filename().string();
  j["move"] = viz::next_move_headline(s.move);
  j["in_words"] = slip.sentences;
  j["next_zones"] = next;
  j["zone_steps_worked"] = work.steps.size();
  j["of_the_plan_worked"] = s.done;
  j["of_the_plan_to_work"] = s.to_work;
  j["left_out"] = s.left_out;
  j["passes"] = passes;
  j["readings"] = readings;
  return j;
}

// What the case wants fastened now: before the first step of a stage, or when all is done.
std::vector<std::string> fastening_due(const Case& c, const WorkSoFar& work, const PlanDigest& plan,
                                       const JobStanding& s) {
  const double hottest = work.steps.empty() ? 0 : work.steps.back().temperature;
  int worked = -1;
  for (std::size_t i = 0; i < c.stages.size(); ++i)
    if (c.stages[i].temperature <= hottest + c.spreads.sole) worked = static_cast<int>(i);
  if (s.move == NextMove::finished && worked >= 0) return viz::fasten_now(c, worked, true);
  if (s.move != NextMove::work || s.next.empty()) return {};
  const double next = plan.steps[static_cast<std::size_t>(s.next.front())].step.temperature;
  if (next <= hottest + c.spreads.sole) return {};
  const std::string first = viz::fastened_first(c, worked + 1);
  return first.empty() ? std::vector<std::string>{} : std::vector<std::string>{first};
}

LogSlip slip_of(const Job& job, const JobLog& log, const WorkSoFar& work, const JobStanding& s,
                const std::string& again) {
  LogSlip slip;
  slip.title = job.the_case.title;
  slip.headline = viz::next_move_headline(s.move);
  slip.sentences = viz::standing_sentences(job.plan, s, again);
  const std::vector<std::string> due = fastening_due(job.the_case, work, job.plan, s);
  slip.sentences.insert(s.move == NextMove::work ? slip.sentences.begin() : slip.sentences.end(), due.begin(),
                        due.end());
  slip.passes = viz::pass_rows(job.plan, work);
  for (const ReadingJudged& r : s.readings) slip.readings.push_back(viz::reading_row(r));
  const std::vector<int> hold = entries_that_hold(log);
  for (int n = static_cast<int>(log.entries.size()); n > 0; --n)
    slip.entries.push_back(viz::entry_text(n, log.entries[static_cast<std::size_t>(n) - 1], job.plan,
                                           std::find(hold.begin(), hold.end(), n) != hold.end()));
  return slip;
}

std::string log_summary(const LogSlip& slip, const std::string& file, const std::string& folder) {
  std::string text = "Job log: " + on_one_line(slip.title) + "\n\n  " + slip.headline + "\n";
  for (const std::string& s : slip.sentences) text += "  - " + wrap_text(s, 4) + "\n";
  text += "\n";
  for (const viz::PassRow& p : slip.passes) text += fmt::format("    {:<22}{}\n", p.pass, p.worked);
  if (!slip.readings.empty()) text += "\n";
  for (const viz::ReadingRow& r : slip.readings)
    text += "    " +
            wrap_text(fmt::format("{}: {}{}: {}", r.where, r.read,
                                  r.expected.empty() ? "" : " (expected " + r.expected + ")", r.says),
                      6) +
            "\n";
  if (!slip.entries.empty()) text += "\n  Entries, newest first\n";
  for (const std::string& e : slip.entries) text += "    " + wrap_text(e, 9) + "\n";
  return text + fmt::format("\n  The log: {}\n  Slip to print: {}/log.pdf\n", on_one_line(file), folder);
}

}  // namespace

void run_log(const Request& r, std::ostream& out) {
  const Job job = job_of(r);
  const std::string file = log_file_of(r);
  Entries all(job);
  add_asked_for(all, job, r.log);
  ResultFolder folder(result_folder_of(r), say_on_errors);
  if (r.log.adds()) append_to_log(file, job.panel, job.the_case.title, all.fresh());
  if (job.read.cut_at_end && !r.log.adds())
    say_on_errors(fmt::format(
        "{}: its last line was cut short, as by a pulled plug, and does not count; the next entry takes its place.",
        file));
  if (job.read.damaged_line > 0 && !job.read.cut_at_end)
    say_on_errors(fmt::format("{}, line {}: {}.", file, job.read.damaged_line,
                              viz::damaged_log_text(job.read.damaged_line, job.read.lines_left_out)));
  const WorkSoFar work = all.work();
  const JobStanding s = standing_of(job.plan, work);
  const std::string again = fmt::format("evenpull plan {} --from {}", shown_file(r.case_file), on_one_line(file));
  LogSlip slip = slip_of(job, all.log(), work, s, again);
  const std::string document = json_text(standing_json(job, work, s, slip, file));
  const auto aside = folder.open();
  folder.write("log.json", document);
  LogSlip printed = slip;
  if (printed.entries.size() > entries_on_slip) printed.entries.resize(entries_on_slip);
  folder.draw([&] { write_log_slip(printed, r.paper, version_and_commit(), (aside / "log.pdf").string()); });
  folder.publish();
  say(r, out, document, [&] { return log_summary(slip, file, shown_result_folder(r)); });
}

}  // namespace evenpull
