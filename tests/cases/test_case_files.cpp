#include "app/input/case_reader.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

using namespace evenpull;

namespace {

std::vector<std::string> case_files() {
  std::vector<std::string> out;
  for (const auto& e : std::filesystem::directory_iterator(EVENPULL_CASES_DIR))
    if (e.path().extension() == ".toml") out.push_back(e.path().string());
  std::sort(out.begin(), out.end());
  return out;
}

bool is_template(const std::string& path) { return std::filesystem::path(path).stem() == "template"; }

}  // namespace

TEST_CASE("every case file reads without a doubt", "[cases]") {
  REQUIRE(case_files().size() >= 5);
  for (const auto& path : case_files()) {
    INFO(path);
    const auto c = read_case(path);
    CHECK(c.doubts.empty());
    CHECK_FALSE(c.while_ironed.empty());
    CHECK_FALSE(c.in_use.empty());
  }
}

TEST_CASE("every demo case says that it is invented", "[cases]") {
  for (const auto& path : case_files()) {
    INFO(path);
    const auto c = read_case(path);
    CHECK(c.invented != is_template(path));
    if (!is_template(path)) CHECK(c.title.find("(invented)") != std::string::npos);
  }
}

TEST_CASE("the demo cases are of the kinds promised", "[cases]") {
  const auto read = [](const char* name) { return read_case(std::string(EVENPULL_CASES_DIR) + "/" + name); };
  CHECK(read("metal_aileron.toml").span_members.front().make.shape.kind == SectionShape::Kind::closed_nose);
  CHECK(read("light_tube_rudder.toml").span_members.front().make.shape.kind == SectionShape::Kind::tube);
  CHECK(read("very_light_bow.toml").tip_bow.has_value());
  CHECK(read("two_sheet_elevator.toml").blanket.kind == BlanketKind::two_sheets);
  CHECK(read("welded_steel_rudder.toml").tip_bow.has_value());
  CHECK(read("wing_bay.toml").cloth_goes_on_outboard);
  for (const auto* name : {"welded_elevator.toml", "heavy_cloth_elevator.toml"}) CHECK(read(name).pockets.size() == 1);
}
