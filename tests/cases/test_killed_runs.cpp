// Runs that are interrupted, killed, or get into each other's way: what they leave, and what the next one makes of it.
#include "tests/cases/command.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <memory>
#include <thread>

#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#ifdef EVENPULL_COMMAND

namespace fs = std::filesystem;
using namespace evenpull_test;
using Catch::Matchers::Contains;
using Names = std::vector<std::string>;

namespace {

constexpr int interrupted = 130, terminated = 143, cannot_write = 5, busy = 6;

std::string rudder() { return case_path("light_tube_rudder").string(); }

std::vector<std::string> survey(const fs::path& out) { return {"survey", rudder(), "--quiet", "--out", out.string()}; }

/// A run that computes for seconds before it writes.
std::vector<std::string> plan(const fs::path& out) { return {"plan", "--quick", rudder(), "--out", out.string()}; }

bool is_writing(const fs::path& beside) {
  const auto names = entries(beside);
  return std::any_of(names.begin(), names.end(),
                     [](const auto& n) { return n.find(".writing-") != std::string::npos; });
}

/// Long enough for a case to be read and the computing to begin, far shorter than a plan.
void let_it_compute(const fs::path& lock) {
  wait_until([&] { return fs::exists(lock); }, "the lock is there");
  std::this_thread::sleep_for(std::chrono::milliseconds(300));
}

/// What a run leaves that is killed between its two renames: no folder, the earlier and the new result under hidden names.
void leave_between_renames(const Folder& folder) {
  REQUIRE(run_command(survey(folder / "r")).code == 0);
  fs::rename(folder / "r", folder / ".r.earlier-AbC123");
  fs::create_directory(folder / ".r.writing-dEf456");
  folder.write(".r.writing-dEf456/survey.json", "new");
}

}  // namespace

TEST_CASE("an interruption while computing ends with one line and its code, and leaves nothing", "[killed]") {
  const Folder folder;
  for (const auto& [signal, code, name] :
       {std::tuple{SIGINT, interrupted, "SIGINT"}, std::tuple{SIGTERM, terminated, "SIGTERM"}}) {
    Running run(plan(folder / "r"));
    let_it_compute(folder / ".r.evenpull-lock");
    run.send(signal);
    const auto end = run.wait();
    CHECK(end.code == code);
    CHECK(end.lines_of_errors() == 1);
    CHECK_THAT(end.err, Contains("interrupted") && Contains(name) && Contains("nothing was written"));
    CHECK(end.out.empty());
    CHECK(entries(folder.path).empty());
  }
}

TEST_CASE("an interruption leaves an earlier result as it was, and no folder that it made on the way", "[killed]") {
  const Folder folder;
  REQUIRE(run_command(survey(folder / "r")).code == 0);
  const auto before = text_of(folder / "r" / "survey.json");
  Running run(plan(folder / "r")), deep(plan(folder / "not" / "yet" / "there"));
  let_it_compute(folder / ".r.evenpull-lock");
  let_it_compute(folder / "not" / "yet" / ".there.evenpull-lock");
  run.send(SIGINT), deep.send(SIGINT);
  CHECK_THAT(run.wait().err, Contains("the earlier result in") && Contains("is as it was"));
  CHECK(deep.wait().code == interrupted);
  CHECK(text_of(folder / "r" / "survey.json") == before);
  CHECK(entries(folder.path) == Names{"r"});
}

TEST_CASE("an interruption while writing leaves nothing half", "[killed]") {
  int seen = 0;
  constexpr int tries = 40;
  for (int i = 0; i < tries && seen < 3; ++i) {
    const Folder folder;
    Running run(survey(folder / "r"));
    wait_until([&] { return is_writing(folder.path) || run.ended(); }, "the run writes");
    if (run.ended()) continue;
    run.send(SIGSTOP);  // so that it is still writing when the signal comes
    if (!is_writing(folder.path)) {
      run.send(SIGCONT);
      continue;
    }
    run.send(i % 2 ? SIGINT : SIGTERM);
    run.send(SIGCONT);
    const auto end = run.wait();
    if (end.code == 0) {  // it was done before it could be told
      CHECK(entries(folder.path) == Names{"r"});
      continue;
    }
    ++seen;
    CHECK(end.code == (i % 2 ? interrupted : terminated));
    CHECK(end.lines_of_errors() == 1);
    CHECK(entries(folder.path).empty());
  }
  CHECK(seen == 3);
}

TEST_CASE("an interruption ends the program although nobody reads what it says", "[killed]") {
  const Folder folder;
  Running run(plan(folder / "r"), [] {
    int ends[2];
    if (pipe2(ends, O_NONBLOCK) != 0) _exit(1);
    const std::string much(4096, '.');
    while (write(ends[1], much.data(), much.size()) > 0) {
    }
    fcntl(ends[1], F_SETFL, 0);  // from here on a write waits
    dup2(ends[1], STDERR_FILENO);
  });
  let_it_compute(folder / ".r.evenpull-lock");
  run.send(SIGINT);
  wait_until([&] { return run.ended(); }, "the run has ended");
  CHECK(run.wait().code == interrupted);
  CHECK(entries(folder.path).empty());
}

