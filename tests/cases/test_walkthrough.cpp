// docs/walkthrough.md, command by command: what it shows is what is printed. EVENPULL_WRITE_WALKTHROUGH=1 writes the answers
// into the document anew: read the difference.
#include "tests/cases/command.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#ifdef EVENPULL_COMMAND

namespace fs = std::filesystem;
using namespace evenpull_test;

namespace {

const fs::path walkthrough = fs::path(EVENPULL_CASES_DIR).parent_path() / "docs" / "walkthrough.md";

// A command as the document has it, "$ evenpull ...", and what stands below it up to the next one or the end of its block.
struct Shown {
  std::string command, answer;
};

struct Document {
  std::vector<std::string> text;  ///< before each command, from the line after the answer before it
  std::vector<Shown> shown;
  std::string rest;
};

Document read_walkthrough() {
  std::ifstream in(walkthrough);
  REQUIRE(in);
  Document d;
  std::string text, line;
  bool in_block = false, in_answer = false;
  while (std::getline(in, line)) {
    const bool fence = line.rfind("```", 0) == 0;
    if (in_block && !fence && line.rfind("$ ", 0) == 0) {
      d.text.push_back(text), text.clear();
      d.shown.push_back({line.substr(2), ""});
      in_answer = true;
    } else if (in_block && !fence && in_answer) {
      d.shown.back().answer += line + "\n";
    } else {
      text += line + "\n";
      in_answer = false;
      if (fence) in_block = !in_block;
    }
  }
  d.rest = text;
  return d;
}

// In a shell, where the document's reader would type it. Names of folders that only this run has are left out.
std::string answer_to(const std::string& command, const fs::path& where) {
  const auto program = fs::path(EVENPULL_COMMAND).parent_path();
  // A fixed clock: 2026-05-04 14:00 UTC.
  const std::string line = "cd " + quoted(where) + " && PATH=" + quoted(program) +
                           ":\"$PATH\" SOURCE_DATE_EPOCH=1777903200 && export PATH "
                           "SOURCE_DATE_EPOCH && { " +
                           command + " ; } 2>&1";
  FILE* pipe = popen(line.c_str(), "r");
  REQUIRE(pipe);
  std::string out;
  std::array<char, 4096> part{};
  while (const auto n = std::fread(part.data(), 1, part.size(), pipe)) out.append(part.data(), n);
  pclose(pipe);
  return out;
}

}  // namespace

TEST_CASE("every command of the walk-through prints what the walk-through shows", "[walkthrough][slow]") {
  const Folder folder;
  Document d = read_walkthrough();
  REQUIRE(d.shown.size() > 5);
  const bool writes = std::getenv("EVENPULL_WRITE_WALKTHROUGH") != nullptr;
  for (Shown& s : d.shown) {
    const std::string answer = answer_to(s.command, folder.path);
    CAPTURE(s.command);
    if (writes) s.answer = answer;
    else CHECK(answer == s.answer);
  }
  if (!writes) return;
  std::ofstream out(walkthrough);
  for (std::size_t i = 0; i < d.shown.size(); ++i)
    out << d.text[i] << "$ " << d.shown[i].command << "\n" << d.shown[i].answer;
  out << d.rest;
}

#endif
