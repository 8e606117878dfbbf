// evenpull draft: what is asked, answers by option, what is written and printed.
#include "app/command/commands.hpp"
#include "app/command/exit_codes.hpp"
#include "app/output/draft_json.hpp"
#include "tests/app/drafted.hpp"

#include <nlohmann/json.hpp>

#include <set>
#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

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
