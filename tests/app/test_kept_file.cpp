#include "app/output/json_number.hpp"
#include "app/output/kept_file.hpp"
#include "app/output/plan_json.hpp"
#include "sequencer/planner/planner.hpp"
#include "tests/app/case_text.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace evenpull;
using namespace evenpull_test;

namespace {

RunJob scenario(unsigned number) {
  RunJob job;
  job.kind = RunJob::Kind::scenario;
  job.steps = {{}};
  job.sigmas = {0.25, -1};
  job.number = number;
  return job;
}

Outturn outturn(double use) {
  Outturn o;
  o.uses = {{{Limit::stress, use}}};
  o.fell = {false};
  return o;
}

double use_in(const std::optional<RunValue>& found) {
  return found ? std::get<Outturn>(*found).uses.at(0).at(Limit::stress) : -1;
}

}  // namespace

TEST_CASE("runs that were kept are known when the same plan goes on, and only then", "[resume]") {
  const TemporaryFolder t;
  const auto path = kept_file_of(t.path / "plan");
  CHECK(path.filename() == "plan.unfinished");
  {
    KeptFile file(path, "a case", false);
    const KeptRuns& runs = file.runs();
    CHECK_FALSE(runs.known(scenario(1)));
    runs.keep(scenario(1), outturn(0.1));
    runs.keep(scenario(2), outturn(0.2));
  }
  {
    KeptFile file(path, "a case", true);
    CHECK(file.known_at_first() == 2);
    const KeptRuns& runs = file.runs();
    CHECK(use_in(runs.known(scenario(1))) == 0.1);
    CHECK(use_in(runs.known(scenario(2))) == 0.2);
    CHECK_FALSE(runs.known(scenario(3)));
    runs.keep(scenario(3), outturn(0.3));
  }
  {
    KeptFile file(path, "a case", true);
    CHECK(file.known_at_first() == 3);
  }
  {
    KeptFile file(path, "another case", true);
    CHECK(file.known_at_first() == 0);
  }
  {
    KeptFile file(path, "a case", true);
    CHECK(file.known_at_first() == 0);  // the other plan has begun since
    file.remove();
  }
  CHECK(std::filesystem::is_empty(t.path));
}

TEST_CASE("of a file of kept runs cut off anywhere the whole runs before the cut are known", "[resume]") {
  const TemporaryFolder t;
  const auto path = t.path / "kept";
  {
    KeptFile file(path, "a case", false);
    const KeptRuns& runs = file.runs();
    for (unsigned i = 0; i < 3; ++i) runs.keep(scenario(i), outturn(0.5));
  }
  const std::string whole = read_all(path);
  std::size_t most = 3;
  for (std::size_t length = whole.size(); length-- > 0;) {
    std::ofstream(path, std::ios::binary | std::ios::trunc) << whole.substr(0, length);
    KeptFile file(path, "a case", true);
    REQUIRE(file.known_at_first() <= most);
    most = file.known_at_first();
    if (most > 0) REQUIRE(use_in(file.runs().known(scenario(0))) == 0.5);
  }
  CHECK(most == 0);
  std::string spoilt = whole;
  spoilt[whole.size() - 20] ^= 1;
  std::ofstream(path, std::ios::binary | std::ios::trunc) << spoilt;
  CHECK(KeptFile(path, "a case", true).known_at_first() == 2);
}

TEST_CASE("a file of somebody else that has the name of the kept runs stays as it is", "[resume]") {
  const TemporaryFolder t;
  const auto path = t.path / "notes.unfinished";
  std::ofstream(path) << "my notes";
  for (const bool go_on : {false, true}) {
    KeptFile file(path, "a case", go_on);
    file.runs().keep(scenario(1), outturn(0.1));
    CHECK_FALSE(file.runs().known(scenario(2)));
    file.remove();
  }
  CHECK(read_all(path) == "my notes");
}

TEST_CASE("that runs are kept is said only where they are", "[resume]") {
  const TemporaryFolder t;
  CHECK(KeptFile(t.path / "plan.unfinished", "a case", false).keeps());
  CHECK_FALSE(KeptFile(t.path / "no such folder" / "plan.unfinished", "a case", false).keeps());
  t.write("notes.unfinished", "mine");
  CHECK_FALSE(KeptFile(t.path / "notes.unfinished", "a case", false).keeps());
}

TEST_CASE("a plan that goes on from its kept runs is the same plan, byte for byte", "[resume][slow]") {
  const TemporaryFolder t;
  Case c = sample::aileron(2, 0.6, 0.3);
  c.stages.resize(1);
  c.stages[0].doses = {1};
  c.target_nodes = 150;
  c.wanted.scenarios = 4;
  const auto plan = [&](bool go_on, std::size_t& known, int& computed) {
    KeptFile file(t.path / "kept", "a case", go_on);
    known = file.known_at_first();
    PlanOptions options;
    options.only_rules = true;
    KeptRuns counted = file.runs();
    counted.keep = [&](const RunJob& job, const RunValue& value) {
      ++computed;
      file.runs().keep(job, value);
    };
    options.kept = &counted;
    return plan_document(make_plan(c, options), "x");
  };
  std::size_t known = 0;
  int computed = 0, again = 0;
  const std::string first = plan(false, known, computed);
  CHECK(known == 0);
  // As if interrupted: the last quarter is lost.
  std::filesystem::resize_file(t.path / "kept", std::filesystem::file_size(t.path / "kept") * 3 / 4);
  const std::string second = plan(true, known, again);
  CHECK(known > 0);
  CHECK(again > 0);
  CHECK(again < computed);
  CHECK(first == second);
}
