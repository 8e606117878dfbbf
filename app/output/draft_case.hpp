// A drafted case as text: TOML with the keys of cases/template.toml, each line marked measured or usual.
#pragma once

#include "shop/draft/drafted_case.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct DraftText {
  std::string text;
  std::vector<std::vector<Ask>> asked;  ///< of each line, from the first: the answers on which it rests
  /// The answer on which a line rests, or the nearest line above; of the last lines the kind.
  Ask ask_of_line(int line) const;
};

/// `title` is what the sheet will be headed with.
DraftText draft_case_text(const DraftedCase& d, const DraftAnswers& answers, const std::string& title);

}  // namespace evenpull
