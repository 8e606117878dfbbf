// Cases for the tests of app: the template with one thing changed, in a folder that goes away afterwards.
#pragma once

#include "app/input/case_reader.hpp"
#include "app/text/version.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace evenpull_test {

class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "evenpull-test-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  std::filesystem::path path;

  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(path / name, std::ios::binary) << text;
    return (path / name).string();
  }
};

inline std::string read_all(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// `text` with the first `from` replaced by `to`; the test fails if `from` is not there.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  INFO("looked for: " << from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

/// The template without its comments, so that a test changes a value and not its explanation.
inline std::string base() {
  std::istringstream in(evenpull::template_text());
  std::string line, out;
  while (std::getline(in, line)) {
    const auto end = line.find_last_not_of(' ', line.find('#') - 1);
    if (line.find('#') == std::string::npos) out += line + "\n";
    else if (line.find('#') > 0) out += line.substr(0, end + 1) + "\n";
  }
  return out;
}

inline evenpull::Case case_of(const std::string& text) {
  const TemporaryFolder folder;
  return evenpull::read_case(folder.write("case.toml", text));
}

/// The line (from 1) on which `what` stands first in `text`.
inline int line_of(const std::string& text, const std::string& what) {
  const auto at = text.find(what);
  REQUIRE(at != std::string::npos);
  return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(at), '\n'));
}

/// What the reader says about `text`; the test fails if it says nothing.
inline evenpull::CaseFileError complaint(const std::string& text) {
  try {
    case_of(text);
  } catch (const evenpull::CaseFileError& e) {
    return e;
  }
  FAIL("the case was read without complaint");
  throw std::logic_error("not reached");
}

}  // namespace evenpull_test
