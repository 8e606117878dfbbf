// push: weights on the bare frame, before it is covered: which to hang where, and what the movements say.
#include "app/command/commands.hpp"
#include "app/command/push_bench.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/quoted.hpp"
#include "app/text/version.hpp"
#include "viz/words/terminal_text.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>

namespace evenpull {
namespace {

void check_into(const Request& r) {
  const PushRequest& q = r.push;
  if (q.into.empty()) return;
  const auto refuse = [](const std::string& sentence) { throw CaseFileError("--into", {}, "", sentence); };
  std::error_code no;
  if (r.case_file == "-" || !std::filesystem::equivalent(q.into, r.case_file, no))
    refuse(fmt::format(
        "{} is another file than the case that is read; what is found is of that frame alone: give the same file "
        "twice",
        in_quotes(q.into)));
  if (q.pushes.empty()) refuse("has nothing to write yet: give what was read with --push");
  if (q.each_kind)
    refuse(
        "writes one factor for all members, so it cannot stand beside --each-kind: look at the kinds first, then run "
        "it without");
}

std::string list_of(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& s : sentences) text += "  - " + wrap_text(s, 4) + "\n";
  return text;
}

std::string words_of_slip(const PushSlip& slip, const std::string& folder) {
  std::string text = "Weights on the bare frame: " + on_one_line(slip.title) + "\n\n  " + slip.headline + "\n\n";
  for (const std::string& w : slip.warnings) text += "  WARNING: " + wrap_text(w, 11) + "\n";
  if (!slip.warnings.empty()) text += "\n";
  for (const auto& row : slip.rows) {
    std::string line = fmt::format("{:>2}", row[0]);
    for (std::size_t i = 1; i < row.size(); ++i)
      if (!row[i].empty() && row[i][0] != '_')
        line += (i > 1 ? "; " : "  ") + (i > 1 ? slip.heads[i] + " " : std::string()) + row[i];
    text += "    " + wrap_text(line, 8) + "\n";
  }
  if (!slip.factors.empty()) text += "\n";
  for (const auto& f : slip.factors) text += fmt::format("    {:<34} now {}; before {}\n", f[0], f[2], f[1]);
  return text + "\n" + list_of(slip.notes) + "\n  Slip to print: " + folder + "/push.pdf\n";
}

void put_out(const Request& r, std::ostream& out, const PushResult& result) {
  ResultFolder folder(result_folder_of(r), say_on_errors);
  const std::string document = json_text(result.json);
  const auto aside = folder.open();
  folder.write("push.json", document);
  folder.draw([&] { write_push_slip(result.slip, r.paper, version_and_commit(), (aside / "push.pdf").string()); });
  folder.publish();
  say(r, out, document, [&] { return words_of_slip(result.slip, shown_result_folder(r)) + result.after; });
}

}  // namespace

void run_push(const Request& r, std::ostream& out) {
  check_into(r);
  try {
    PushBench b = push_bench_of(r);
    put_out(r, out, r.push.pushes.empty() ? propose_pushes(r, b) : answer_pushes(r, b));
  } catch (const CaseError& e) {
    throw CaseFileError(r.case_file, read_case_file(r.case_file, MeasuredFrame::left_out).place_of(e.key), e.key,
                        e.what());
  }
}

}  // namespace evenpull
