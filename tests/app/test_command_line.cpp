#include "app/command/commands.hpp"
#include "app/command/exit_codes.hpp"
#include "tests/app/case_text.hpp"

#include <algorithm>
#include <iostream>
#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

ParsedCommand parse(std::vector<const char*> words) {
  words.insert(words.begin(), "evenpull");
  return parse_command_line(static_cast<int>(words.size()), words.data());
}

/// What is said of a command line that is not understood.
std::string complaint_about(std::vector<const char*> words) {
  std::ostringstream said;
  auto* before = std::cerr.rdbuf(said.rdbuf());
  const auto parsed = parse(std::move(words));
  std::cerr.rdbuf(before);
  CHECK_FALSE(parsed.request);
  CHECK(parsed.exit_code == static_cast<int>(ExitCode::bad_command));
  return said.str();
}

}  // namespace

TEST_CASE("the command line says what is to be done", "[command]") {
  const auto plan = parse({"plan", "a.toml", "--paper", "A4", "--quick", "--out", "there"});
  REQUIRE(plan.request);
  CHECK(plan.request->job == Request::Job::plan);
  CHECK(plan.request->case_file == "a.toml");
  CHECK(plan.request->paper == Paper::a4);
  CHECK(plan.request->accuracy == Accuracy::quick);
  CHECK(result_folder_of(*plan.request) == "there");
  const auto replay = parse({"replay", "x/aileron.toml", "--order", "o.toml"});
  REQUIRE(replay.request);
  CHECK(replay.request->order_file == "o.toml");
  CHECK(result_folder_of(*replay.request) == "aileron-replay");
  CHECK(parse({"survey", "a.toml", "--json"}).request->json);
}

TEST_CASE("turn-overs are counted from none, and half-done work is an order file", "[command]") {
  const auto plan = parse({"plan", "a.toml", "--turn-overs", "2", "--from", "half.toml"});
  REQUIRE(plan.request);
  CHECK(plan.request->turn_overs == 2);
  CHECK(plan.request->order_file == "half.toml");
  CHECK_FALSE(parse({"plan", "a.toml"}).request->turn_overs);
  CHECK(parse({"plan", "a.toml", "--turn-overs", "-1"}).exit_code == static_cast<int>(ExitCode::bad_command));
}

TEST_CASE("threads are counted from one, and as many as the machine has if not said", "[command]") {
  CHECK(parse({"plan", "a.toml", "--threads", "7"}).request.value().threads == 7);
  CHECK(parse({"contrast", "a.toml", "--threads", "1"}).request.value().threads == 1);
  CHECK_FALSE(parse({"replay", "a.toml", "--order", "o.toml"}).request.value().threads);
  for (const char* wrong : {"0", "-2", "two", "5000"})
    CHECK(parse({"plan", "a.toml", "--threads", wrong}).exit_code == static_cast<int>(ExitCode::bad_command));
}

TEST_CASE("accuracy is one of three words, normal if not said, and --quick is short for the first", "[command]") {
  const auto accuracy = [](std::vector<const char*> words) { return parse(std::move(words)).request.value().accuracy; };
  for (const char* job : {"plan", "replay"}) {
    std::vector<const char*> words = {job, "a.toml"};
    if (job == std::string("replay")) words.insert(words.end(), {"--order", "o.toml"});
    const auto with = [&](std::vector<const char*> more) {
      auto all = words;
      all.insert(all.end(), more.begin(), more.end());
      return all;
    };
    CHECK(accuracy(words) == Accuracy::normal);
    CHECK(accuracy(with({"--accuracy", "quick"})) == Accuracy::quick);
    CHECK(accuracy(with({"--accuracy", "normal"})) == Accuracy::normal);
    CHECK(accuracy(with({"--accuracy", "Fine"})) == Accuracy::fine);
    CHECK(accuracy(with({"--quick"})) == Accuracy::quick);
    // Two answers to one question.
    CHECK_FALSE(parse(with({"--quick", "--accuracy", "fine"})).request);
  }
}

