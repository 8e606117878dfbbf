// draft: questions, answers, a case that was read back before it is written, its survey, and what to measure again
// first.
#include "app/command/commands.hpp"
#include "app/command/draft_dialogue.hpp"
#include "app/command/drafting.hpp"
#include "app/command/parallel.hpp"
#include "app/command/progress.hpp"
#include "app/input/draft_answer.hpp"
#include "app/output/draft_json.hpp"
#include "app/output/draft_kept.hpp"
#include "app/output/interruption.hpp"
#include "app/output/new_file.hpp"
#include "app/output/result_folder.hpp"
#include "app/output/work_lock.hpp"
#include "app/text/most.hpp"
#include "app/text/quoted.hpp"
#include "app/text/version.hpp"
#include "viz/words/terminal_text.hpp"

#include <fmt/format.h>

#include <unistd.h>

#include <iostream>
#include <ostream>

namespace evenpull {
namespace {

constexpr const char* by_options = "evenpull draft";
constexpr std::size_t most_answers = 200;

std::optional<DraftKind> kind_of_request(const DraftRequest& r, const Units& units) {
  if (r.kind.empty()) return {};
  try {
    const DraftQuestion& q = draft_questions().front();
    return static_cast<DraftKind>(read_draft_answer(q, r.kind, {}, units).value);
  } catch (const DraftAnswerError& e) {
    throw CaseFileError("--kind", {}, "", e.what());
  }
}

void print_questions(const Request& r, const Units& units, std::ostream& out) {
  const auto kind = kind_of_request(r.draft, units);
  if (r.json) {
    out << draft_questions_document(kind, version());
    return;
  }
  for (const DraftKind k : draft_kinds) {
    if (kind && *kind != k) continue;
    out << viz::draft_kind_word(k) << "\n";
    for (const DraftQuestion& q : draft_questions())
      if (holds(q.kinds, k))
        out << fmt::format("  {:<18} {}\n", viz::ask_words(q.ask, k).id,
                           wrap_text(viz::ask_words(q.ask, k).question, 21));
    out << "\n";
  }
}

void check_file(const Request& r) {
  if (r.case_file.empty())
    throw CaseFileError(by_options, {}, "", "say which file to write: evenpull draft my-aileron.toml");
  if (r.case_file == "-")
    throw CaseFileError(by_options, {}, "",
                        "writes a file and not standard output; give it a name: evenpull draft my-aileron.toml");
  check_is_new(r.case_file);
}

DraftAnswers answers_by_options(const DraftRequest& r, const Units& units) {
  if (r.answers.size() > most_answers)
    throw CaseFileError("--answer", {}, "", fmt::format("is given more than {} times", most_answers));
  std::vector<NamedAnswer> given;
  for (const std::string& text : r.answers) given.push_back(named_answer_of(text, "--answer"));
  if (const auto kind = kind_of_request(r, units)) {
    const std::string word = viz::draft_kind_word(*kind);
    given.push_back({Ask::kind, word, "--kind " + word});
  }
  DraftAnswered done = take_named_answers(given, r.usual, "--answer", units);
  if (done.missing.empty()) return with_usual_anew(done.answers);
  const DraftKind kind = done.answers.find(Ask::kind) ? done.answers.kind() : DraftKind::steel_tube;
  std::string names;
  for (const DraftQuestion* q : done.missing)
    names += (names.empty() ? "" : ", ") + std::string(viz::ask_words(q->ask, kind).id);
  throw CaseFileError(by_options, {}, "",
                      fmt::format("not answered: {}; give each with --answer \"... = ...\", or add --usual to take the "
                                  "usual answer, which the case then marks{}",
                                  names, r.by_options() ? "" : "; on a terminal they are asked"));
}

struct Asked {
  bool stopped = false;
  DraftAnswers answers;
  Drafted drafted;
};

/// Until a case can be drafted: an answer that cannot be beside the others is asked again.
Asked ask_until_drafted(const Request& r, const Units& units, std::istream& in, std::ostream& out) {
  Asked a;
  if (auto kept = read_kept_answers(r.case_file, units)) {
    a.answers = std::move(*kept);
    int n = 0;
    for (const DraftQuestion* q : asked_questions(a.answers)) n += a.answers.find(q->ask) ? 1 : 0;
    if (n > 0) out << viz::draft_taken_up(n) << "\n";
  }
  out << viz::draft_welcome(shown_file(r.case_file)) << "\n";
  for (;;) {
    const auto keep = [&](const DraftAnswers& answers) { keep_answers(r.case_file, answers); };
    a.stopped = hold_dialogue(a.answers, in, out, units, keep) == DialogueEnd::stopped;
    if (a.stopped) return a;
    try {
      a.drafted = draft_from(a.answers, r.case_file);
      return a;
    } catch (const DraftFault& fault) {
      out << "\n" << wrap_text(on_one_line(fault.what()), 0) << "\n";
      a.answers.drop(fault.ask);
    }
  }
}

/// Words of the survey go out as the survey says them, its JSON stays in its folder.
void survey_it(const Request& r, std::ostream& out) {
  Request survey = r;
  survey.job = Request::Job::survey;
  survey.quiet = r.quiet || r.json;
  survey.json = false;
  run_survey(survey, out);
}

viz::MeasureFirst look_what_matters(const Request& r, const Asked& a) {
  Progress bar(!r.quiet);
  const int threads = r.threads.value_or(usual_threads());
  const ParallelFor parallel = [threads](int n, const std::function<void(int)>& work) {
    parallel_for(n, work, threads);
  };
  viz::MeasureFirst found = what_to_measure_first(a.answers, a.drafted, r.case_file, parallel,
                                                  [&](double share) { bar.show(share, viz::measure_first_part); });
  bar.finish();
  return found;
}

std::string measure_text(const viz::MeasureFirst& m) {
  std::string text = "\n  " + wrap_text(m.look, 2) + "\n";
  for (const std::string& s : m.answers) text += "  - " + wrap_text(s, 4) + "\n";
  return text + (m.caution.empty() ? "" : "  " + wrap_text(m.caution, 2) + "\n");
}

void finish(const Request& r, const Asked& a, std::ostream& out) {
  const bool words = !r.quiet && !r.json;
  if (words) out << viz::draft_written(shown_file(r.case_file), drafted_case(a.answers)) << "\n\n" << std::flush;
  survey_it(r, out);
  std::optional<viz::MeasureFirst> measure;
  if (!r.draft.no_runs) measure = look_what_matters(r, a);
  say(r, out, draft_document(r.case_file, a.answers, a.drafted.value, measure, version()), [&] {
    return (measure ? measure_text(*measure) : "") + "\n  " + viz::draft_next(shown_file(r.case_file)) + "\n";
  });
}

Asked taken_by_options(const Request& r, const Units& units) {
  Asked a;
  a.answers = answers_by_options(r.draft, units);
  try {
    a.drafted = draft_from(a.answers, r.case_file);
  } catch (const DraftFault& fault) {
    throw CaseFileError(by_options, {}, "", fault.what());
  }
  return a;
}

/// One run at a time; an interruption leaves kept answers and nothing else.
Asked write_case(const Request& r, const Units& units, std::ostream& out) {
  const bool asks = !r.draft.by_options() && isatty(STDIN_FILENO) == 1 && isatty(STDOUT_FILENO) == 1;
  WorkLock alone(std::filesystem::absolute(r.case_file));
  const OnInterruption tidy([&] {
    alone.release();
    return viz::draft_interrupted(asks ? kept_answers_file(r.case_file).string() : "");
  });
  Asked a = asks ? ask_until_drafted(r, units, std::cin, out) : taken_by_options(r, units);
  if (a.stopped) return a;
  write_new_file(r.case_file, a.drafted.text.text);
  forget_answers(r.case_file);
  return a;
}

}  // namespace

void run_draft(const Request& r, std::ostream& out) {
  const Units units;
  if (r.draft.questions) return print_questions(r, units, out);
  check_file(r);
  const Asked a = write_case(r, units, out);
  if (!a.stopped) return finish(r, a, out);
  out << viz::draft_stopped(kept_answers_file(r.case_file).string(), "evenpull draft " + shown_file(r.case_file))
      << "\n";
}

}  // namespace evenpull
