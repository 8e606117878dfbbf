// evenpull draft: what is asked and typed, and the case that comes of it.
#include "app/command/commands.hpp"
#include "app/command/draft_dialogue.hpp"
#include "app/command/drafting.hpp"
#include "app/command/exit_codes.hpp"
#include "app/input/draft_answer.hpp"
#include "app/output/draft_json.hpp"
#include "app/output/draft_kept.hpp"
#include "solver/geometry/surface.hpp"
#include "tests/app/case_text.hpp"
#include "viz/words/section_words.hpp"

#include <nlohmann/json.hpp>

#include <random>
#include <set>
#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

constexpr int few_nodes = 200;

const Units& units_here() {
  static const Units units;
  return units;
}

using Given = std::vector<std::string>;

DraftAnswers answered(const Given& lines) {
  std::vector<NamedAnswer> given;
  for (const std::string& line : lines) given.push_back(named_answer_of(line, "--answer"));
  return with_usual_anew(take_named_answers(given, true, "--answer", units_here()).answers);
}

DraftAnswers usual_of_kind(DraftKind k) { return answered({std::string("kind = ") + viz::draft_kind_word(k)}); }

Case drafted_of(const DraftAnswers& a) { return draft_from(a, "panel.toml").value; }
std::string text_of_draft(const DraftAnswers& a) { return draft_from(a, "panel.toml", few_nodes).text.text; }

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

struct DraftSaid {
  int code = 0;
  std::string out, err;
};

