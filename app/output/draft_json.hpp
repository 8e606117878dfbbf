// The questions of a draft and what came of one, for programs.
#pragma once

#include "shop/draft/drafted_case.hpp"
#include "solver/statement/case.hpp"
#include "viz/words/draft_words.hpp"

#include <optional>
#include <string>

namespace evenpull {

/// All questions with their words, kinds, ranges, usual answers and when they are asked; of one kind where it is said.
std::string draft_questions_document(std::optional<DraftKind> kind, const std::string& version);

/// What was drafted: answers, doubts of the case, what to measure again first (none where it was not looked at).
std::string draft_document(const std::string& file, const DraftAnswers& answers, const Case& c,
                           const std::optional<viz::MeasureFirst>& measure, const std::string& version);

}  // namespace evenpull
