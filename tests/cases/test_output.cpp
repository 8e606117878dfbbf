// Output that cannot be written: said in one sentence, with the exit code for it, and no result is spoilt by it.
#include "tests/cases/command.hpp"

#include <catch2/catch.hpp>

#include <fcntl.h>
#include <signal.h>
#include <sys/file.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#ifdef EVENPULL_COMMAND

namespace fs = std::filesystem;
using namespace evenpull_test;
using Catch::Matchers::Contains;
using Names = std::vector<std::string>;

namespace {

constexpr int cannot_write = 5;

std::string rudder() { return case_path("light_tube_rudder").string(); }

void to_a_full_device() { dup2(open("/dev/full", O_WRONLY), STDOUT_FILENO); }
void to_nowhere() { close(STDOUT_FILENO); }

/// No file may grow beyond that.
std::function<void()> file_size_limit(rlim_t bytes) {
  return [bytes] {
    const rlimit limit{bytes, bytes};
    setrlimit(RLIMIT_FSIZE, &limit);
  };
}

/// Modes of files hold for the superuser too.
void without_override() {
  constexpr int dac_override = 1, dac_read_search = 2, fowner = 3;  // linux/capability.h
  for (const int capability : {dac_override, dac_read_search, fowner}) prctl(PR_CAPBSET_DROP, capability, 0, 0, 0);
}

}  // namespace

TEST_CASE("what is printed and cannot be is a failure with a sentence", "[output]") {
  const Folder folder;
  REQUIRE(fs::exists("/dev/full"));
  const std::string out = folder / "r";
  const std::vector<std::vector<std::string>> wishes = {
      {"template"},
      {"--version"},
      {"--help"},
      {"plan", "--help"},
      {"survey", rudder(), "--out", out},
      {"survey", rudder(), "--json", "--out", out},
      {"iron", "--reading", "3 = 255 degF, 268 degF", "--reading", "5 = 352 degF, 369 degF", "--out", folder / "card"},
      {"coupon", "--out", folder / "coupon"}};
  for (const auto& wish : wishes)
    for (const auto& where : {to_a_full_device, to_nowhere}) {
      INFO(wish[0] << " " << wish.back());
      const auto end = run_command(wish, where);
      CHECK(end.code == cannot_write);
      CHECK(end.lines_of_errors() == 1);
      CHECK_THAT(end.err, Contains("standard output: cannot be written ("));
      if (wish[0] == "survey") CHECK_THAT(end.err, Contains("the results are whole in " + out));
    }
  // Nothing of what was printed got into a file.
  const auto good = run_command({"survey", rudder(), "--json", "--out", folder / "again"});
  REQUIRE(good.code == 0);
  CHECK(text_of(folder / "r" / "survey.json") == good.out);
}

TEST_CASE("who asks for no words does not mind that they cannot be written", "[output]") {
  const Folder folder;
  for (const auto& where : {to_a_full_device, to_nowhere})
    CHECK(run_command({"survey", rudder(), "--quiet", "--out", folder / "r"}, where).code == 0);
  CHECK(entries(folder.path) == Names{"r"});
}

TEST_CASE("whatever file is the first too large for the disk, it is named, and an earlier result stays", "[output]") {
  const Folder folder;
  const std::vector<std::string> survey = {"survey", rudder(), "--quiet", "--out", folder / "r"};
  REQUIRE(run_command(survey).code == 0);
  const auto before = text_of(folder / "r" / "survey.json");
  for (const auto& name : entries(folder / "r")) {
    INFO(name);
    const auto end = run_command(survey, file_size_limit(fs::file_size(folder / "r" / name) - 1));
    CHECK(end.code == cannot_write);
    CHECK(end.lines_of_errors() == 1);
    CHECK_THAT(end.err,
               Contains((folder / "r" / "survey.").string()) && Contains("check the folder and the free space"));
    CHECK_THAT(end.err, !Contains(".writing-"));
    CHECK(entries(folder.path) == Names{"r"});
    CHECK(text_of(folder / "r" / "survey.json") == before);
  }
}

TEST_CASE("an earlier result that may not be replaced is refused before anything is computed", "[output]") {
  const Folder folder;
  const std::vector<std::string> survey = {"survey", rudder(), "--quiet", "--out", folder / "r"};
  REQUIRE(run_command(survey).code == 0);
  fs::permissions(folder / "r", fs::perms::owner_read | fs::perms::owner_exec);
  const auto end = run_command(survey, without_override);
  fs::permissions(folder / "r", fs::perms::owner_all);
  CHECK(end.code == cannot_write);
  CHECK(end.lines_of_errors() == 1);
  CHECK_THAT(end.err, Contains("the earlier result may not be replaced"));
  CHECK(entries(folder.path) == Names{"r"});
}

