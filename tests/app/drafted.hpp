// Answers given by name, and the case that is drafted from them.
#pragma once

#include "app/command/drafting.hpp"
#include "app/input/draft_answer.hpp"
#include "tests/app/case_text.hpp"

#include <string>
#include <vector>

namespace evenpull_test {

using namespace evenpull;

constexpr int few_nodes = 200;  // of the mesh on which a drafted panel is tried

inline const Units& units_here() {
  static const Units units;
  return units;
}

using Given = std::vector<std::string>;

inline DraftAnswers answered(const Given& lines) {
  std::vector<NamedAnswer> given;
  for (const std::string& line : lines) given.push_back(named_answer_of(line, "--answer"));
  return with_usual_anew(take_named_answers(given, true, "--answer", units_here()).answers);
}

inline DraftAnswers usual_of_kind(DraftKind k) { return answered({std::string("kind = ") + viz::draft_kind_word(k)}); }

inline Case drafted_of(const DraftAnswers& a) { return draft_from(a, "panel.toml").value; }
inline std::string text_of_draft(const DraftAnswers& a) { return draft_from(a, "panel.toml", few_nodes).text.text; }

}  // namespace evenpull_test
