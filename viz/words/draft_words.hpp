// Questions of a draft in words, with what each means and where to put the tape; what is said of answers; and the
// remarks that a drafted case carries.
#pragma once

#include "shop/draft/drafted_case.hpp"
#include "shop/draft/measure_first.hpp"
#include "solver/geometry/panel.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Of one question as that kind of structure is asked it.
struct AskWords {
  const char* id;        ///< as an answer by option names it: "trailing wall"
  const char* name;      ///< "wall of the trailing edge tube"
  const char* question;  ///< one sentence
  const char* explain;   ///< what it is and where to put the tape
};
AskWords ask_words(Ask ask, DraftKind kind);
/// Every id once.
std::vector<std::string> ask_ids();
std::optional<Ask> ask_of_id(const std::string& id);

/// "welded steel tube", "aluminium tube", ...
const char* draft_kind_word(DraftKind k);
/// A choice as it is typed: "riveted gusset".
std::string choice_word(Ask ask, int value);
/// What a choice means beyond its word; mostly empty.
const char* choice_remark(Ask ask, int value);
/// "5/8 in", "yes", "0 in, 12 in, 24 in".
std::string answer_text(const DraftQuestion& q, const DraftAnswer& a);

/// Why an answer cannot stand beside another, as a whole sentence with both.
std::string clash_text(const DraftTrouble& t, const DraftAnswers& answers);

/// What the guide says between questions.
std::string draft_welcome(const std::string& file);
std::string draft_taken_up(int kept);
std::string draft_stopped(const std::string& kept_in, const std::string& command);
/// `kept_in`: where answers are kept; empty: nowhere.
std::string draft_interrupted(const std::string& kept_in);
std::string draft_first_already();
/// The case is there; what to do next.
std::string draft_written(const std::string& file, const DraftedCase& d);
std::string draft_next(const std::string& file);

/// Where a remark stands in a drafted case.
enum class DraftRemark {
  outline,
  profile,
  bow,
  members,
  own_material,
  ribs,
  joints_not_known,
  while_ironed,
  in_use,
  cloth,
  blanket,
  iron,
  stages,
  not_asked
};
std::string draft_remark(DraftRemark r, const DraftedCase& d);
/// The first lines: how the file came about.
std::vector<std::string> draft_head(const DraftedCase& d);
/// Whether what a line rests on was measured or, of words, said.
enum class DraftMark { measured, usual, partly, said, nobody_said, worked_out };
const char* draft_mark(DraftMark m);

const char* part_word(DraftPart part);  ///< the name of a member
const char* size_key(SizeKey key);
const char* draft_material_word(DraftMaterial m);

/// After the survey: which answers matter most, as sentences.
struct MeasureFirst {
  std::string look;                  ///< what the first look ran and came to
  std::vector<std::string> answers;  ///< three, most important first
  std::string caution;
};
MeasureFirst measure_first_words(const std::optional<FirstLook>& look, const std::vector<TapeEffect>& effects,
                                 const DraftAnswers& answers, const Case& c);
/// Where the first look found no equilibrium.
MeasureFirst no_first_look();
/// What is computed meanwhile.
inline constexpr const char* measure_first_part = "what to measure again first";

}  // namespace evenpull::viz