TEST_CASE("an unknown accuracy is answered with the words that are known, in one message", "[command]") {
  std::ostringstream said;
  auto* before = std::cerr.rdbuf(said.rdbuf());
  const auto p = parse({"plan", "a.toml", "--accuracy", "best"});
  std::cerr.rdbuf(before);
  CHECK_FALSE(p.request);
  CHECK(p.exit_code == static_cast<int>(ExitCode::bad_command));
  CHECK_THAT(said.str(), Contains("\"best\" is not known; say quick, normal or fine"));
  const auto text = said.str();
  CHECK(std::count(text.begin(), text.end(), '\n') == 2);  // the message, and where help is
}

TEST_CASE("a command line that is not understood has its own exit code", "[command]") {
  for (const auto& words : std::vector<std::vector<const char*>>{{},
                                                                 {"plna", "a.toml"},
                                                                 {"plan"},
                                                                 {"plan", "a.toml", "--paper", "a5"},
                                                                 {"replay", "a.toml"},
                                                                 {"survey", "a.toml", "--quick"}}) {
    const auto p = parse(words);
    CHECK_FALSE(p.request);
    CHECK(p.exit_code == static_cast<int>(ExitCode::bad_command));
  }
  CHECK(parse({"--help"}).exit_code == 0);
  CHECK(parse({"--version"}).exit_code == 0);
}

TEST_CASE("the template command prints the template", "[command]") {
  std::ostringstream out, err;
  Request r;
  r.job = Request::Job::print_template;
  CHECK(run_request(r, out, err) == 0);
  CHECK(out.str() == read_all(std::string(EVENPULL_CASES_DIR) + "/template.toml"));
}

TEST_CASE("a bad case is one message, its exit code, and nothing written", "[command]") {
  const TemporaryFolder t;
  std::ostringstream out, err;
  Request r;
  r.case_file = t.write("case.toml", with(template_text(), "span = \"1800 mm\"", "span = \"1800 kg\""));
  r.folder = (t.path / "result").string();
  for (const auto job : {Request::Job::plan, Request::Job::survey}) {
    err.str("");
    r.job = job;
    CHECK(run_request(r, out, err) == static_cast<int>(ExitCode::bad_case));
    CHECK_THAT(err.str(), Contains("case.toml:") && Contains("outline.span") && Contains("1800 kg"));
    const auto said = err.str();
    CHECK(std::count(said.begin(), said.end(), '\n') == 1);
  }
  CHECK(out.str().empty());
  CHECK_FALSE(std::filesystem::exists(r.folder));
}

TEST_CASE("a teacher can change looseness, friction and stiffness, as shares or percent", "[command]") {
  const auto p = parse({"contrast", "x/a.toml", "--looseness", "2 %", "--stiffness", "0.5", "--paper", "a4"});
  REQUIRE(p.request);
  CHECK(p.request->job == Request::Job::contrast);
  CHECK(p.request->looseness.value() == Approx(0.02));
  CHECK(p.request->stiffness.value() == Approx(0.5));
  CHECK_FALSE(p.request->friction);
  CHECK(result_folder_of(*p.request) == "a-contrast");
  CHECK(p.request->accuracy == Accuracy::normal);  // as a plan has it
  CHECK(parse({"contrast", "a.toml", "--quick"}).request.value().accuracy == Accuracy::quick);
  CHECK(parse({"contrast", "a.toml", "--accuracy", "fine"}).request.value().accuracy == Accuracy::fine);
}

TEST_CASE("what a teacher cannot mean is refused with the range", "[command]") {
  std::ostringstream said;
  auto* before = std::cerr.rdbuf(said.rdbuf());
  const auto too_loose = parse({"contrast", "a.toml", "--looseness", "50 %"});
  const auto wrong_unit = parse({"contrast", "a.toml", "--friction", "3 mm"});
  std::cerr.rdbuf(before);
  CHECK_FALSE(too_loose.request);
  CHECK(too_loose.exit_code == static_cast<int>(ExitCode::bad_command));
  CHECK_FALSE(wrong_unit.request);
  CHECK_THAT(said.str(), Contains("--looseness: \"50 %\" is out of range; it may be from 0 to 0.06"));
  CHECK_THAT(said.str(), Contains("--friction"));
}

