#include "app/command/commands.hpp"
#include "app/output/in_place.hpp"
#include "app/output/json_number.hpp"
#include "app/output/own_files.hpp"
#include "app/output/result_folder.hpp"
#include "tests/app/case_text.hpp"
#include "tests/app/disk_watch.hpp"
#include "tests/support/sample_plan.hpp"
#include "viz/fields/fields.hpp"
#include "viz/pictures/pictures.hpp"
#include "viz/words/terminal_text.hpp"
#include "viz/words/trouble.hpp"

#include <sstream>

#include <unistd.h>

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

/// What is said of it.
std::string mended(const fs::path& target) {
  std::string said;
  for (const auto& sentence : mend_after_killed_run(target)) said += sentence + "\n";
  return said;
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

TEST_CASE("while one works on a folder nobody else does, and afterwards anybody may", "[results]") {
  const TemporaryFolder t;
  {
    ResultFolder first(t.path / "r");
    CHECK_THROWS_WITH(ResultFolder(t.path / "r"),
                      Contains("process " + std::to_string(getpid())) && Contains("nothing was touched"));
    ResultFolder other(t.path / "s");
    first.write("plan.json", "one");
    first.publish();
    publish(t.path / "r", "two");  // what is put in place is free again
  }
  CHECK(read_all(t.path / "r" / "plan.json") == "two");
  CHECK(entries(t.path) == 1);
}

TEST_CASE("where names cannot be exchanged at once two renames do the same", "[results]") {
  const TemporaryFolder t;
  for (const auto how : {Exchange::at_once_if_possible, Exchange::in_two_steps}) {
    publish(t.path / "r", "one");
    const auto fresh = make_beside(t.path / "r", "writing");
    std::ofstream(fresh / "plan.json") << "two";
    const auto earlier = put_in_place(fresh, t.path / "r", how);
    CHECK(read_all(t.path / "r" / "plan.json") == "two");
    CHECK(read_all(earlier / "plan.json") == "one");
    CHECK(take_away(earlier).empty());
    CHECK(entries(t.path) == 1);
  }
}

TEST_CASE("results that cannot be put in place leave the earlier ones there", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  for (const auto how : {Exchange::at_once_if_possible, Exchange::in_two_steps})
    CHECK_THROWS_WITH(put_in_place(t.path / "gone", t.path / "r", how), Contains("the earlier result is as it was"));
  CHECK(read_all(t.path / "r" / "plan.json") == "one");
  CHECK(entries(t.path) == 1);
}

TEST_CASE("an earlier result that cannot be put back is named by the folder in which it lies", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  const auto fresh = make_beside(t.path / "r", "writing");
  std::ofstream(fresh / "plan.json") << "two";
  std::string message;
  {
    const disk_watch::RenamesFail after(1);
    try {
      put_in_place(fresh, t.path / "r", Exchange::in_two_steps);
    } catch (const CannotWrite& e) {
      message = e.what();
    }
  }
  const auto at = message.find(".r.earlier-");
  INFO(message);
  REQUIRE(at != std::string::npos);
  const auto name = message.substr(at, std::string(".r.earlier-XXXXXX").size());
  CHECK(read_all(t.path / name / "plan.json") == "one");
  CHECK(message.find("nothing was written") == std::string::npos);
}

TEST_CASE("what a killed run left is mended: the earlier result back where nothing is, gone where there is a newer",
          "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  fs::rename(t.path / "r", t.path / ".r.earlier-aaaaaa");
  fs::create_directory(t.path / ".r.writing-bbbbbb");
  t.write(".r.writing-bbbbbb/plan.pdf.part", "half");
  CHECK_THAT(mended(t.path / "r"), Contains("was put back"));
  CHECK(read_all(t.path / "r" / "plan.json") == "one");
  CHECK(entries(t.path) == 1);
  fs::create_directory(t.path / ".r.earlier-cccccc");
  t.write(".r.earlier-cccccc/plan.json", "older");
  CHECK(mend_after_killed_run(t.path / "r").empty());
  CHECK(read_all(t.path / "r" / "plan.json") == "one");
  CHECK(entries(t.path) == 1);
}

TEST_CASE("a file that the disk refuses is named as it would be called; a mistake of ours stays one", "[results]") {
  const TemporaryFolder t;
  ResultFolder f(t.path / "r");
  const auto aside = f.open();
  const std::string would_be = (t.path / "r" / "pictures" / "a.png").string();
  CHECK_THROWS_WITH(
      f.draw([&] { throw CannotWriteFile((aside / "pictures" / "a.png").string(), "No space left on device"); }),
      Contains(would_be) && Contains("No space left on device") && !Contains(".writing-"));
  CHECK_THROWS_AS(f.draw([] { throw CannotWriteFile("a", "b"); }), CannotWrite);
  CHECK_THROWS_AS(f.draw([] { throw CannotDraw("ours"); }), CannotDraw);
  CHECK_THROWS_AS(f.draw([] { throw std::runtime_error("ours"); }), std::runtime_error);
  CHECK_THROWS_WITH(f.write("not/there.json", "x"), Contains((t.path / "r" / "not" / "there.json").string()));
}

TEST_CASE("words that do not get out change the exit code", "[results]") {
  std::ostringstream good, err;
  CHECK(after_printing(0, good, err) == 0);
  CHECK(err.str().empty());
  std::ostream nowhere(nullptr);
  nowhere << "words";
  CHECK(after_printing(0, nowhere, err) == 5);
  CHECK_THAT(err.str(), Contains("standard output: cannot be written"));
}

TEST_CASE("bytes that are no letters pass into a document as the sign for them, and into no terminal", "[results]") {
  CHECK(json_text({{"file", "caf\xe9.toml"}}) == "{\n  \"file\": \"caf\uFFFD.toml\"\n}\n");
  CHECK(wrap_text("a\x1b[31m b\x07", 0) == "a [31m b");
}

TEST_CASE("a file of one's own in a folder within a result keeps the result from being replaced", "[results]") {
  const TemporaryFolder t;
  for (const auto* within : {"pictures", "fields"}) {
    const auto r = t.path / (std::string("of_") + within);
    publish(r, "one");
    fs::create_directory(r / within);
    std::ofstream(r / within / "bench_1.jpg") << "my own";
    CHECK_THROWS_WITH(ResultFolder(r), Contains(std::string(within) + "/bench_1.jpg") && Contains("--out"));
    CHECK(read_all(r / within / "bench_1.jpg") == "my own");
    CHECK(read_all(r / "plan.json") == "one");
  }
}

TEST_CASE("a picture of one's own laid into a result during a run stops the run, not the picture", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  fs::create_directory(t.path / "r" / "pictures");
  {
    ResultFolder f(t.path / "r");
    f.write("plan.json", "two");
    t.write("r/pictures/bench_1.jpg", "my own");
    CHECK_THROWS_WITH(f.publish(), Contains("pictures/bench_1.jpg"));
  }
  CHECK(read_all(t.path / "r" / "pictures" / "bench_1.jpg") == "my own");
  CHECK(read_all(t.path / "r" / "plan.json") == "one");
  CHECK(entries(t.path) == 1);
}

TEST_CASE("of what a killed run left nothing goes that holds a file of somebody's own", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "two");
  fs::create_directories(t.path / ".r.earlier-aaaaaa" / "pictures");
  t.write(".r.earlier-aaaaaa/plan.json", "one");
  t.write(".r.earlier-aaaaaa/pictures/bench_1.jpg", "my own");
  CHECK_THAT(mended(t.path / "r"), Contains(".r.earlier-aaaaaa") && Contains("pictures/bench_1.jpg"));
  CHECK(read_all(t.path / ".r.earlier-aaaaaa" / "pictures" / "bench_1.jpg") == "my own");
  // Nothing is lost where it is put back: then the folder itself is refused.
  fs::remove_all(t.path / "r");
  CHECK_THAT(mended(t.path / "r"), Contains("was put back"));
  CHECK(read_all(t.path / "r" / "pictures" / "bench_1.jpg") == "my own");
}

