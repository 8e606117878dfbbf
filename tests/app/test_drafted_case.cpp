// Cases that come of the answers of a draft.
#include "solver/geometry/surface.hpp"
#include "tests/app/drafted.hpp"
#include "viz/words/section_words.hpp"

#include <random>
#include <set>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

void check_same_members(const Case& a, const Case& b) {
  REQUIRE(a.span_members.size() == b.span_members.size());
  for (std::size_t i = 0; i < a.span_members.size(); ++i) {
    CHECK(print_make(a.span_members[i].make, a) == print_make(b.span_members[i].make, b));
    CHECK(a.span_members[i].role == b.span_members[i].role);
    CHECK(a.span_members[i].chord_fraction == Approx(b.span_members[i].chord_fraction));
  }
  REQUIRE(a.ribs.size() == b.ribs.size());
  for (std::size_t i = 0; i < a.ribs.size(); ++i) {
    CHECK(a.ribs[i].station == Approx(b.ribs[i].station));
    CHECK(print_make(a.ribs[i].make, a) == print_make(b.ribs[i].make, b));
    CHECK(a.ribs[i].front_joint.kind == b.ribs[i].front_joint.kind);
    CHECK(a.ribs[i].rear_joint.kind == b.ribs[i].rear_joint.kind);
  }
  CHECK(a.tip_bow.has_value() == b.tip_bow.has_value());
  if (a.tip_bow && b.tip_bow) CHECK(print_make(*a.tip_bow, a) == print_make(*b.tip_bow, b));
}

void check_same_panel(const Case& a, const Case& b) {
  check_same_members(a, b);
  const Surface sa(a), sb(b);
  for (const double f : {0.0, 0.25, 0.5, 0.75, 1.0}) CHECK(sa.depth(f, {0, 0}) == Approx(sb.depth(f, {0, 0})));
  const auto held = [](const std::vector<Support>& all) {
    std::multiset<std::string> out;
    for (const Support& s : all)
      out.insert(std::to_string(s.member) + " " + std::to_string(static_cast<int>(s.kind)) + " " +
                 std::to_string(s.station));
    return out;
  };
  CHECK(held(a.while_ironed) == held(b.while_ironed));
  CHECK(held(a.in_use) == held(b.in_use));
  CHECK(a.cloth.areal_mass == Approx(b.cloth.areal_mass));
  CHECK(a.blanket.kind == b.blanket.kind);
  CHECK(a.approved_last_stage.value_or(0) == Approx(b.approved_last_stage.value_or(0)));
}

}  // namespace

TEST_CASE("usual answers of each kind draft a case that reads, stands and raises no doubt", "[draft]") {
  for (const DraftKind k : draft_kinds) {
    const Case c = drafted_of(usual_of_kind(k));
    INFO(viz::draft_kind_word(k));
    for (const std::string& doubt : c.doubts) UNSCOPED_INFO(doubt);
    CHECK(c.doubts.empty());
  }
}

TEST_CASE("so do tapered, bowed, unevenly ribbed and half-open ones", "[draft]") {
  for (const Given& given : std::vector<Given>{
           {"kind = welded steel tube", "tip chord = 15 in", "bow = yes", "bow depth = 5 in"},
           {"kind = aluminium tube", "thickest = 1 1/4 in", "tube alloy = another"},
           {"kind = aluminium tube", "evenly spaced = no", "stations = 0, 11, 24, 37, 48, 60 in",
            "held = on its hinges"},
           {"kind = sheet metal", "sheet alloy = another", "joints = one rivet or bolt", "blanket = two sheets"},
           {"kind = wood", "rib make = solid", "wood = another", "edge shape = square", "cloth = weighed"},
           {"kind = wing bay", "goes on = inboard end", "held = both spars clamped", "ribs glued = yes"}}) {
    const Case c = drafted_of(answered(given));
    INFO(given.front());
    for (const std::string& doubt : c.doubts) UNSCOPED_INFO(doubt);
    CHECK(c.doubts.empty());
  }
}

TEST_CASE("a drafted case says of each line whether it was measured", "[draft]") {
  const std::string text = text_of_draft(
      answered({"kind = welded steel tube", "span = 61 in", "leading wall = 0.049 in", "joints = welded"}));
  CHECK_THAT(text, Contains("from 27 answers: 4 given, 23 usual ones"));
  CHECK_THAT(text, Contains("span = \"61 in\"                                        # measured"));
  CHECK_THAT(text, Contains("wall = \"0.049 in\" }  # measured in part, the rest USUAL"));
  CHECK_THAT(text, Contains("joints = \"welded\"                                     # as answered"));
  CHECK_THAT(text, Contains("material = \"4130 tube\"                                # USUAL, nobody said"));
}

TEST_CASE("dimensions of the welded demo rudder given as answers are its members again", "[draft]") {
  const Case c = drafted_of(answered({"kind = welded steel tube",
                                      "span = 44 in",
                                      "chord = 20 in",
                                      "tip chord = 17 in",
                                      "straight edge = leading edge",
                                      "steel = normalised",
                                      "leading tube = 1 in",
                                      "leading wall = 0.035 in",
                                      "trailing tube = 1/2 in",
                                      "trailing wall = 0.035 in",
                                      "rib tube = 1/2 in",
                                      "rib wall = 0.035 in",
                                      "end tube = 5/8 in",
                                      "end wall = 0.035 in",
                                      "bow = yes",
                                      "bow depth = 7 in",
                                      "bow tube = 5/8 in",
                                      "bow wall = 0.035 in",
                                      "bays = 5",
                                      "joints = welded",
                                      "held = clamped at both ends, blocks between",
                                      "rests = 22 in",
                                      "hinges = 6 in, 38 in",
                                      "horn = 0 in",
                                      "cloth = medium",
                                      "approved = 300 degF"}));
  check_same_panel(c, read_case(std::string(EVENPULL_CASES_DIR) + "/welded_steel_rudder.toml"));
}

