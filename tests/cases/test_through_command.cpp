// Every case through the command itself, as a person would type it.
#include "tests/cases/command.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#ifdef EVENPULL_COMMAND

namespace fs = std::filesystem;
using namespace evenpull_test;

namespace {

int run(const std::string& arguments) {
  return std::system((std::string("\"") + EVENPULL_COMMAND + "\" " + arguments + " >/dev/null").c_str());
}

// Those that tests/cases/planned.cmake plans, and those that take longer to plan than a test may.
const std::vector<std::string> planned_names = {"metal_aileron",       "light_tube_rudder", "very_light_bow",
                                                "two_sheet_elevator",  "training_panel",    "template",
                                                "welded_steel_rudder", "welded_elevator"};
const std::vector<std::string> others = {"wooden_aileron", "wing_bay", "heavy_cloth_elevator"};

/// Results that tests/cases/planned.cmake has made; made here where there are none.
fs::path planned(const std::string& name, const Folder& folder) {
  if (const char* made = std::getenv("EVENPULL_PLANNED")) return fs::path(made) / name;
  const auto out = folder.path / name;
  const auto job = name == "lesson" ? "contrast --quick " + quoted(case_path("training_panel"))
                                    : "plan --quick " + quoted(case_path(name));
  REQUIRE(run(job + " --out " + quoted(out)) == 0);
  return out;
}

void replay_again(const std::string& name) {
  const Folder folder;
  const auto out = planned(name, folder), again = folder.path / (name + "-again");
  REQUIRE(run("replay --quick " + quoted(case_path(name)) + " --order " + quoted(out / "order.toml") + " --out " +
              quoted(again)) == 0);
  const auto plan = nlohmann::json::parse(text_of(out / "plan.json")),
             replay = nlohmann::json::parse(text_of(again / "plan.json"));
  CHECK(replay["replayed"] == true);
  CHECK(replay["steps"].size() == plan["steps"].size());
  CHECK(replay["hottest_safe"]["stage_degF"] == plan["hottest_safe"]["stage_degF"]);
  CHECK(replay["stages"] == plan["stages"]);
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

std::string rough_rudder() {
  return with(with(text_of(case_path("light_tube_rudder")), "wrap_angle = \"180 deg\"",
                   "edge_friction = 1.5\nwrap_angle = \"200 deg\""),
              "joints = { as = \"riveted gusset\", rivets = 3 }", "joints = \"rigid\"");
}

/// Largest by magnitude.
double most(const nlohmann::json& series) {
  double most = 0;
  for (double v : series) most = std::max(most, std::abs(v));
  return most;
}

/// Plans the case of a text in a quick way; where the results are.
fs::path plan_text(const std::string& name, const std::string& text, const Folder& folder) {
  const auto file = folder.path / (name + ".toml"), out = folder.path / name;
  std::ofstream(file) << text;
  REQUIRE(run("plan --quick " + quoted(file) + " --out " + quoted(out)) == 0);
  return out;
}

}  // namespace

TEST_CASE("every case can be surveyed", "[cases]") {
  const Folder folder;
  auto names = planned_names;
  names.insert(names.end(), others.begin(), others.end());
  for (const auto& name : names) {
    INFO(name);
    CHECK(run("survey " + quoted(case_path(name)) + " --out " + quoted(folder.path / name)) == 0);
    for (const auto* file : {"survey.json", "survey.png", "survey.pdf"})
      CHECK(fs::file_size(folder.path / name / file) > 100);
  }
}

TEST_CASE("a case can come from standard input, and gives the same as from its file", "[cases]") {
  const Folder folder;
  const auto path = quoted(case_path("light_tube_rudder"));
  CHECK(run("survey " + path + " --out " + quoted(folder.path / "file")) == 0);
  CHECK(run("survey - --out " + quoted(folder.path / "pipe") + " < " + path) == 0);
  auto from_file = nlohmann::json::parse(text_of(folder.path / "file" / "survey.json")),
       from_pipe = nlohmann::json::parse(text_of(folder.path / "pipe" / "survey.json"));
  CHECK(from_pipe["case"]["file"] == "standard input");
  from_file["case"].erase("file"), from_pipe["case"].erase("file");
  CHECK(from_file == from_pipe);

  const auto here = "cd " + quoted(folder.path) + " && \"" + EVENPULL_COMMAND + "\" survey - < ";
  CHECK(std::system((here + path + " >/dev/null").c_str()) == 0);
  CHECK(fs::exists(folder.path / "standard-input-survey" / "survey.json"));
  const auto bad = here + "/dev/null 2> said";
  CHECK(std::system(bad.c_str()) / 256 == 3);
  CHECK(text_of(folder.path / "said") ==
        "standard input:1:1: the file is empty; start a new case with `evenpull template > my-case.toml`\n");
}

TEST_CASE("the results of a quick plan of every case are whole", "[cases][planned]") {
  const Folder folder;
  for (const auto& name : planned_names) {
    INFO(name);
    const auto out = planned(name, folder);
    for (const auto* file : {"plan.json", "plan.pdf", "order.toml", "timing.json", "fields.pvd"})
      CHECK(fs::file_size(out / file) > 20);
    CHECK_FALSE(fs::is_empty(out / "pictures"));
  }
}

// One panel of each kind is enough: what is replayed does not depend on the case.
TEST_CASE("the order of a plan can be replayed, with one wrap", "[cases][planned]") { replay_again("metal_aileron"); }

TEST_CASE("the order of a plan can be replayed, with two sheets", "[cases][planned]") {
  replay_again("two_sheet_elevator");
}

TEST_CASE("a plan is the same from run to run, byte for byte, on all threads and on seven", "[cases][planned]") {
  const Folder folder;
  const auto usual = planned("light_tube_rudder", folder), out = folder.path / "seven";
  REQUIRE(run("plan --quick --threads 7 " + quoted(case_path("light_tube_rudder")) + " --out " + quoted(out)) == 0);
  for (const auto& file : fs::recursive_directory_iterator(usual)) {
    const auto name = fs::relative(file.path(), usual);
    if (file.is_regular_file() && name != "timing.json") CHECK(text_of(out / name) == text_of(usual / name));
  }
}

TEST_CASE("the most friction that a case may state is replayed", "[cases][planned]") {
  const Folder folder;
  const auto file = folder.path / "rough.toml";
  std::ofstream(file) << rough_rudder();
  CHECK(run("replay --quick " + quoted(file) + " --order " +
            quoted(planned("light_tube_rudder", folder) / "order.toml") + " --out " + quoted(folder.path / "again")) ==
        0);
}

TEST_CASE("the most friction that a case may state with very stiff cloth is planned and replayed", "[cases][slow]") {
  const Folder folder;
  // Three bays of the rudder: as hard to solve, and half the zones.
  auto text = with(rough_rudder(), "class = \"medium\"", "class = \"medium\"\nstiffness = \"400 kN/m\"");
  text = with(text, "span = \"1800 mm\"", "span = \"900 mm\"");
  text = with(text, ", \"1200 mm\", \"1500 mm\", \"1800 mm\"]", "]");
  text = with(text, "at = \"1500 mm\"", "at = \"900 mm\"");
  const auto out = plan_text("stiff", text, folder);
  CHECK(run("replay --quick " + quoted(folder.path / "stiff.toml") + " --order " + quoted(out / "order.toml") +
            " --out " + quoted(folder.path / "again")) == 0);
}

TEST_CASE("a lesson's twist at a stage's end is the one that the solver reads, and snug cloth has less to slip",
          "[cases][planned]") {
  const Folder folder;
  const auto panel = quoted(case_path("training_panel"));
  const auto usual = planned("lesson", folder);
  REQUIRE(run("contrast --quick " + panel + " --looseness \"0.5 %\" --out " + quoted(folder.path / "snugger")) == 0);
  for (const auto* file : {"contrast.json", "lesson.pdf", "lesson.html"}) CHECK(fs::file_size(usual / file) > 1000);
  const auto as_is = nlohmann::json::parse(text_of(usual / "contrast.json")),
             snugger = nlohmann::json::parse(text_of(folder.path / "snugger" / "contrast.json"));
  // What is drawn comes from fields in single precision, what the solver reads does not.
  for (const auto& way : as_is["ways"])
    CHECK(way["twist_deg"].back().get<double>() ==
          Approx(way["twist_at_end_deg"].get<double>()).epsilon(1e-3).margin(1e-5));
  // An edge that is not tacked lets the side that is hot first take the other side's looseness.
  CHECK(most(snugger["ways"][0]["slip_mm"]) < 0.8 * most(as_is["ways"][0]["slip_mm"]));
  CHECK(snugger["changed"].size() == 1);
}

TEST_CASE("on the panel made for teaching order matters: one side first twists it at least twice as far as the plan",
          "[cases][planned]") {
  const Folder folder;
  const auto lesson = nlohmann::json::parse(text_of(planned("lesson", folder) / "contrast.json"));
  const auto &wrong = lesson["ways"][0], &plan = lesson["ways"][2];
  CHECK(most(wrong["twist_deg"]) > 2 * most(plan["twist_deg"]));
  CHECK(wrong["worst_use"].get<double>() > 1);
  CHECK(plan["worst_use"].get<double>() < 1);
  CHECK(most(plan["twist_deg"]) < lesson["limits"]["twist_deg"].get<double>());
  CHECK(std::abs(wrong["slip_mm"].back().get<double>()) > 2);
  CHECK(lesson["order_matters"]["headline"] == "On this panel order matters much.");
  // A first look calls nothing safe, nor does the lesson made of it.
  CHECK(lesson["stage"]["first_look"] == true);
  CHECK(lesson["stage"]["hottest_safe_degF"].is_null());
  CHECK(lesson["stage"]["shown_up_to_degF"] == 250);
}

TEST_CASE("the third way of a lesson is the plan, zone by zone", "[cases][planned]") {
  const Folder folder;
  const auto same = [&](const fs::path& plan_folder, const fs::path& lesson_folder) {
    const auto plan = nlohmann::json::parse(text_of(plan_folder / "plan.json")),
               lesson = nlohmann::json::parse(text_of(lesson_folder / "contrast.json"));
    auto to_be_worked = nlohmann::json::array();
    for (const auto& s : plan["steps"])
      if (s["stage_degF"] <= lesson["stage"]["shown_up_to_degF"]) to_be_worked.push_back(s["zone"]);
    REQUIRE(to_be_worked.size() > 0);
    CHECK(lesson["ways"][2]["zones"] == to_be_worked);
    CHECK(lesson["stage"]["first_look"] == plan["hottest_safe"]["first_look"]);
    CHECK(lesson["accuracy"] == plan["accuracy"]);
    if (const auto& stage = plan["hottest_safe"]["stage_degF"]; !stage.is_null())
      CHECK(lesson["stage"]["shown_up_to_degF"] == stage);
    // The others work as many zones in as many passes.
    for (const auto& way : lesson["ways"])
      if (!way["gave_way"].get<bool>()) CHECK(way["zones"].size() == to_be_worked.size());
  };
  same(planned("training_panel", folder), planned("lesson", folder));
  // Its passes are left open, so that the plan chooses them.
  const auto three = quoted(case_path("../tests/cases/three_ribs"));
  REQUIRE(run("plan --quick " + three + " --out " + quoted(folder.path / "plan")) == 0);
  REQUIRE(run("contrast --quick " + three + " --out " + quoted(folder.path / "lesson-of-three")) == 0);
  same(folder.path / "plan", folder.path / "lesson-of-three");
}

#endif
