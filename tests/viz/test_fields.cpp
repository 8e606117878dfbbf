#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/fields.hpp"

#include <vtkCellData.h>
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <catch2/catch.hpp>

#include <cstdio>
#include <filesystem>
#include <limits>

using namespace evenpull;
using namespace evenpull::reading;

namespace {

/// A short plan, so that every file can be read back.
Plan short_plan() {
  Plan plan = sample_plan();
  plan.snapshots.resize(40);
  return plan;
}

std::string numbered(const std::string& stem, int i) {
  char name[64];
  std::snprintf(name, sizeof name, "fields/%s_%03d.vtu", stem.c_str(), i);
  return name;
}

void check_array(vtkFieldData* data, const char* name, const std::vector<float>& expected) {
  INFO(name);
  auto* array = vtkFloatArray::SafeDownCast(data->GetAbstractArray(name));
  REQUIRE(array != nullptr);
  REQUIRE(static_cast<std::size_t>(array->GetNumberOfValues()) == expected.size());
  bool same = true;
  for (std::size_t i = 0; i < expected.size(); ++i)
    same = same && array->GetValue(static_cast<vtkIdType>(i)) == expected[i];
  CHECK(same);
}

}  // namespace

TEST_CASE("a VTK reader reads every cloth file back with the same values") {
  Folder folder;
  const Plan plan = short_plan();
  write_fields(plan, folder.path());
  for (std::size_t i = 0; i < plan.snapshots.size(); ++i) {
    const Snapshot& s = plan.snapshots[i];
    vtkNew<vtkXMLUnstructuredGridReader> reader;
    const std::string path = folder / numbered("step", static_cast<int>(i));
    REQUIRE(std::filesystem::exists(path));
    reader->SetFileName(path.c_str());
    reader->Update();
    auto* grid = reader->GetOutput();
    REQUIRE(grid->GetNumberOfCells() == static_cast<vtkIdType>(plan.panel.quads.size()));
    REQUIRE(grid->GetNumberOfPoints() == static_cast<vtkIdType>(plan.panel.nodes.size()));
    auto* cells = grid->GetCellData();
    check_array(cells, "pull_warp_N_per_m", s.pull_warp);
    check_array(cells, "pull_fill_N_per_m", s.pull_fill);
    check_array(cells, "pull_major_N_per_m", s.pull_major);
    check_array(cells, "pull_minor_N_per_m", s.pull_minor);
    check_array(cells, "pull_chord_N_per_m", s.pull_chord);
    check_array(cells, "pull_span_N_per_m", s.pull_span);
    check_array(cells, "shrink_warp", s.shrink_warp);
    check_array(cells, "shrink_fill", s.shrink_fill);
    check_array(cells, "state_0loose_1puckered_2tight", std::vector<float>(s.state.begin(), s.state.end()));
    check_array(cells, "step", std::vector<float>(s.state.size(), static_cast<float>(s.step)));
    check_array(grid->GetPointData(), "displacement_m", s.displacement);
    check_array(grid->GetPointData(), "sag_m", s.sag);
    double p[3];
    grid->GetPoint(7, p);
    for (int k = 0; k < 3; ++k)
      CHECK(p[k] == Approx(plan.panel.nodes[7].placed[k] + s.displacement[21 + k]).margin(1e-7));
  }
}

TEST_CASE("the frame is read back as lines with their use and movement") {
  Folder folder;
  const Plan plan = short_plan();
  write_fields(plan, folder.path());
  const Snapshot& s = plan.snapshots.back();
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName((folder / numbered("frame", static_cast<int>(plan.snapshots.size()) - 1)).c_str());
  reader->Update();
  auto* grid = reader->GetOutput();
  REQUIRE(grid->GetNumberOfCells() == static_cast<vtkIdType>(plan.panel.beams.size()));
  CHECK(grid->GetCellType(0) == VTK_LINE);
  check_array(grid->GetCellData(), "use", s.beam_use);
  std::vector<float> moved;
  for (std::size_t j = 0; j < plan.panel.joints.size(); ++j)
    for (int k = 0; k < 3; ++k) moved.push_back(s.joint_displacement[6 * j + k]);
  check_array(grid->GetPointData(), "displacement_m", moved);
}

TEST_CASE("the list names every file, cloth and frame") {
  Folder folder;
  const Plan plan = short_plan();
  write_fields(plan, folder.path());
  const std::string list = bytes(folder / "fields.pvd");
  for (std::size_t i = 0; i < plan.snapshots.size(); ++i)
    for (const char* stem : {"step", "frame"})
      CHECK(list.find(numbered(stem, static_cast<int>(i))) != std::string::npos);
  CHECK(list.find("part=\"1\"") != std::string::npos);
}

TEST_CASE("the buckling shape of each stage is read back on the cloth and on the frame") {
  Folder folder;
  const Plan plan = sample_plan();
  write_fields(plan, folder.path());
  const char* const stems[] = {"fields/buckling_250F", "fields/buckling_300F", "fields/buckling_350F"};
  for (int stage = 0; stage < 3; ++stage) {
    const BucklingMode& mode = *plan.stages[stage].buckling_mode;
    vtkNew<vtkXMLUnstructuredGridReader> cloth, frame;
    cloth->SetFileName((folder / (std::string(stems[stage]) + "_cloth.vtu")).c_str());
    cloth->Update();
    check_array(cloth->GetOutput()->GetPointData(), "buckling_shape", mode.node);
    check_array(cloth->GetOutput()->GetCellData(), "buckling_factor",
                std::vector<float>(plan.panel.quads.size(), static_cast<float>(mode.factor)));
    frame->SetFileName((folder / (std::string(stems[stage]) + "_frame.vtu")).c_str());
    frame->Update();
    std::vector<float> moved, turned;
    for (std::size_t j = 0; j < plan.panel.joints.size(); ++j)
      for (int k = 0; k < 3; ++k) moved.push_back(mode.joint[6 * j + k]), turned.push_back(mode.joint[6 * j + 3 + k]);
    check_array(frame->GetOutput()->GetPointData(), "buckling_shape", moved);
    check_array(frame->GetOutput()->GetPointData(), "buckling_turn", turned);
  }
}

TEST_CASE("two runs give the same field files") {
  Folder one, two;
  Plan plan = short_plan();
  plan.snapshots.resize(3);
  write_fields(plan, one.path());
  write_fields(plan, two.path());
  for (const auto& entry : std::filesystem::directory_iterator(one / "fields"))
    CHECK(bytes(entry.path().string()) == bytes(two / "fields/" + entry.path().filename().string()));
}

TEST_CASE("a value that is not a number is named and no list is written") {
  Folder folder;
  Plan plan = short_plan();
  plan.snapshots[2].pull_fill[5] = std::numeric_limits<float>::quiet_NaN();
  CHECK_THROWS_WITH(write_fields(plan, folder.path()), Catch::Contains("pull_fill") && Catch::Contains("step 2"));
  CHECK_FALSE(std::filesystem::exists(folder / "fields.pvd"));
}