TEST_CASE("every file of a plan counts as its own: the next run may replace it", "[results]") {
  const TemporaryFolder t;
  const Plan plan = sample_plan();
  const auto folder = (t.path / "r").string();
  publish(folder, "one");
  fs::create_directory(t.path / "r" / "pictures");
  REQUIRE(write_pictures(plan, folder + "/pictures").size() > 8);
  write_fields(plan, folder);
  std::string foreign;
  CHECK(holds_only_ours(folder, &foreign));
  CHECK(foreign.empty());
}

TEST_CASE("a folder within a result is no place for another, since the next run replaces the whole", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  for (const auto* within : {"pictures", "mine", "pictures/mine"})
    CHECK_THROWS_WITH(ResultFolder(t.path / "r" / within), Contains("lies in the result folder") && Contains("--out"));
  t.write("plan.json", "of somebody who keeps one beside other things");
  publish(t.path / "s", "one");
  CHECK(read_all(t.path / "s" / "plan.json") == "one");
}

TEST_CASE("what a run has written is on the disk before the earlier result goes", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  const disk_watch::Watch watch([&] {
    return read_all(t.path / "r" / "plan.json") +
           (entries(t.path) > 2 ? " beside another" : "");  // the lock is one more
  });
  {
    ResultFolder f(t.path / "r");
    f.write("plan.json", "two");
    fs::create_directory(f.open() / "pictures");
    std::ofstream(f.open() / "pictures" / "step_by_step.png") << "a picture";
    f.publish();
  }
  // Each file and folder aside while the earlier result is in place, then the folder in which both lie, before the earlier goes.
  CHECK(watch.seen("plan.json") == "one beside another");
  CHECK(watch.seen("step_by_step.png") == "one beside another");
  CHECK(watch.seen("pictures") == "one beside another");
  CHECK(watch.seen(t.path.filename().string()) == "two beside another");
  CHECK(entries(t.path) == 1);
}

