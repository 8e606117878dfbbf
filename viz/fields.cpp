#include "viz/fields.hpp"

#include "viz/wording.hpp"
#include "viz/zone_means.hpp"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include <fmt/core.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <stdexcept>

namespace evenpull {

namespace {

// A run writes some hundred steps; the fastest level costs a tenth of the size and saves most of the time.
constexpr int compression_level = 1;

/// A grid whose cells stay and whose arrays are filled anew for each snapshot.
class Block {
 public:
  Block() { grid_->SetPoints(points_); }

  void set_point_count(std::size_t n) { points_->SetNumberOfPoints(static_cast<vtkIdType>(n)); }
  void add_cell(int type, std::initializer_list<int> nodes) {
    for (int n : nodes) cell_.push_back(n);
    cells_->InsertNextCell(static_cast<vtkIdType>(cell_.size()), cell_.data());
    cell_.clear();
    type_ = type;
  }
  void close_cells() { grid_->SetCells(type_, cells_); }
  void move_point(std::size_t i, double x, double y, double z) {
    points_->SetPoint(static_cast<vtkIdType>(i), x, y, z);
  }
  void points_moved() { points_->Modified(); }

  float* point_array(const char* name, int components) {
    return array(*grid_->GetPointData(), name, components, points_->GetNumberOfPoints());
  }
  float* cell_array(const char* name) { return array(*grid_->GetCellData(), name, 1, cells_->GetNumberOfCells()); }

  void write(const std::string& path) {
    vtkNew<vtkXMLUnstructuredGridWriter> writer;
    writer->SetFileName(path.c_str());
    writer->SetInputData(grid_);
    writer->SetDataModeToAppended();
    writer->EncodeAppendedDataOff();
    writer->SetCompressorTypeToZLib();
    writer->SetCompressionLevel(compression_level);
    writer->SetIdTypeToInt32();
    if (!writer->Write() || writer->GetErrorCode() != 0)
      throw std::runtime_error("cannot write " + path + "; check the folder and the free space");
  }

 private:
  static float* array(vtkFieldData& data, const char* name, int components, vtkIdType n) {
    if (auto* old = vtkFloatArray::SafeDownCast(data.GetArray(name))) {
      old->Modified();
      return old->GetPointer(0);
    }
    vtkNew<vtkFloatArray> fresh;
    fresh->SetName(name);
    fresh->SetNumberOfComponents(components);
    fresh->SetNumberOfTuples(n);
    data.AddArray(fresh);
    return fresh->GetPointer(0);
  }

  vtkNew<vtkUnstructuredGrid> grid_;
  vtkNew<vtkPoints> points_;
  vtkNew<vtkCellArray> cells_;
  std::vector<vtkIdType> cell_;
  int type_ = VTK_QUAD;
};

void copy_checked(const std::vector<float>& from, float* to, std::size_t n, const char* name, const Snapshot& s) {
  if (from.size() < n)
    throw std::runtime_error(
        fmt::format("snapshot {} ({}) holds {} values of {} for {} places", s.step, s.label, from.size(), name, n));
  for (std::size_t i = 0; i < n; ++i) {
    if (!std::isfinite(from[i]))
      throw std::runtime_error(fmt::format("snapshot {} ({}): {} is not a number at {}", s.step, s.label, name, i));
    to[i] = from[i];
  }
}

class ClothBlock {
 public:
  explicit ClothBlock(const Panel& panel) : panel_(panel) {
    block_.set_point_count(panel.nodes.size());
    for (const auto& q : panel.quads) block_.add_cell(VTK_QUAD, {q.nodes[0], q.nodes[1], q.nodes[2], q.nodes[3]});
    block_.close_cells();
    float* zone = block_.cell_array("zone");
    float* side = block_.cell_array("side");
    for (std::size_t i = 0; i < panel.quads.size(); ++i) {
      zone[i] = static_cast<float>(panel.quads[i].zone);
      side[i] = static_cast<float>(static_cast<int>(panel.quads[i].side));
    }
  }

  void write(const Snapshot& s, const std::string& path) {
    const std::size_t cells = panel_.quads.size(), points = panel_.nodes.size();
    copy_checked(s.displacement, block_.point_array("displacement_m", 3), 3 * points, "displacement", s);
    copy_checked(s.sag, block_.point_array("sag_m", 1), points, "sag", s);
    for (std::size_t i = 0; i < points; ++i) {
      const auto& p = panel_.nodes[i].placed;
      const float* d = &s.displacement[3 * i];
      block_.move_point(i, p.x() + d[0], p.y() + d[1], p.z() + d[2]);
    }
    block_.points_moved();
    const std::pair<const char*, const std::vector<float>*> arrays[] = {
        {"pull_warp_N_per_m", &s.pull_warp},   {"pull_fill_N_per_m", &s.pull_fill},
        {"pull_major_N_per_m", &s.pull_major}, {"pull_minor_N_per_m", &s.pull_minor},
        {"pull_chord_N_per_m", &s.pull_chord}, {"pull_span_N_per_m", &s.pull_span},
        {"shrink_warp", &s.shrink_warp},       {"shrink_fill", &s.shrink_fill}};
    for (const auto& [name, values] : arrays) copy_checked(*values, block_.cell_array(name), cells, name, s);
    float* state = block_.cell_array("state_0loose_1puckered_2tight");
    float* step = block_.cell_array("step");
    for (std::size_t i = 0; i < cells; ++i) {
      state[i] = static_cast<float>(s.state.at(i));
      step[i] = static_cast<float>(s.step);
    }
    block_.write(path);
  }

