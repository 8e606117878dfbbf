#include "app/output/draft_kept.hpp"

#include "app/input/document.hpp"
#include "app/input/draft_answer.hpp"
#include "app/input/raw_file.hpp"
#include "app/output/new_file.hpp"
#include "viz/words/draft_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace evenpull {
namespace {

constexpr const char* kept_head = "evenpull draft 1";

}  // namespace

std::filesystem::path kept_answers_file(const std::filesystem::path& file) {
  return file.parent_path() / fmt::format(".{}.evenpull-draft", file.filename().string());
}

std::string kept_answers_text(const DraftAnswers& answers) {
  std::string text = fmt::format("{}\n", kept_head);
  for (const DraftQuestion* q : asked_questions(answers)) {
    const DraftAnswer* a = answers.find(q->ask);
    if (!a) break;
    text += fmt::format("{} = {}\n", viz::ask_words(q->ask, answers.kind()).id,
                        a->usual ? "usual" : viz::answer_text(*q, *a));
  }
  return text;
}

DraftAnswers kept_answers_of(const std::string& text, const std::string& path, const Units& units) {
  std::istringstream lines(text);
  std::string words;
  if (!std::getline(lines, words) || words != kept_head)
    throw CaseFileError(path, {1, 0}, "",
                        "holds no answers of a draft of this version; move it away, and begin the draft anew");
  std::vector<NamedAnswer> kept;
  for (int n = 2; std::getline(lines, words); ++n) kept.push_back(named_answer_of(words, path, n));
  DraftAnswers out;
  for (const DraftQuestion& q : draft_questions()) {
    if (!is_asked(q, out)) continue;
    const auto at = std::find_if(kept.begin(), kept.end(), [&](const NamedAnswer& n) { return n.ask == q.ask; });
    if (at == kept.end()) break;
    try {
      take_draft_answer(q, at->text, out, units);
    } catch (const DraftAnswerError&) {
      break;
    }
  }
  return out;
}

std::optional<DraftAnswers> read_kept_answers(const std::filesystem::path& file, const Units& units) {
  const auto path = kept_answers_file(file);
  if (!std::filesystem::exists(path)) return {};
  return kept_answers_of(read_raw(path.string()), path.string(), units);
}

void keep_answers(const std::filesystem::path& file, const DraftAnswers& answers) {
  write_over_file(kept_answers_file(file), kept_answers_text(answers));
}

void forget_answers(const std::filesystem::path& file) {
  std::error_code ignored;
  std::filesystem::remove(kept_answers_file(file), ignored);
}

}  // namespace evenpull