TEST_CASE("a second interruption changes nothing", "[killed]") {
  const Folder folder;
  Running run(plan(folder / "r"));
  let_it_compute(folder / ".r.evenpull-lock");
  run.send(SIGINT), run.send(SIGINT), run.send(SIGTERM);
  const auto end = run.wait();
  CHECK((end.code == interrupted || end.code == terminated));
  CHECK(end.lines_of_errors() == 1);
  CHECK(entries(folder.path).empty());
}

TEST_CASE("a signal that the starter wants ignored stays ignored", "[killed]") {
  const Folder folder;
  Running run(survey(folder / "r"), [] { signal(SIGINT, SIG_IGN); });
  wait_until([&] { return fs::exists(folder / ".r.evenpull-lock") || run.ended(); }, "the lock is there");
  if (!run.ended()) run.send(SIGINT);
  CHECK(run.wait().code == 0);
  CHECK(entries(folder.path) == Names{"r"});
}

TEST_CASE("the run after one that was killed between the renames puts the earlier result back and clears the rest",
          "[killed]") {
  const Folder folder;
  leave_between_renames(folder);
  // One that is interrupted before it has a result of its own, so that the one put back is seen.
  Running next(plan(folder / "r"));
  let_it_compute(folder / ".r.evenpull-lock");
  next.send(SIGINT);
  const auto end = next.wait();
  CHECK(end.code == interrupted);
  CHECK_THAT(end.err, Contains("was killed") && Contains("was put back"));
  CHECK(entries(folder.path) == Names{"r"});
  CHECK(fs::exists(folder / "r" / "survey.pdf"));
  CHECK(text_of(folder / "r" / "survey.json") != "new");
}

TEST_CASE("strays of a dead run go when the next one comes, those of somebody else do not", "[killed]") {
  const Folder folder;
  leave_between_renames(folder);
  folder.write(".r.evenpull-lock", "process 1 on nowhere since long ago\n");  // locked by nobody
  fs::create_directories(folder / ".r.writing-notes1");
  folder.write(".r.writing-notes1/mine.txt", "my own");
  fs::create_directories(folder / ".other.writing-dEf456");
  REQUIRE(run_command(survey(folder / "r")).code == 0);
  CHECK(entries(folder.path) == Names{".other.writing-dEf456", ".r.writing-notes1", "r"});
}

TEST_CASE("a run that is killed leaves what the next one clears", "[killed]") {
  const Folder folder;
  Running run(plan(folder / "r"));
  let_it_compute(folder / ".r.evenpull-lock");
  run.send(SIGKILL);
  CHECK(run.wait().code == 128 + SIGKILL);
  const auto next = run_command(survey(folder / "r"));
  CHECK(next.code == 0);
  CHECK(next.err.empty());
  CHECK(entries(folder.path) == Names{"r"});
}

TEST_CASE("a run into a folder that another one works on is refused and told who that is", "[killed]") {
  const Folder folder;
  Running first(plan(folder / "r"));
  let_it_compute(folder / ".r.evenpull-lock");
  const auto second = run_command(survey(folder / "r"));
  CHECK(second.code == busy);
  CHECK(second.lines_of_errors() == 1);
  CHECK_THAT(second.err,
             Contains("process " + std::to_string(first.pid()) + " on ") && Contains(" since ") && Contains("--out"));
  CHECK(entries(folder.path) == Names{".r.evenpull-lock"});
  CHECK(run_command(survey(folder / "elsewhere")).code == 0);
  first.send(SIGINT);
  CHECK(first.wait().code == interrupted);
  CHECK(entries(folder.path) == Names{"elsewhere"});
}

TEST_CASE("of several runs into one folder at once each ends well or is refused, and one whole result is there",
          "[killed]") {
  const Folder folder;
  REQUIRE(run_command(survey(folder / "alone")).code == 0);
  std::vector<std::unique_ptr<Running>> runs;
  for (int i = 0; i < 3; ++i) runs.push_back(std::make_unique<Running>(survey(folder / "r")));
  int good = 0;
  for (auto& run : runs) {
    const auto end = run->wait();
    INFO(end.err);
    CHECK((end.code == 0 || end.code == busy));
    good += end.code == 0;
  }
  CHECK(good >= 1);
  CHECK(entries(folder.path) == Names{"alone", "r"});
  CHECK(entries(folder / "r") == entries(folder / "alone"));
}

TEST_CASE("a place that becomes a file while the run computes is said so, and the file stays", "[killed]") {
  const Folder folder;
  const auto small = case_path("../tests/cases/three_ribs").string();
  Running run({"contrast", "--quick", small, "--out", (folder / "r").string()});
  let_it_compute(folder / ".r.evenpull-lock");
  folder.write("r", "my own");
  const auto end = run.wait();
  CHECK(end.code == cannot_write);
  CHECK(end.lines_of_errors() == 1);
  CHECK_THAT(end.err, Contains("is a file, not a folder"));
  CHECK(text_of(folder / "r") == "my own");
  CHECK(entries(folder.path) == Names{"r"});
}

#endif
