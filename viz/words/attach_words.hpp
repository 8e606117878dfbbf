// When the cloth is fastened to inner ribs, and what that changes, in words.
#pragma once

#include "shop/attach_study.hpp"
#include "solver/statement/case.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// "glued", "laced", "riveted", "screwed", "left".
const char* fastened_word(AttachHow how);
/// "rib 2", "ribs 2 and 3", "ribs 2, 4 and 5".
std::string named_ribs(const std::vector<int>& ribs);
/// "before ironing", "after 250 °F", "after ironing".
std::string fastened_when(const Attachment& a);
/// When, as short as it goes into a ring on a drawing: "0" before ironing, "1" after the first stage, "E" after ironing.
std::string moment_mark(const Case& c, const Attachment& a);
/// What the marks of a drawing mean, of those that the case has; empty: it has none.
std::vector<std::string> marks_legend(const Case& c);
/// "ribs 2 and 3: laced every 2.5 in (64 mm), after 250 °F"; "rib 4: left".
std::string attachment_text(const Attachment& a);
/// The whole schedule, one entry a sentence; empty: none is stated.
std::vector<std::string> attachment_sentences(const Case& c);
/// The same in one piece, for a line of a record; empty: none is stated.
std::string schedule_text(const Case& c);

/// What to fasten when a stage is done and cold, `stage` from 0, -1: before the first. `last`: nothing hotter follows, so
/// that all that is left of the schedule comes now. Orders to whoever does it: "Lace the cloth to ribs 2 and 3, ...".
std::vector<std::string> fasten_now(const Case& c, int stage, bool last);

/// What must have been fastened before a stage, for the head of its page; empty: nothing.
std::string fastened_first(const Case& c, int stage);

/// Why a moment may be wrong, for the doubts of a case; empty: it is not.
std::vector<std::string> attachment_doubts(const Case& c);

/// "fastened before ironing", "fastened after 250 °F", "not fastened while it is ironed", "as the case states".
std::string choice_text(const AttachChoice& choice);

/// Tables of a comparison: a row a choice.
struct AttachTables {
  std::vector<std::string> use_heads;
  std::vector<std::vector<std::string>> uses;  ///< worst use of each stage, with its limit
  std::string stage;  ///< of the readings: the last that every choice reached and one keeps its limits; empty: none
  std::vector<std::string> reading_heads;
  std::vector<std::vector<std::string>> readings;
};
AttachTables attach_tables(const std::vector<AttachRun>& runs);

/// What the comparison is, what it says, what it leaves out.
std::vector<std::string> attach_sentences(const std::vector<AttachRun>& runs);
/// Hollow ribs, one sentence or two each; empty: none is.
std::vector<std::string> hollow_sentences(const std::vector<AttachRun>& runs);

}  // namespace evenpull::viz
