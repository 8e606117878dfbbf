// attach: schedules of fastening the cloth to inner ribs, side by side.
#include "app/command/commands.hpp"
#include "app/command/parallel.hpp"
#include "app/command/progress.hpp"
#include "app/input/case_reader.hpp"
#include "app/output/attach_json.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/quoted.hpp"
#include "app/text/version.hpp"
#include "shop/attach_study.hpp"
#include "viz/sheet/attach_slip.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/terminal_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <ostream>

namespace evenpull {
namespace {

std::vector<AttachRun> attach_compared(const Request& r, const std::vector<AttachChoice>& choices) {
  Progress bar(!r.quiet);
  const int threads = r.threads.value_or(usual_threads());
  const ParallelFor parallel = [threads](int n, const std::function<void(int)>& work) {
    parallel_for(n, work, threads);
  };
  std::atomic<int> done{0};
  bar.show(0, "schedules");
  std::vector<AttachRun> runs = run_choices(choices, parallel, [&] {
    bar.show(static_cast<double>(++done) / static_cast<double>(choices.size()), "schedules");
  });
  bar.finish();
  return runs;
}

AttachSlip attach_slip_of(const Case& c, const std::vector<AttachRun>& runs) {
  AttachSlip slip;
  slip.headline = "When the cloth is fastened to the ribs: a first look, which calls nothing safe";
  if (c.invented) slip.warnings.push_back("Invented demo.");
  for (std::string& s : viz::attachment_doubts(c)) slip.warnings.push_back(std::move(s));
  slip.schedule = viz::attachment_sentences(c);
  slip.tables = viz::attach_tables(runs);
  slip.notes = viz::attach_sentences(runs);
  for (std::string& s : viz::hollow_sentences(runs)) slip.notes.push_back(std::move(s));
  return slip;
}

std::string attach_table_text(const std::vector<std::string>& heads,
                              const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < heads.size(); ++i) {
    widths.push_back(letters(heads[i]));
    for (const auto& row : rows) widths[i] = std::max(widths[i], letters(row[i]));
  }
  std::string text;
  const auto line = [&](const std::vector<std::string>& cells) {
    std::string words = "   ";
    for (std::size_t i = 0; i < cells.size(); ++i)
      words += " " + cells[i] + std::string(widths[i] - letters(cells[i]) + 1, ' ');
    text += words.substr(0, words.find_last_not_of(' ') + 1) + "\n";
  };
  line(heads);
  for (const auto& row : rows) line(row);
  return text;
}

// A reading a line: side by side they are wider than a terminal.
std::string readings_text(const viz::AttachTables& t) {
  std::string text;
  for (const auto& row : t.readings) {
    std::string words = row.front() + ":";
    for (std::size_t i = 1; i < row.size(); ++i)
      if (!row[i].empty()) words += fmt::format("{} {} {}", i == 1 ? "" : ";", t.reading_heads[i], row[i]);
    text += "    " + wrap_text(words, 6) + "\n";
  }
  return text;
}

std::string attach_summary(const Case& c, const AttachSlip& slip, const std::string& folder) {
  std::string text = "Fastening to ribs: " + on_one_line(c.title) + "\n\n  " + wrap_text(slip.headline, 2) + "\n";
  for (const std::string& w : slip.warnings) text += "  " + wrap_text(w, 2) + "\n";
  if (!slip.schedule.empty()) text += "\n  As the case states\n";
  for (const std::string& s : slip.schedule) text += "    " + wrap_text(s, 4) + "\n";
  text += "\n  Use of the limits of damage and shape, worst of each stage (1 is the limit)\n" +
          attach_table_text(slip.tables.use_heads, slip.tables.uses);
  if (!slip.tables.readings.empty())
    text += "\n  Read after " + slip.tables.stage + ", off the rests\n" + readings_text(slip.tables);
  text += "\n";
  for (const std::string& s : slip.notes) text += "  - " + wrap_text(s, 4) + "\n";
  return text + "\n  Page to print: " + folder + "/attach.pdf\n";
}

}  // namespace

void run_attach(const Request& r, std::ostream& out) {
  const CaseFile file = read_case_file(r.case_file);
  const Case& c = file.value;
  const std::vector<AttachChoice> choices = attach_choices(c);
  if (choices.empty())
    throw CaseFileError(
        r.case_file, file.place_of("ribs"), "ribs",
        "there is no inner rib that touches the cloth, so nothing to fasten it to between the end ribs");
  ResultFolder folder(result_folder_of(r), say_on_errors);
  std::vector<AttachRun> runs;
  try {
    runs = attach_compared(r, choices);
  } catch (const CaseError& e) {
    throw CaseFileError(r.case_file, file.place_of(e.key), e.key, e.what());
  }
  const AttachSlip slip = attach_slip_of(c, runs);
  const std::string document = attach_document(c, runs, slip.notes, version());
  const auto aside = folder.open();
  folder.write("attach.json", document);
  folder.draw([&] { write_attach_slip(c, slip, r.paper, version_and_commit(), (aside / "attach.pdf").string()); });
  folder.publish();
  say(r, out, document, [&] { return attach_summary(c, slip, shown_result_folder(r)); });
}

}  // namespace evenpull
