#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/fields/fields.hpp"
#include "viz/words/order_words.hpp"

#include <vtkCellData.h>
#include <vtkFieldData.h>
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <catch2/catch.hpp>

#include <cmath>
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

TEST_CASE("a VTK reader reads both skins of every step back with the same values") {
  Folder folder;
  const Plan plan = short_plan();
  write_fields(plan, folder.path());
  const std::size_t quads = plan.panel.quads.size() / 2, nodes = plan.panel.nodes.size() / 2;
  for (std::size_t i = 0; i < plan.snapshots.size(); ++i)
    for (const std::size_t side : {0u, 1u}) {
      const Snapshot& s = plan.snapshots[i];
      vtkNew<vtkXMLUnstructuredGridReader> reader;
      const std::string path = folder / numbered(side == 0 ? "top" : "bottom", static_cast<int>(i));
      REQUIRE(std::filesystem::exists(path));
      reader->SetFileName(path.c_str());
      reader->Update();
      auto* grid = reader->GetOutput();
      REQUIRE(grid->GetNumberOfCells() == static_cast<vtkIdType>(quads));
      REQUIRE(grid->GetNumberOfPoints() == static_cast<vtkIdType>(nodes));
      const auto part = [&](const std::vector<float>& all, std::size_t n) {
        return std::vector<float>(all.begin() + static_cast<std::ptrdiff_t>(side * n),
                                  all.begin() + static_cast<std::ptrdiff_t>((side + 1) * n));
      };
      auto* cells = grid->GetCellData();
      check_array(cells, "pull_warp_N_per_m", part(s.pull_warp, quads));
      check_array(cells, "pull_fill_N_per_m", part(s.pull_fill, quads));
      check_array(cells, "pull_major_N_per_m", part(s.pull_major, quads));
      check_array(cells, "pull_minor_N_per_m", part(s.pull_minor, quads));
      check_array(cells, "pull_chord_N_per_m", part(s.pull_chord, quads));
      check_array(cells, "pull_span_N_per_m", part(s.pull_span, quads));
      check_array(cells, "shrink_warp", part(s.shrink_warp, quads));
      check_array(cells, "shrink_fill", part(s.shrink_fill, quads));
      check_array(cells, "state_0loose_1puckered_2tight",
                  part(std::vector<float>(s.state.begin(), s.state.end()), quads));
      check_array(cells, "step", std::vector<float>(quads, static_cast<float>(s.step)));
      check_array(grid->GetPointData(), "displacement_m", part(s.displacement, 3 * nodes));
      check_array(grid->GetPointData(), "sag_m", part(s.sag, nodes));
      double p[3];
      grid->GetPoint(7, p);
      const std::size_t n = side * nodes + 7;
      for (std::size_t k = 0; k < 3; ++k)
        CHECK(p[k] == Approx(plan.panel.nodes[n].placed[static_cast<int>(k)] + s.displacement[3 * n + k]).margin(1e-7));
    }
}

TEST_CASE("every file says its case, its moment and its units") {
  Folder folder;
  const Plan plan = short_plan();
  write_fields(plan, folder.path());
  for (const char* stem : {"top", "bottom", "frame", "iron"}) {
    INFO(stem);
    vtkNew<vtkXMLUnstructuredGridReader> reader;
    reader->SetFileName((folder / numbered(stem, 3)).c_str());
    reader->Update();
    const auto said = [&](const char* name) {
      auto* words = vtkStringArray::SafeDownCast(reader->GetOutput()->GetFieldData()->GetAbstractArray(name));
      REQUIRE(words != nullptr);
      return std::string(words->GetValue(0));
    };
    CHECK(said("case") == plan.the_case.title);
    CHECK(said("moment") == evenpull::viz::snapshot_text(plan, plan.snapshots[3]));
    CHECK(said("units").find("N/m") != std::string::npos);
  }
}

TEST_CASE("the iron is the zone of the step, at the temperature of its stage; before the first step there is none") {
  Folder folder;
  const Plan plan = short_plan();
  write_fields(plan, folder.path());
  CHECK_FALSE(std::filesystem::exists(folder / numbered("iron", 0)));
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName((folder / numbered("iron", 5)).c_str());
  reader->Update();
  const Step& step = plan.steps[4];
  const auto& quads = plan.panel.zones[static_cast<std::size_t>(step.zone)].quads;
  REQUIRE(reader->GetOutput()->GetNumberOfCells() == static_cast<vtkIdType>(quads.size()));
  auto* cells = reader->GetOutput()->GetCellData();
  check_array(cells, "zone", std::vector<float>(quads.size(), static_cast<float>(step.zone)));
  const double kelvin = plan.the_case.stages[static_cast<std::size_t>(step.stage)].temperature;
  check_array(cells, "sole_temperature_K", std::vector<float>(quads.size(), static_cast<float>(kelvin)));
}

TEST_CASE("warp and fill are unit vectors square to each other, the warp at its angle from the span") {
  Folder folder;
  Plan plan = short_plan();
  plan.snapshots.resize(1);
  for (auto& q : plan.panel.quads) q.warp_angle = 0.3;
  write_fields(plan, folder.path());
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName((folder / numbered("bottom", 0)).c_str());
  reader->Update();
  auto* cells = reader->GetOutput()->GetCellData();
  auto* warp = cells->GetArray("warp_direction");
  auto* fill = cells->GetArray("fill_direction");
  REQUIRE(warp != nullptr);
  REQUIRE(fill != nullptr);
  REQUIRE(warp->GetNumberOfComponents() == 3);
  const std::size_t first = plan.panel.quads.size() / 2;
  for (vtkIdType i = 0; i < warp->GetNumberOfTuples(); ++i) {
    double w[3], f[3];
    warp->GetTuple(i, w);
    fill->GetTuple(i, f);
    CHECK(w[0] * w[0] + w[1] * w[1] + w[2] * w[2] == Approx(1).epsilon(1e-5));
    CHECK(w[0] * f[0] + w[1] * f[1] + w[2] * f[2] == Approx(0).margin(1e-6));
    Eigen::Vector3d span{0, 0, 0}, chord{0, 0, 0};
    for (int n : plan.panel.quads[first + static_cast<std::size_t>(i)].nodes) {
      span += plan.panel.nodes[static_cast<std::size_t>(n)].along_span;
      chord += plan.panel.nodes[static_cast<std::size_t>(n)].along_chord;
    }
    CHECK(span.normalized().dot(Eigen::Vector3d(w[0], w[1], w[2])) == Approx(std::cos(0.3)).epsilon(1e-5));
    CHECK(chord.normalized().dot(Eigen::Vector3d(w[0], w[1], w[2])) > 0);  // towards the trailing edge
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

TEST_CASE("the list names every file: both skins, frame, iron") {
  Folder folder;
  const Plan plan = short_plan();
  write_fields(plan, folder.path());
  const std::string list = bytes(folder / "fields.pvd");
  for (std::size_t i = 0; i < plan.snapshots.size(); ++i)
    for (const char* stem : {"top", "bottom", "frame", "iron"})
      if (i > 0 || stem != std::string("iron"))
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
  CHECK_THROWS_WITH(write_fields(plan, folder.path()), Catch::Contains("pull_fill") && Catch::Contains("snapshot 2"));
  CHECK_FALSE(std::filesystem::exists(folder / "fields.pvd"));
}