TEST_CASE("a disk that fails before the exchange leaves the earlier result", "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  {
    ResultFolder f(t.path / "r");
    f.write("plan.json", "two");
    const disk_watch::Watch watch([] { return ""; }, EIO);
    CHECK_THROWS_WITH(f.publish(), Contains((t.path / "r" / "plan.json").string()) && Contains("nothing was replaced"));
  }
  CHECK(read_all(t.path / "r" / "plan.json") == "one");
  CHECK(entries(t.path) == 1);
}

TEST_CASE("a disk that fails after the exchange keeps both results, and it is said where the earlier lies",
          "[results]") {
  const TemporaryFolder t;
  publish(t.path / "r", "one");
  std::string said;
  {
    ResultFolder f(t.path / "r", [&](const std::string& sentence) { said = sentence; });
    f.write("plan.json", "two");
    const disk_watch::Watch watch([] { return ""; }, EIO, t.path.filename().string());
    f.publish();
  }
  CHECK(read_all(t.path / "r" / "plan.json") == "two");
  REQUIRE_THAT(said, Contains("the earlier ones stay: see "));
  CHECK(read_all(fs::path(said.substr(said.find(": see ") + 6)) / "plan.json") == "one");
}

TEST_CASE("the folder aside is handed out as a value, so that nothing that happens to it later changes a path",
          "[results]") {
  const TemporaryFolder t;
  ResultFolder f(t.path / "r");
  decltype(auto) aside = f.open();
  f.write("plan.json", "one");
  f.publish();
  CHECK_FALSE(fs::path(aside).empty());
}
