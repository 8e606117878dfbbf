// Every case through the command itself, as a person would type it.
#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#ifdef EVENPULL_COMMAND

namespace fs = std::filesystem;

namespace {

struct Folder {
  fs::path path;
  Folder() {
    std::string name = (fs::temp_directory_path() / "evenpull-cases-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
};

int run(const std::string& arguments) {
  return std::system((std::string("\"") + EVENPULL_COMMAND + "\" " + arguments + " >/dev/null").c_str());
}

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::string quoted(const fs::path& p) {
  return '"' + p.string() + '"';
}

const std::vector<std::string> names = {"metal_aileron", "light_tube_rudder", "very_light_bow", "two_sheet_elevator",
                                        "template"};
fs::path case_path(const std::string& name) {
  return fs::path(EVENPULL_CASES_DIR) / (name + ".toml");
}

}  // namespace

TEST_CASE("every case can be surveyed", "[cases]") {
  const Folder folder;
  for (const auto& name : names) {
    INFO(name);
    CHECK(run("survey " + quoted(case_path(name)) + " --out " + quoted(folder.path / name)) == 0);
    for (const auto* file : {"survey.json", "survey.png", "survey.pdf"})
      CHECK(fs::file_size(folder.path / name / file) > 100);
  }
}

TEST_CASE("every case can be planned in a quick way, and its own order replayed", "[cases][slow]") {
  const Folder folder;
  for (const auto& name : names) {
    INFO(name);
    const auto out = folder.path / name;
    REQUIRE(run("plan --quick " + quoted(case_path(name)) + " --out " + quoted(out)) == 0);
    for (const auto* file : {"plan.json", "plan.pdf", "order.toml", "timing.json", "fields.pvd"})
      CHECK(fs::file_size(out / file) > 20);
    CHECK_FALSE(fs::is_empty(out / "pictures"));
    const auto again = folder.path / (name + "-again");
    REQUIRE(run("replay --quick " + quoted(case_path(name)) + " --order " + quoted(out / "order.toml") + " --out " +
                quoted(again)) == 0);
    const auto plan = nlohmann::json::parse(text_of(out / "plan.json")),
               replay = nlohmann::json::parse(text_of(again / "plan.json"));
    CHECK(replay["replayed"] == true);
    CHECK(replay["steps"].size() == plan["steps"].size());
    CHECK(replay["hottest_safe"]["stage_degF"] == plan["hottest_safe"]["stage_degF"]);
    CHECK(replay["stages"] == plan["stages"]);
  }
}

TEST_CASE("a plan has the same bytes from run to run", "[cases][slow]") {
  const Folder folder;
  const auto plan = [&](const char* name) {
    REQUIRE(run("plan --quick " + quoted(case_path("light_tube_rudder")) + " --out " + quoted(folder.path / name)) ==
            0);
    return folder.path / name;
  };
  const auto a = plan("a"), b = plan("b");
  for (const auto* file : {"plan.json", "plan.pdf", "order.toml"}) CHECK(text_of(a / file) == text_of(b / file));
}

#endif
