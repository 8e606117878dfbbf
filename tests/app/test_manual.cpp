// The manual page and the completions: they say what the help says, and a shell does with them what it should.
#include "app/command/manual.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include <unistd.h>

using namespace evenpull;
using Catch::Matchers::Contains;

namespace {

const OptionWords& option_of(const CommandWords& words, const std::string& job, const std::string& name) {
  for (const JobWords& j : words.jobs)
    for (const OptionWords& o : j.options)
      if (j.name == job && o.names.back() == name) return o;
  FAIL("no " + job + " " + name);
  throw std::logic_error("");
}

std::string without_strokes_escaped(std::string page) {
  for (auto at = page.find("\\-"); at != std::string::npos; at = page.find("\\-", at)) page.erase(at, 1);
  return page;
}

std::string said_by(const std::string& command) {
  std::string out;
  std::array<char, 256> some{};
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe);
  while (fgets(some.data(), some.size(), pipe)) out += some.data();
  REQUIRE(pclose(pipe) == 0);
  return out;
}

// What bash offers for the last of these words.
std::string offered(const std::filesystem::path& script, const std::string& words, int at) {
  return said_by("bash -c 'source " + script.string() + "; COMP_WORDS=(" + words +
                 "); COMP_CWORD=" + std::to_string(at) + "; _evenpull; echo ${COMPREPLY[@]}'");
}

}  // namespace

TEST_CASE("the words of the command line are those of its options") {
  const CommandWords words = command_words();
  std::vector<std::string> jobs;
  for (const JobWords& j : words.jobs) jobs.push_back(j.name);
  CHECK(jobs == std::vector<std::string>{"plan", "survey", "replay", "contrast", "iron", "log", "coupon", "tap", "old",
                                         "push", "stiffen", "glue", "weigh", "clock", "signoff", "draft", "attach",
                                         "blanket", "template"});
  CHECK(option_of(words, "plan", "CASE").positional);
  CHECK(option_of(words, "plan", "CASE").required);
  CHECK(option_of(words, "plan", "--out").value == "DIR");
  CHECK(option_of(words, "plan", "--json").value.empty());
  CHECK(option_of(words, "plan", "--accuracy").choices == std::vector<std::string>{"quick", "normal", "fine"});
  CHECK(option_of(words, "replay", "--order").required);
}

TEST_CASE("manual and completions name every job and every option") {
  const CommandWords words = command_words();
  const std::string page = without_strokes_escaped(manual_page(words, "1.2.3"));
  const std::string bash = bash_completion(words), zsh = zsh_completion(words), fish = fish_completion(words);
  CHECK_THAT(page, Contains("1.2.3") && Contains("129, 130, 143"));
  for (const JobWords& job : words.jobs) {
    CHECK_THAT(page, Contains(".SS " + job.name + "\n"));
    for (const std::string& shell : {bash, zsh, fish}) CHECK_THAT(shell, Contains(job.name));
    for (const OptionWords& o : job.options)
      for (const std::string& name : o.names) {
        INFO(job.name << " " << name);
        CHECK_THAT(page, Contains(name));
        if (o.positional) continue;
        for (const std::string& shell : {bash, zsh}) CHECK_THAT(shell, Contains(name));
        CHECK_THAT(fish, Contains(name.starts_with("--") ? "-l " + name.substr(2) : "-s " + name.substr(1)));
      }
  }
}

TEST_CASE("no line of the manual is taken for a command by mistake") {
  CommandWords words = command_words();
  words.jobs[0].what = ".a dot first\n'a quote first";
  CHECK_THAT(manual_page(words, "1"), Contains("\\&.a dot first\n\\&'a quote first"));
}

TEST_CASE("bash completes jobs, options and their words") {
  const auto script = std::filesystem::temp_directory_path() / ("evenpull-completion-" + std::to_string(getpid()));
  std::ofstream(script) << bash_completion(command_words());
  CHECK(offered(script, "evenpull pl", 1) == "plan\n");
  CHECK(offered(script, "evenpull plan --acc", 2) == "--accuracy\n");
  CHECK(offered(script, "evenpull plan --accuracy f", 3) == "fine\n");
  CHECK(offered(script, "evenpull iron --paper a", 3) == "a4\n");
  CHECK(offered(script, "evenpull survey --acc", 2) == "\n");
  std::filesystem::remove(script);
}