TEST_CASE("an option that is none is named with the nearest that is", "[command]") {
  const std::string help = "\nFor help: evenpull --help, or evenpull plan --help\n";
  CHECK(complaint_about({"plan", "a.toml", "--qick"}) ==
        "evenpull: plan has no option \"--qick\"; did you mean \"--quick\"?" + help);
  CHECK(complaint_about({"plan", "a.toml", "--ouy=there"}) ==
        "evenpull: plan has no option \"--ouy\"; did you mean \"--out\"?" + help);
  CHECK(complaint_about({"contrast", "a.toml", "--losseness", "2 %"}) ==
        "evenpull: contrast has no option \"--losseness\"; did you mean \"--looseness\"?" + help);
  CHECK(complaint_about({"survey", "a.toml", "--quick"}) ==
        "evenpull: survey has no option \"--quick\"; did you mean \"--quiet\"?" + help);
  CHECK_THAT(complaint_about({"survey", "a.toml", "--turn-overs", "2"}),
             Contains("survey has no option \"--turn-overs\"; its options are"));
}

TEST_CASE("a word that is empty is refused, not taken for one that was not given", "[command]") {
  CHECK_THAT(complaint_about({"plan", "a.toml", "--out", ""}),
             Contains("--out: is empty; say what is meant, or leave it out"));
  CHECK_THAT(complaint_about({"plan", "a.toml", "--from", ""}), Contains("--from: is empty"));
  CHECK_THAT(complaint_about({"plan", ""}), Contains("CASE: is empty"));
  CHECK_THAT(complaint_about({"replay", "a.toml", "--order", ""}), Contains("--order: is empty"));
  CHECK_THAT(complaint_about({"iron", "--reading", ""}), Contains("--reading: is empty"));
  CHECK_THAT(complaint_about({"iron", "--swing", ""}), Contains("--swing: is empty"));
}

TEST_CASE("what was typed is shown without anything that a terminal obeys", "[command]") {
  const auto plain = [](const std::string& said) {
    INFO(said);
    CHECK(said.find('\x1b') == std::string::npos);
    CHECK(said.find("\nevenpull: all is well") == std::string::npos);
    CHECK(said.size() < 1000);
  };
  const std::string evil = "\x1b[2J\nevenpull: all is well" + std::string(200000, 'x');
  const std::string option = "--" + evil, job = evil;
  plain(complaint_about({job.c_str()}));
  plain(complaint_about({"plan", "a.toml", option.c_str()}));
  plain(complaint_about({"plan", "a.toml", evil.c_str()}));
  plain(complaint_about({"plan", "a.toml", "--paper", evil.c_str()}));
  plain(complaint_about({"plan", "a.toml", "--accuracy", evil.c_str()}));
  plain(complaint_about({"plan", "a.toml", "--turn-overs", evil.c_str()}));
  plain(complaint_about({"contrast", "a.toml", "--looseness", evil.c_str()}));
  std::ostringstream out, err;
  Request r;
  r.case_file = "no such file" + evil;
  CHECK(run_request(r, out, err) == static_cast<int>(ExitCode::bad_case));
  plain(err.str());
}

TEST_CASE("a looseness of 2 is asked back as 2 % or 0.02", "[command]") {
  CHECK_THAT(complaint_about({"contrast", "a.toml", "--looseness", "2"}),
             Contains("--looseness: \"2\" is out of range; it may be from 0 to 0.06; a plain number is a share: write "
                      "\"2 %\" or 0.02"));
  CHECK_THAT(complaint_about({"contrast", "a.toml", "--looseness", "nan"}), Contains("does not begin with a number"));
  CHECK_THAT(complaint_about({"contrast", "a.toml", "--stiffness", "1e200/1e-200"}), Contains("too large a number"));
  CHECK_THAT(complaint_about({"plan", "a.toml", "--turn-overs", "nan"}), Contains("--turn-overs"));
}

TEST_CASE("a stroke reads standard input, for one of the two files", "[command]") {
  const auto plan = parse({"plan", "-"});
  REQUIRE(plan.request);
  CHECK(plan.request->case_file == "-");
  CHECK(result_folder_of(*plan.request) == "standard-input-plan");
  CHECK(parse({"plan", "-", "--out", "there"}).request);
  CHECK(parse({"replay", "a.toml", "--order", "-"}).request);
  CHECK_THAT(complaint_about({"replay", "-", "--order", "-"}), Contains("only one of the two, case or order"));
}
