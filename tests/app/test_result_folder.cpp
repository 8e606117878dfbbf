#include "app/result_folder.hpp"
#include "tests/app/case_text.hpp"

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

void publish(const fs::path& target, const std::string& content) {
  ResultFolder f(target);
  f.write("plan.json", content);
  f.publish();
}

size_t entries(const fs::path& folder) {
  return static_cast<size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

}  // namespace

TEST_CASE("results appear whole and nothing else is left", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "deep" / "er", "one");
  CHECK(read_all(t.path / "deep" / "er" / "plan.json") == "one");
  CHECK(entries(t.path / "deep") == 1);
}

TEST_CASE("a run that fails leaves the earlier result as it was", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  try {
    ResultFolder f(t.path / "r");
    f.write("plan.json", "half");
    throw std::runtime_error("something went wrong");
  } catch (const std::runtime_error&) {
  }
  CHECK(read_all(t.path / "r" / "plan.json") == "one");
  CHECK(entries(t.path) == 1);
}

TEST_CASE("a good run takes the place of the earlier result", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  t.write("r/order.toml", "old");
  publish(t.path / "r", "two");
  CHECK(read_all(t.path / "r" / "plan.json") == "two");
  CHECK_FALSE(fs::exists(t.path / "r" / "order.toml"));
  CHECK(entries(t.path) == 1);
}

TEST_CASE("a folder that holds anything that is not ours is never touched", "[results]") {
  const TemporaryFolder t;
  fs::create_directory(t.path / "mine");
  t.write("mine/letters.txt", "dear");
  CHECK_THROWS_WITH(ResultFolder(t.path / "mine"), Contains("letters.txt") && Contains("--out"));
  publish(t.path / "r", "one");
  t.write("r/notes.txt", "my own");
  CHECK_THROWS_WITH(ResultFolder(t.path / "r"), Contains("notes.txt"));
  CHECK(read_all(t.path / "r" / "notes.txt") == "my own");
  CHECK(read_all(t.path / "r" / "plan.json") == "one");
}

TEST_CASE("a note laid into the folder during a run stops the run, not the note", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  {
    ResultFolder f(t.path / "r");
    f.write("plan.json", "two");
    t.write("r/notes.txt", "my own");
    CHECK_THROWS_AS(f.publish(), CannotWrite);
  }
  CHECK(read_all(t.path / "r" / "plan.json") == "one");
  CHECK(read_all(t.path / "r" / "notes.txt") == "my own");
  CHECK(entries(t.path) == 1);
}

TEST_CASE("an empty folder may be used, a file or a folder without a result may not", "[results]") {
  const TemporaryFolder t;
  fs::create_directory(t.path / "empty");
  publish(t.path / "empty", "one");
  CHECK(read_all(t.path / "empty" / "plan.json") == "one");
  CHECK_THROWS_WITH(ResultFolder(t.write("file", "")), Contains("is a file"));
  fs::create_directories(t.path / "half" / "fields");
  CHECK_THROWS_WITH(ResultFolder(t.path / "half"), Contains("no earlier result"));
  CHECK_THROWS_AS(ResultFolder(t.path / "file" / "below"), CannotWrite);
}
