// A drafted case as text: TOML with the keys of cases/template.toml, each line marked measured or usual.
#pragma once

#include "shop/draft/drafted_case.hpp"

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace evenpull {

struct DraftText {
  std::string text;
  std::vector<std::vector<Ask>> asked;              ///< of each line, from the first: the answers on which it rests
  std::map<std::pair<int, std::string>, Ask> keys;  ///< the same of keys within a line, by line (from 1) and key
  /// The answer on which the last part of a key on a line rests, or the line, or the nearest one above it.
  Ask ask_of(int line, const std::string& key) const;
};

/// `title` is what the sheet will be headed with.
DraftText draft_case_text(const DraftedCase& d, const DraftAnswers& answers, const std::string& title);

}  // namespace evenpull