TEST_CASE("places that cannot take results are refused with one sentence and nothing is made", "[output]") {
  const Folder folder;
  folder.write("file", "mine");
  fs::create_symlink(folder / "nowhere", folder / "link");
  for (const std::string& place :
       {(folder / "file").string(), (folder / "file" / "below").string(), (folder / "link").string(),
        (folder / std::string(250, 'n')).string(), std::string("/dev/full")}) {
    INFO(place);
    const auto end = run_command({"survey", rudder(), "--out", place});
    CHECK(end.code == cannot_write);
    CHECK(end.lines_of_errors() == 1);
    CHECK_THAT(end.err, Contains("--out"));
  }
  const auto here = run_command({"survey", rudder(), "--out", "."}, [&] { (void)!chdir(folder.path.c_str()); });
  CHECK(here.code == cannot_write);
  CHECK(entries(folder.path) == Names{"file", "link"});
}

TEST_CASE("who closes the pipe early leaves whole results and nothing beside them", "[output]") {
  const Folder folder;
  const auto end = run_command({"survey", rudder(), "--json", "--out", folder / "r"}, [] {
    int ends[2];
    if (pipe(ends) != 0) _exit(1);
    close(ends[0]);
    dup2(ends[1], STDOUT_FILENO);
  });
  CHECK(end.code == 128 + SIGPIPE);
  CHECK(entries(folder.path) == Names{"r"});
  CHECK(fs::exists(folder / "r" / "survey.pdf"));
}

TEST_CASE("results are as open as their owner's other folders, no more", "[output]") {
  const Folder folder;
  for (const mode_t mask : {022, 077, 027}) {
    const std::string name = "r" + std::to_string(mask);
    CHECK(run_command({"survey", rudder(), "--quiet", "--out", folder / name}, [mask] { umask(mask); }).code == 0);
    CHECK(fs::status(folder / name).permissions() == static_cast<fs::perms>(0777 & ~mask));
  }
}

TEST_CASE("nothing in the name of a folder or of whoever holds it reaches the terminal as a command to it",
          "[output]") {
  const Folder folder;
  const std::string name = "r\x1b[31m";
  const auto good = run_command({"survey", rudder(), "--out", folder / name});
  CHECK(good.code == 0);
  CHECK_THAT(good.out, Contains("r\\x1b[31m/survey.png"));
  CHECK(good.out.find('\x1b') == std::string::npos);
  const auto iron =
      run_command({"iron", "--reading", "3 = 255 degF", "--reading", "5 = 352 degF", "--out", folder / (name + "i")});
  CHECK(iron.code == 0);
  CHECK(iron.out.find('\x1b') == std::string::npos);
  folder.write(name + "/mine.txt", "");
  const auto bad = run_command({"survey", rudder(), "--out", folder / name});
  CHECK(bad.code == cannot_write);
  CHECK_THAT(bad.err, Contains("r\\x1b[31m"));
  CHECK(bad.err.find('\x1b') == std::string::npos);
  // A lock that somebody else holds, with a text of theirs.
  const auto lock = folder.write(".s.evenpull-lock", "process 1 on \x1b[2J since then\n");
  const int held = open(lock.c_str(), O_RDWR | O_CLOEXEC);
  REQUIRE(flock(held, LOCK_EX) == 0);
  const auto busy = run_command({"survey", rudder(), "--out", folder / "s"});
  close(held);
  CHECK(busy.code == 6);
  CHECK_THAT(busy.err, Contains("process 1 on \\x1b[2J"));
  CHECK(busy.err.find('\x1b') == std::string::npos);
}

TEST_CASE("a link is told by what it leads to", "[output]") {
  const Folder folder;
  folder.write("file", "mine");
  fs::create_symlink(folder / "file", folder / "to_file");
  fs::create_symlink(folder / "nothing", folder / "to_nothing");
  CHECK_THAT(run_command({"survey", rudder(), "--out", folder / "to_file"}).err,
             Contains("is a link to a file, not a folder"));
  CHECK_THAT(run_command({"survey", rudder(), "--out", folder / "to_nothing"}).err,
             Contains("is a link that leads nowhere"));
}

TEST_CASE("a link to a folder stays a link, and the results go where it leads", "[output]") {
  const Folder folder;
  fs::create_directory(folder / "real");
  fs::create_directory_symlink(folder / "real", folder / "link");
  for (int twice = 0; twice < 2; ++twice)
    CHECK(run_command({"survey", rudder(), "--quiet", "--out", folder / "link"}).code == 0);
  CHECK(fs::is_symlink(folder / "link"));
  CHECK(fs::exists(folder / "real" / "survey.json"));
  CHECK(entries(folder.path) == Names{"link", "real"});
}

TEST_CASE("names with spaces, line ends and bytes that are no letters serve as well as others", "[output]") {
  const Folder folder;
  const auto text = text_of(case_path("light_tube_rudder"));
  for (const std::string& name : {std::string("a b"), std::string("a\nb"), std::string("caf\xe9"),
                                  std::string("\xff\xfe"), std::string("-dash"), std::string("'\"$(x)`")}) {
    INFO(name);
    folder.write(name + ".toml", text);
    const auto end = run_command({"survey", folder / (name + ".toml"), "--json", "--out", folder / name});
    INFO(end.err);
    CHECK(end.code == 0);
    CHECK(end.err.empty());
    CHECK(fs::exists(folder / name / "survey.pdf"));
    CHECK(end.out == text_of(folder / name / "survey.json"));
  }
}

#endif