TEST_CASE("dimensions of the wooden demo aileron given as answers are its members again", "[draft]") {
  const Case c = drafted_of(
      answered({"kind = wood", "span = 72 in", "chord = 13 in", "spar width = 3/4 in", "spar depth = 2 in",
                "edge shape = tapered", "edge width = 1 1/4 in", "edge depth = 3/8 in", "edge thickness = 0.3 in",
                "rib make = capstrips on plywood", "cap width = 1/4 in", "cap thickness = 1/4 in",
                "web thickness = 1/16 in", "end rib width = 3/4 in", "bays = 9", "joints = glued gusset",
                "rests = 24, 48 in", "hinges = 8, 36, 64 in", "approved = 300 degF"}));
  check_same_panel(c, read_case(std::string(EVENPULL_CASES_DIR) + "/wooden_aileron.toml"));
}

TEST_CASE("dimensions of the metal demo aileron given as answers are its members again", "[draft]") {
  const Case c = drafted_of(answered({"kind = sheet metal", "span = 64 in", "chord = 14 in", "nose depth = 3.2 in",
                                      "thickest = 2.12 in", "hinges = 0, 32, 64 in", "approved = 350 degF"}));
  check_same_members(c, read_case(std::string(EVENPULL_CASES_DIR) + "/metal_aileron.toml"));
}

namespace {

/// Any answer that is one, near the usual size: what clashes is drawn anew.
std::string drawn(std::mt19937& r, const DraftQuestion& q, const DraftAnswers& a) {
  const auto share = [&](double low, double high) { return low + (high - low) * (r() % 10000) / 9999.0; };
  const DraftAnswer usual = usual_answer(q, a);
  switch (q.answer) {
    case AnswerKind::words: {
      const auto choices = choices_of(q, a);
      return viz::choice_word(q.ask, choices[r() % choices.size()]);
    }
    case AnswerKind::yes_no: return r() % 2 ? "yes" : "no";
    case AnswerKind::whole: return std::to_string(1 + r() % 14);
    case AnswerKind::quantity: {
      const bool length = q.measure == Measure::length;
      if (!length) return usual.sizes.front().text;
      return written_like(usual.sizes.front().value * share(0.3, 2.5), r() % 2 ? "in" : "mm").text;
    }
    case AnswerKind::lengths: break;
  }
  std::string text;
  const double span = a.size(Ask::span);
  const int n = q.ask == Ask::stations ? 8 : 3;
  const std::string whole = a.at(Ask::span).sizes.front().text;
  for (int i = 0; i <= n; ++i) {
    if (q.ask != Ask::stations && i % n == 0) continue;
    const double y = i == 0 ? 0 : span * (i + share(-0.3, 0.3)) / n;
    text += (text.empty() ? "" : ", ") + (i == n ? whole : written_like(y, whole).text);
  }
  return text;
}

/// Those of one seed: true where a case came of it.
bool drafts_or_blames(unsigned seed) {
  std::mt19937 r(seed);
  DraftAnswers a;
  bool clashed = false;
  for (const DraftQuestion& q : draft_questions()) {
    if (!is_asked(q, a)) continue;
    for (int tries = 0; !a.find(q.ask); ++tries) {
      try {
        if (tries < 20) take_draft_answer(q, drawn(r, q, a), a, units_here());
        else take_usual_answer(q, a);
      } catch (const DraftAnswerError& e) {
        CHECK(e.ask == q.ask);
        if (tries < 20) continue;
        // Nothing goes with the others, the usual answer neither: that is said, and a person would go back.
        a.set(q.ask, usual_answer(q, a));
        clashed = true;
      }
    }
  }
  INFO("seed " << seed);
  try {
    const Drafted d = draft_from(a, "drawn.toml", few_nodes);
    CHECK(d.value.ribs.size() >= 2);
    return !clashed;
  } catch (const DraftFault& e) {
    INFO(e.what());
    CHECK(is_asked(*question_of(e.ask, a.kind()), a));
    CHECK_THAT(e.what(), Contains(viz::ask_words(e.ask, a.kind()).id));
  }
  return false;
}

}  // namespace

TEST_CASE("any set of valid answers gives a case that reads, or names the answer at fault", "[draft]") {
  int read = 0;
  for (unsigned seed = 100; seed < 110; ++seed) read += drafts_or_blames(seed) ? 1 : 0;
  CHECK(read >= 5);
}

TEST_CASE("so do a hundred sets of them, and most are cases", "[draft][slow]") {
  int read = 0;
  for (unsigned seed = 0; seed < 100; ++seed) read += drafts_or_blames(seed) ? 1 : 0;
  INFO(read << " read");
  CHECK(read > 80);
}

TEST_CASE("an answer that only the reader finds at fault is named by its own name", "[draft]") {
  const auto blamed = [](const Given& given) -> std::pair<Ask, std::string> {
    try {
      draft_from(answered(given), "panel.toml", few_nodes);
    } catch (const DraftFault& e) {
      return {e.ask, e.what()};
    }
    FAIL("a case came of it");
    return {};
  };
  const auto flange =
      blamed({"kind = sheet metal", "edge leg = 0.08 in", "edge opening = 0.07 in", "edge bend = 0.02 in"});
  CHECK(flange.first == Ask::edge_opening);
  CHECK_THAT(flange.second,
             Contains("edge opening = 0.07 in: no case can be drafted with this answer beside the others") &&
                 Contains("check the units") && !Contains("panel.toml"));
}