DraftSaid run_it(const Request& r) {
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

Request request_in(const TemporaryFolder& folder, const std::string& kind, const Given& answers = {}) {
  Request r;
  r.job = Request::Job::draft;
  r.case_file = (folder.path / "my-panel.toml").string();
  r.folder = (folder.path / "survey").string();
  r.draft.kind = kind;
  r.draft.answers = answers;
  r.draft.usual = true;
  r.draft.no_runs = true;
  return r;
}

std::string complaint_of(const Given& lines) {
  try {
    answered(lines);
  } catch (const CaseFileError& e) {
    return e.what();
  }
  FAIL("taken without complaint");
  return "";
}

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

TEST_CASE("every question of a draft has words and an explanation, and a name of its own", "[draft]") {
  for (const DraftKind k : draft_kinds) {
    std::set<std::string> ids;
    for (const DraftQuestion& q : draft_questions()) {
      if (!holds(q.kinds, k)) continue;
      const viz::AskWords w = viz::ask_words(q.ask, k);
      INFO(w.id);
      CHECK(ids.insert(w.id).second);
      CHECK(viz::ask_of_id(w.id) == q.ask);
      CHECK(std::string(w.question).size() > 10);
      CHECK(std::string(w.explain).size() > 10);
      CHECK(std::string(w.name).size() > 2);
      std::set<std::string> choices;
      for (const DraftChoice& c : q.choices) {
        const std::string word = viz::choice_word(q.ask, c.value);
        CHECK_FALSE(word.empty());
        CHECK(choices.insert(word).second);
      }
    }
  }
}

TEST_CASE("usual sizes are in SI what they are as written", "[draft]") {
  const auto kind_of = [](Measure m) {
    return m == Measure::area_mass ? Quantity::area_mass
           : m == Measure::swing   ? Quantity::temperature_difference
           : m == Measure::stress  ? Quantity::stress
                                   : Quantity::length;
  };
  for (const DraftQuestion& q : draft_questions())
    for (const DraftUsual& u : q.usual)
      if (q.answer == AnswerKind::quantity && !u.as)
        CHECK(units_here().parse(u.size.text, kind_of(q.measure)) == Approx(u.size.value).margin(1e-12));
}

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

TEST_CASE("places are listed with the unit of the last, and a decimal comma is no list", "[draft]") {
  const DraftAnswers a = answered({"kind = wood", "span = 60 in", "hinges = 5, 30, 55 in"});
  REQUIRE(a.at(Ask::hinges).sizes.size() == 3);
  CHECK(a.at(Ask::hinges).sizes[0].text == "5 in");
  CHECK_THAT(complaint_of({"kind = wood", "hinges = 0,5 in, 12 in"}), Contains("comma"));
  CHECK_THAT(complaint_of({"kind = wood", "hinges = 5 in"}), Contains("lists 1") && Contains("2 to 12"));
}

TEST_CASE("answers by option that cannot be used are named", "[draft]") {
  CHECK_THAT(complaint_of({"kind = wood", "spam = 60 in"}), Contains("did you mean \"span\"?"));
  CHECK_THAT(complaint_of({"kind = wood", "span"}), Contains("is no answer"));
  CHECK_THAT(complaint_of({"kind = wood", "span = 60 in", "span = 61 in"}), Contains("answers already"));
  CHECK_THAT(complaint_of({"kind = wood", "steel = normalised"}), Contains("is not asked of wood"));
  CHECK_THAT(complaint_of({"kind = wood", "horn = 61 in"}), Contains("horn: 61 in lies beyond the last rib"));
  CHECK_THAT(complaint_of({"kind = tin"}), Contains("is not one of"));
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

TEST_CASE("the command writes the case, draws its survey, and leaves nothing else", "[draft]") {
  const TemporaryFolder folder;
  const DraftSaid said = run_it(request_in(folder, "wood", {"span = 66 in"}));
  INFO(said.err);
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out,
             Contains("Written: ") && Contains("are usual ones that nobody measured") && Contains("evenpull plan "));
  CHECK(read_case((folder.path / "my-panel.toml").string()).title == "My panel");
  CHECK(std::filesystem::exists(folder.path / "survey/survey.png"));
  std::set<std::string> names;
  for (const auto& e : std::filesystem::directory_iterator(folder.path)) names.insert(e.path().filename().string());
  CHECK(names == std::set<std::string>{"my-panel.toml", "survey"});
}

TEST_CASE("a file that is there is never overwritten", "[draft]") {
  const TemporaryFolder folder;
  folder.write("my-panel.toml", "mine\n");
  const DraftSaid said = run_it(request_in(folder, "wood"));
  CHECK(said.code == static_cast<int>(ExitCode::cannot_write));
  CHECK_THAT(said.err, Contains("is there already, and is never overwritten; give another name"));
  CHECK(read_all(folder.path / "my-panel.toml") == "mine\n");
  CHECK_FALSE(std::filesystem::exists(folder.path / "survey"));
}

TEST_CASE("without usual answers the missing ones are named, and nothing is written", "[draft]") {
  const TemporaryFolder folder;
  Request r = request_in(folder, "wood", {"span = 66 in"});
  r.draft.usual = false;
  const DraftSaid said = run_it(r);
  CHECK(said.code == static_cast<int>(ExitCode::bad_case));
  CHECK_THAT(said.err, Contains("not answered: chord, tip chord") && Contains("add --usual"));
  CHECK(std::filesystem::is_empty(folder.path));
  r.case_file.clear();
  CHECK_THAT(run_it(r).err, Contains("say which file to write"));
  r.case_file = "-";
  CHECK_THAT(run_it(r).err, Contains("not standard output"));
}

TEST_CASE("a draft in JSON has its answers, and says which were measured", "[draft]") {
  const TemporaryFolder folder;
  Request r = request_in(folder, "welded steel tube", {"span = 66 in"});
  r.json = true;
  const DraftSaid said = run_it(r);
  REQUIRE(said.code == 0);
  const auto j = nlohmann::json::parse(said.out);
  CHECK(j["format"] == 1);
  CHECK(j["doubts"].empty());
  for (const auto& a : j["answers"]) CHECK(a["measured"] == (a["id"] == "span" || a["id"] == "kind"));
}

TEST_CASE("the questions in JSON carry what a form needs", "[draft]") {
  const auto j = nlohmann::json::parse(draft_questions_document({}, "0"));
  std::set<std::string> ids;
  for (const auto& q : j["questions"]) {
    ids.insert(q["id"].get<std::string>());
    CHECK_FALSE(q["question"].get<std::string>().empty());
    CHECK_FALSE(q["kinds"].empty());
    CHECK_FALSE(q["usual"].empty());
    for (const auto& w : q.value("asked_when", nlohmann::json::array()))
      CHECK(ids.count(w["answer"].get<std::string>()) == 1);
  }
  for (const std::string& id : viz::ask_ids()) CHECK(ids.count(id) == 1);
  const auto wood = nlohmann::json::parse(draft_questions_document(DraftKind::wood, "0"));
  CHECK(wood["questions"].size() < j["questions"].size());
  Request r;
  r.job = Request::Job::draft;
  r.draft.questions = true;
  CHECK_THAT(run_it(r).out, Contains("wing bay") && Contains("mid line"));
}

TEST_CASE("what governs a first look hangs most on the pull of the cloth", "[draft]") {
  const DraftAnswers a = answered({"kind = aluminium tube", "span = 24 in", "bays = 2"});
  const Drafted d = draft_from(a, "small.toml");
  double last = 0;
  const viz::MeasureFirst m = what_to_measure_first(a, d, "small.toml", {}, [&](double share) {
    CHECK(share >= last);
    last = share;
  });
  CHECK(last == Approx(1));
  CHECK_THAT(m.look, Contains("governs at"));
  REQUIRE(m.answers.size() == 3);
  CHECK_THAT(m.answers[0], Contains("Measure again first: pull of the cloth (32 % more"));
  CHECK_THAT(m.answers[1], Contains("Then: ") && Contains("it is the usual answer and nobody measured it"));
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