 private:
  const Panel& panel_;
  Block block_;
};

class FrameBlock {
 public:
  explicit FrameBlock(const Panel& panel) : panel_(panel) {
    block_.set_point_count(panel.joints.size());
    for (const auto& b : panel.beams) block_.add_cell(VTK_LINE, {b.from, b.to});
    block_.close_cells();
    float* member = block_.cell_array("member");
    for (std::size_t i = 0; i < panel.beams.size(); ++i) member[i] = static_cast<float>(panel.beams[i].member);
  }

  void write(const Snapshot& s, const std::string& path) {
    const std::size_t joints = panel_.joints.size();
    std::vector<float> six(6 * joints);
    copy_checked(s.joint_displacement, six.data(), 6 * joints, "joint displacement", s);
    float* move = block_.point_array("displacement_m", 3);
    float* turn = block_.point_array("rotation_rad", 3);
    for (std::size_t j = 0; j < joints; ++j) {
      for (int k = 0; k < 3; ++k) {
        move[3 * j + k] = six[6 * j + k];
        turn[3 * j + k] = six[6 * j + 3 + k];
      }
      const auto& p = panel_.joints[j].position;
      block_.move_point(j, p.x() + move[3 * j], p.y() + move[3 * j + 1], p.z() + move[3 * j + 2]);
    }
    block_.points_moved();
    copy_checked(s.beam_use, block_.cell_array("use"), panel_.beams.size(), "use", s);
    block_.write(path);
  }

 private:
  const Panel& panel_;
  Block block_;
};

/// The buckling shape of one stage on the frame or the cloth as it stands at the stage's end.
void write_mode(const Plan& plan, const StageSummary& stage, bool frame, const std::string& path) {
  const Panel& panel = plan.panel;
  const BucklingMode& mode = *stage.buckling_mode;
  const Snapshot& now = *viz::stage_end(plan, stage.stage);
  Block block;
  const std::size_t points = frame ? panel.joints.size() : panel.nodes.size();
  block.set_point_count(points);
  if (frame)
    for (const auto& b : panel.beams) block.add_cell(VTK_LINE, {b.from, b.to});
  else
    for (const auto& q : panel.quads) block.add_cell(VTK_QUAD, {q.nodes[0], q.nodes[1], q.nodes[2], q.nodes[3]});
  block.close_cells();
  const int each = frame ? 6 : 3;
  const auto& moved = frame ? now.joint_displacement : now.displacement;
  const auto& shape = frame ? mode.joint : mode.node;
  std::vector<float> checked(each * points);
  copy_checked(shape, checked.data(), each * points, "buckling shape", now);
  float* move = block.point_array("buckling_shape", 3);
  float* turn = frame ? block.point_array("buckling_turn", 3) : nullptr;
  for (std::size_t i = 0; i < points; ++i) {
    const auto& p = frame ? panel.joints[i].position : panel.nodes[i].placed;
    const float* d = &moved.at(each * i);
    block.move_point(i, p.x() + d[0], p.y() + d[1], p.z() + d[2]);
    for (int k = 0; k < 3; ++k) {
      move[3 * i + k] = checked[each * i + k];
      if (frame) turn[3 * i + k] = checked[each * i + 3 + k];
    }
  }
  block.points_moved();
  float* factor = block.cell_array("buckling_factor");
  for (std::size_t i = 0; i < (frame ? panel.beams.size() : panel.quads.size()); ++i)
    factor[i] = static_cast<float>(mode.factor);
  block.write(path);
}

void write_modes(const Plan& plan, const std::string& fields) {
  for (const StageSummary& s : plan.stages) {
    if (!s.buckling_mode || !viz::stage_end(plan, s.stage)) continue;
    const double f = viz::fahrenheit(plan.the_case.stages.at(s.stage).temperature);
    write_mode(plan, s, false, fmt::format("{}/buckling_{:.0f}F_cloth.vtu", fields, f));
    write_mode(plan, s, true, fmt::format("{}/buckling_{:.0f}F_frame.vtu", fields, f));
  }
}

void write_index(const Plan& plan, const std::string& path) {
  const std::string aside = path + ".part";
  {
    std::ofstream out(aside, std::ios::binary);
    out << "<?xml version=\"1.0\"?>\n<VTKFile type=\"Collection\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
           "  <Collection>\n";
    for (std::size_t i = 0; i < plan.snapshots.size(); ++i) {
      const int step = plan.snapshots[i].step;
      out << fmt::format("    <DataSet timestep=\"{}\" part=\"0\" file=\"fields/step_{:03}.vtu\"/>\n", step, i)
          << fmt::format("    <DataSet timestep=\"{}\" part=\"1\" file=\"fields/frame_{:03}.vtu\"/>\n", step, i);
    }
    out << "  </Collection>\n</VTKFile>\n";
    out.close();
    if (!out) throw std::runtime_error("cannot write " + path + "; check the folder and the free space");
  }
  std::filesystem::rename(aside, path);
}

}  // namespace

void write_fields(const Plan& plan, const std::string& directory) {
  std::filesystem::create_directories(directory + "/fields");
  ClothBlock cloth(plan.panel);
  FrameBlock frame(plan.panel);
  for (std::size_t i = 0; i < plan.snapshots.size(); ++i) {
    cloth.write(plan.snapshots[i], fmt::format("{}/fields/step_{:03}.vtu", directory, i));
    frame.write(plan.snapshots[i], fmt::format("{}/fields/frame_{:03}.vtu", directory, i));
  }
  write_modes(plan, directory + "/fields");
  write_index(plan, directory + "/fields.pvd");
}

}  // namespace evenpull
