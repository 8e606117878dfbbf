#include "app/command/drafting.hpp"

#include "app/text/quoted.hpp"
#include "solver/equilibrium/mechanism.hpp"
#include "solver/statement/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cctype>
#include <filesystem>

namespace evenpull {
namespace {

constexpr std::size_t longest_title = 80;
constexpr int few_nodes = 200;  // enough to find what is no panel

/// "my-aileron.toml" is headed "My aileron".
std::string title_of(const std::string& file) {
  std::string title = std::filesystem::path(file).stem().string();
  for (std::size_t at = 0; at < title.size(); at += rune_at(title, at).bytes) {
    const Rune r = rune_at(title, at);
    if (r.code < 0 || is_hidden(r.code) || r.code == '"' || r.code == '\\') return "Drafted panel";
  }
  std::replace(title.begin(), title.end(), '-', ' ');
  std::replace(title.begin(), title.end(), '_', ' ');
  if (title.find_first_not_of(' ') == std::string::npos || title.size() > longest_title) return "Drafted panel";
  title[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(title[0])));
  return title;
}

/// What the reader says, without the place in a file that is not there yet.
std::string without_place(const CaseFileError& e) {
  std::string why = e.what();
  if (const auto at = why.find(e.key + ": "); !e.key.empty() && at != std::string::npos)
    why.erase(0, at + e.key.size() + 2);
  const auto end = why.starts_with("= \"") ? why.find("\" ", 3) : std::string::npos;
  return end == std::string::npos ? why : "it " + why.substr(end + 2);
}

[[noreturn]] void blame(const DraftText& text, const DraftAnswers& answers, int line, const std::string& key,
                        const std::string& why) {
  const Ask ask = text.ask_of(line, key);
  const DraftQuestion* q = question_of(ask, answers.kind());
  throw DraftFault(ask,
                   fmt::format("{} = {}: no case can be drafted with this answer beside the others: {}",
                               viz::ask_words(ask, answers.kind()).id, viz::answer_text(*q, answers.at(ask)), why));
}

}  // namespace

Drafted draft_from(const DraftAnswers& answers, const std::string& file, std::optional<int> nodes) {
  Drafted out{draft_case_text(drafted_case(answers), answers, title_of(file)), {}};
  try {
    const CaseFile read = read_case_text(out.text.text, file);
    try {
      build_panel(read.value, {nodes.value_or(read.value.target_nodes)});
      check_stands(read.value);
    } catch (const CaseError& e) {
      blame(out.text, answers, read.place_of(e.key).line, e.key, e.what());
    }
    out.value = read.value;
  } catch (const CaseFileError& e) {
    blame(out.text, answers, e.place.line, e.key, without_place(e));
  }
  return out;
}

namespace {

/// Changes and their cases, side by side; a change of which no case can be made is left out.
struct Changed {
  std::vector<TapeChange> changes;
  std::vector<Case> cases;
};

Changed changed_cases(const DraftAnswers& answers, const Drafted& drafted, const std::string& file) {
  Changed out;
  for (TapeChange& change : tape_changes(answers)) {
    try {
      out.cases.push_back(change.ask == Ask::cloth ? with_more_pull(drafted.value, change.by)
                                                   : draft_from(change.answers, file, few_nodes).value);
      out.changes.push_back(std::move(change));
    } catch (const DraftFault&) {  // as far off as that it is no panel
    }
  }
  return out;
}

}  // namespace

viz::MeasureFirst what_to_measure_first(const DraftAnswers& answers, const Drafted& drafted, const std::string& file,
                                        const ParallelFor& parallel, const std::function<void(double)>& progress) {
  progress(0);
  const Changed changed = changed_cases(answers, drafted, file);
  const double runs = static_cast<double>(changed.cases.size()) + 1;
  std::optional<FirstLook> look;
  try {
    look = first_look(drafted.value);
  } catch (const NotConverged&) {
    return viz::no_first_look();
  }
  std::atomic<int> done{1};
  progress(done / runs);
  std::vector<TapeEffect> effects;
  if (look) effects = tape_effects(*look, changed.changes, changed.cases, parallel, [&] { progress(++done / runs); });
  return viz::measure_first_words(look, effects, answers, drafted.value);
}

}  // namespace evenpull
