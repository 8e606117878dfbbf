// Answers of a draft as somebody types them.
#pragma once

#include "app/text/units.hpp"
#include "shop/draft/answers.hpp"

#include <stdexcept>
#include <string>
#include <vector>

namespace evenpull {

/// What was typed is no answer to the question, or clashes with an earlier one. what() is one sentence: the value,
/// what it may be, what is usual.
struct DraftAnswerError : std::runtime_error {
  Ask ask;
  DraftAnswerError(Ask ask_, const std::string& sentence) : std::runtime_error(sentence), ask(ask_) {}
};

/// Reads an answer to a question that is asked; "usual" takes the usual one. Throws DraftAnswerError.
DraftAnswer read_draft_answer(const DraftQuestion& q, const std::string& text, const DraftAnswers& before,
                              const Units& units);
/// The same, put beside the others if it goes with them.
void take_draft_answer(const DraftQuestion& q, const std::string& text, DraftAnswers& answers, const Units& units);
void take_usual_answer(const DraftQuestion& q, DraftAnswers& answers);

/// "span = 60 in"
struct NamedAnswer {
  Ask ask{};
  std::string text;
  std::string as_given;
};
/// `source` is named in messages: "--answer", or a file. Throws CaseFileError.
NamedAnswer named_answer_of(const std::string& text, const std::string& source, int line = 0);

/// What became of answers given by name.
struct DraftAnswered {
  DraftAnswers answers;
  std::vector<const DraftQuestion*> missing;  ///< asked, not given
};
/// Takes what was given in the order in which it is asked; with `usual` also usual answers for the rest. Stops at the
/// first that is missing otherwise, but that those which need no more are found too. Throws CaseFileError for what is
/// no answer, is given twice or is not asked.
DraftAnswered take_named_answers(const std::vector<NamedAnswer>& given, bool usual, const std::string& source,
                                 const Units& units);

}  // namespace evenpull
