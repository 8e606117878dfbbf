// The questions of a draft as they are typed at a terminal; answers kept.
#include "app/command/draft_dialogue.hpp"
#include "app/output/draft_kept.hpp"
#include "tests/app/drafted.hpp"

#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

struct Held {
  DraftAnswers answers;
  DialogueEnd end = DialogueEnd::stopped;
  std::string said, kept;
};

Held hold(const std::string& typed, DraftAnswers before = {}) {
  Held h;
  h.answers = std::move(before);
  std::istringstream in(typed);
  std::ostringstream out;
  h.end =
      hold_dialogue(h.answers, in, out, units_here(), [&](const DraftAnswers& a) { h.kept = kept_answers_text(a); });
  h.said = out.str();
  return h;
}

std::string enters(int n) { return std::string(static_cast<std::size_t>(n), '\n'); }

}  // namespace

TEST_CASE("answers typed and answers by option draft the same case", "[draft]") {
  const Held typed = hold("1\n61 in\n21 in\n17 in\n\nnormalised\n" + enters(40));
  CHECK(typed.end == DialogueEnd::done);
  CHECK(text_of_draft(typed.answers) ==
        text_of_draft(answered(
            {"kind = welded steel tube", "span = 61 in", "chord = 21 in", "tip chord = 17 in", "steel = normalised"})));
}

TEST_CASE("going back and forth drafts the same case as going straight through", "[draft]") {
  const Held straight = hold("wood\n70 in\n13 in\n" + enters(40));
  // The kind is changed and changed back; a span is corrected; a choice is gone through again.
  const Held back = hold("2\n60 in\n<\n70 in\nback\n<\nwood\n\n13 in\n<\n\n\n" + enters(40));
  CHECK(back.end == DialogueEnd::done);
  CHECK(text_of_draft(back.answers) == text_of_draft(straight.answers));
  CHECK_THAT(hold("<\nstop\n").said, Contains("This is the first question."));
}

TEST_CASE("what was typed is offered again after going back, what is usual is worked out anew", "[draft]") {
  const Held h = hold("aluminium tube\n60 in\n14 in\n12 in\n<\n<\n<\n120 in\nstop\n");
  CHECK_THAT(h.said, Contains("span [60 in]") && Contains("chord [14 in]"));
  const Held again = hold("aluminium tube\n120 in\n\n\n" + enters(40));
  CHECK(again.answers.at(Ask::bays).value == 10);
}

TEST_CASE("a draft that was broken off goes on where it was and comes to the same case", "[draft]") {
  const std::string lines = "sheet metal\n66 in\n\n12 in\n\n\n3 in\n";
  const std::string whole = text_of_draft(hold(lines + enters(50)).answers);
  std::istringstream all(lines);
  std::string first, line;
  for (int n = 0; std::getline(all, line); ++n) {
    first += line + "\n";
    const Held broken = hold(first);
    CHECK(broken.end == DialogueEnd::stopped);
    const DraftAnswers kept = kept_answers_of(broken.kept, "kept", units_here());
    const std::string rest = lines.substr(first.size());
    const Held on = hold(rest + enters(50), kept);
    CHECK(on.end == DialogueEnd::done);
    CHECK(text_of_draft(on.answers) == whole);
  }
}

TEST_CASE("kept answers of another kind of file are refused, what does not hold any more is asked again", "[draft]") {
  CHECK_THROWS_WITH(kept_answers_of("something else\n", "kept", units_here()), Contains("kept:1") && Contains("anew"));
  const DraftAnswers a = kept_answers_of(
      "evenpull draft 1\nkind = wood\nspan = 60 in\nchord = 9000 in\ntip chord = 12 in\n", "kept", units_here());
  CHECK(a.find(Ask::span));
  CHECK_FALSE(a.find(Ask::chord));
}

TEST_CASE("a wrong answer gets one message and is asked again; ? explains", "[draft]") {
  const Held h = hold("welded steel\n1\n60\n9000 in\n60 in\n?\n20 in\n20 in\n\n1 in\n0.6 in\n0.035 in\nstop\n");
  CHECK_THAT(h.said, Contains("\"welded steel\" is not one of \"welded steel tube\""));
  CHECK_THAT(h.said, Contains("\"60\" has no unit") && Contains("usual is 60 in"));
  CHECK_THAT(h.said, Contains("\"9000 in\" makes no sense here: it may be 100 to 8000 mm; usual is 60 in"));
  CHECK_THAT(h.said, Contains("From the middle of the leading edge tube"));
  CHECK_THAT(h.said, Contains("Wall of the leading edge tube 0.6 in is more than half of the"));
  CHECK(h.answers.size(Ask::leading_wall) == Approx(0.035 * 0.0254));
  CHECK(h.end == DialogueEnd::stopped);
}

TEST_CASE("what is typed cannot hide in what is said", "[draft]") {
  const Held h = hold("\x1b[2J\nstop\n");
  CHECK_THAT(h.said, !Contains("\x1b"));
}
