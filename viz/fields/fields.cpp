// One file, so that the headers of VTK are read once.
#include "viz/fields/fields.hpp"

#include "viz/kit/page_parts.hpp"
#include "viz/panel/zone_means.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/trouble.hpp"
#include "viz/words/wording.hpp"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkErrorCode.h>
#include <vtkFieldData.h>
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkObject.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include <fmt/core.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstring>
#include <filesystem>

namespace evenpull {

namespace {

// A run writes some hundred steps; the fastest level costs a tenth of the size and saves most of the time.
constexpr int compression_level = 1;

/// Below its own codes the library gives those of the system. (Its own words for them would need one more of its libraries.)
std::string reason_of(unsigned long code) {
  if (code == vtkErrorCode::OutOfDiskSpaceError) return std::strerror(ENOSPC);
  return code > 0 && code < vtkErrorCode::FirstVTKErrorCode ? std::strerror(static_cast<int>(code))
                                                            : "it could not be opened";
}

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
  float* cell_array(const char* name, int components = 1) {
    return array(*grid_->GetCellData(), name, components, cells_->GetNumberOfCells());
  }
  /// A sentence that goes with the whole block.
  void say(const char* name, const std::string& words) {
    auto* old = vtkStringArray::SafeDownCast(grid_->GetFieldData()->GetAbstractArray(name));
    vtkNew<vtkStringArray> fresh;
    auto* to = old ? old : fresh.GetPointer();
    to->SetName(name);
    to->SetNumberOfValues(1);
    to->SetValue(0, words);
    if (!old) grid_->GetFieldData()->AddArray(to);
  }

  void write(const std::string& path) {
    vtkNew<vtkXMLUnstructuredGridWriter> writer;
    writer->SetFileName(path.c_str());
    writer->SetInputData(grid_);
    writer->SetDataModeToAppended();
    writer->EncodeAppendedDataOff();
    writer->SetCompressorTypeToZLib();
    writer->SetCompressionLevel(compression_level);
    writer->SetIdTypeToInt32();
    if (!writer->Write() || writer->GetErrorCode() != 0) throw CannotWriteFile(path, reason_of(writer->GetErrorCode()));
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

/// `n` values from `first` on.
void copy_part(const std::vector<float>& from, float* to, std::size_t first, std::size_t n, const char* name,
               const Snapshot& s) {
  if (from.size() < first + n)
    throw CannotDraw(
        fmt::format("snapshot {} holds {} values of {} for {} places", s.step, from.size(), name, first + n));
  for (std::size_t i = 0; i < n; ++i) {
    if (!std::isfinite(from[first + i]))
      throw CannotDraw(fmt::format("snapshot {}: {} is not a number at {}", s.step, name, first + i));
    to[i] = from[first + i];
  }
}

void copy_checked(const std::vector<float>& from, float* to, std::size_t n, const char* name, const Snapshot& s) {
  copy_part(from, to, 0, n, name, s);
}

constexpr const char* units_words = "lengths m, pull N/m, angles rad, temperature K, shrink as strain";

/// What every file says about itself.
void say_what_it_is(Block& block, const Plan& plan, const std::string& moment) {
  block.say("case", plan.the_case.title);
  block.say("moment", moment);
  block.say("units", units_words);
}

/// One skin.
class SkinBlock {
 public:
  SkinBlock(const Plan& plan, Side side) : plan_(plan), panel_(plan.panel) {
    const std::size_t half_nodes = panel_.nodes.size() / 2, half_quads = panel_.quads.size() / 2;
    first_node_ = side == Side::top ? 0 : half_nodes;
    first_quad_ = side == Side::top ? 0 : half_quads;
    nodes_ = half_nodes;
    quads_ = half_quads;
    block_.set_point_count(nodes_);
    const int shift = static_cast<int>(first_node_);
    for (std::size_t i = 0; i < quads_; ++i) {
      const auto& n = quad(i).nodes;
      block_.add_cell(VTK_QUAD, {n[0] - shift, n[1] - shift, n[2] - shift, n[3] - shift});
    }
    block_.close_cells();
    float* zone = block_.cell_array("zone");
    for (std::size_t i = 0; i < quads_; ++i) zone[i] = static_cast<float>(quad(i).zone);
    set_yarn_directions();
  }

  /// Constant over the job: chances of the plan, where it has them.
  void set_risks(const Chances& chances) {
    if (chances.zones.size() != panel_.zones.size()) return;
    float* uneven = block_.cell_array("uneven_pull_risk");
    float* slides = block_.cell_array("slide_risk");
    for (std::size_t i = 0; i < quads_; ++i) {
      const ZoneRisk& r = chances.zones[quad(i).zone];
      uneven[i] = static_cast<float>(r.uneven.share());
      slides[i] = static_cast<float>(r.slides.share());
    }
  }

  void write(const Snapshot& s, const std::string& path) {
    copy_part(s.displacement, block_.point_array("displacement_m", 3), 3 * first_node_, 3 * nodes_, "displacement", s);
    copy_part(s.sag, block_.point_array("sag_m", 1), first_node_, nodes_, "sag", s);
    for (std::size_t i = 0; i < nodes_; ++i) {
      const auto& p = panel_.nodes[first_node_ + i].placed;
      const float* d = &s.displacement[3 * (first_node_ + i)];
      block_.move_point(i, p.x() + d[0], p.y() + d[1], p.z() + d[2]);
    }
    block_.points_moved();
    const std::pair<const char*, const std::vector<float>*> arrays[] = {
        {"pull_warp_N_per_m", &s.pull_warp},   {"pull_fill_N_per_m", &s.pull_fill},
        {"pull_major_N_per_m", &s.pull_major}, {"pull_minor_N_per_m", &s.pull_minor},
        {"pull_chord_N_per_m", &s.pull_chord}, {"pull_span_N_per_m", &s.pull_span},
        {"shrink_warp", &s.shrink_warp},       {"shrink_fill", &s.shrink_fill}};
    for (const auto& [name, values] : arrays) copy_part(*values, block_.cell_array(name), first_quad_, quads_, name, s);
    float* state = block_.cell_array("state_0loose_1puckered_2tight");
    float* step = block_.cell_array("step");
    for (std::size_t i = 0; i < quads_; ++i) {
      state[i] = static_cast<float>(s.state.at(first_quad_ + i));
      step[i] = static_cast<float>(s.step);
    }
    say_what_it_is(block_, plan_, viz::snapshot_text(plan_, s));
    block_.write(path);
  }

 private:
  const Quad& quad(std::size_t i) const { return panel_.quads[first_quad_ + i]; }

  /// Unit vectors on the placed cloth (docs/model.md, section 1: angles from the span towards the TE).
  void set_yarn_directions() {
    float* warp = block_.cell_array("warp_direction", 3);
    float* fill = block_.cell_array("fill_direction", 3);
    for (std::size_t i = 0; i < quads_; ++i) {
      Eigen::Vector3d span{0, 0, 0}, chord{0, 0, 0};
      for (int n : quad(i).nodes) {
        span += panel_.nodes[n].along_span;
        chord += panel_.nodes[n].along_chord;
      }
      span.normalize();
      chord = (chord - chord.dot(span) * span).normalized();
      const double c = std::cos(quad(i).warp_angle), sine = std::sin(quad(i).warp_angle);
      const Eigen::Vector3d w = c * span + sine * chord, f = c * chord - sine * span;
      for (int k = 0; k < 3; ++k) {
        warp[3 * i + k] = static_cast<float>(w[k]);
        fill[3 * i + k] = static_cast<float>(f[k]);
      }
    }
  }

  const Plan& plan_;
  const Panel& panel_;
  std::size_t first_node_ = 0, first_quad_ = 0, nodes_ = 0, quads_ = 0;
  Block block_;
};

/// Where the iron was in a step: the cloth of the zone just ironed, as it lies now.
void write_iron(const Plan& plan, const Step& step, const Snapshot& s, const std::string& path) {
  const Panel& panel = plan.panel;
  const Zone& zone = panel.zones.at(step.zone);
  Block block;
  block.set_point_count(4 * zone.quads.size());
  std::size_t at = 0;
  for (int q : zone.quads) {
    const int first = static_cast<int>(at);
    for (int n : panel.quads[q].nodes) {
      const auto& p = panel.nodes[n].placed;
      const float* d = &s.displacement[3 * n];
      block.move_point(at++, p.x() + d[0], p.y() + d[1], p.z() + d[2]);
    }
    block.add_cell(VTK_QUAD, {first, first + 1, first + 2, first + 3});
  }
  block.close_cells();
  const std::pair<const char*, double> values[] = {
      {"zone", step.zone},
      {"sole_temperature_K", plan.the_case.stages.at(step.stage).temperature},
      {"pass", step.pass},
      {"dose", step.dose}};
  for (const auto& [name, value] : values) {
    float* to = block.cell_array(name);
    std::fill(to, to + zone.quads.size(), static_cast<float>(value));
  }
  say_what_it_is(block, plan, viz::snapshot_text(plan, s));
  block.write(path);
}

class FrameBlock {
 public:
  explicit FrameBlock(const Plan& plan) : plan_(plan), panel_(plan.panel) {
    const Panel& panel = plan.panel;
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
    say_what_it_is(block_, plan_, viz::snapshot_text(plan_, s));
    block_.write(path);
  }

 private:
  const Plan& plan_;
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
  say_what_it_is(block, plan, "buckling shape, " + viz::snapshot_text(plan, now));
  block.write(path);
}

void write_modes(const Plan& plan, const std::string& fields) {
  for (const StageSummary& s : plan.stages) {
    if (!s.buckling_mode || !viz::stage_end(plan, s.stage)) continue;
    const std::string stem = fields + "/buckling_" + viz::stage_in_name(plan.the_case, s.stage);
    write_mode(plan, s, false, stem + "_cloth.vtu");
    write_mode(plan, s, true, stem + "_frame.vtu");
  }
}

/// Files of a moment, in the order of their parts; the iron comes last since it is not there before the first step.
constexpr const char* block_names[] = {"top", "bottom", "frame", "iron"};

void write_index(const Plan& plan, const std::string& path) {
  std::string text =
      "<?xml version=\"1.0\"?>\n<VTKFile type=\"Collection\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
      "  <Collection>\n";
  for (std::size_t i = 0; i < plan.snapshots.size(); ++i) {
    int part = 0;
    for (const char* name : block_names) {
      if (i == 0 && name == std::string("iron")) continue;
      text += fmt::format("    <DataSet timestep=\"{}\" part=\"{}\" name=\"{}\" file=\"fields/{}_{:03}.vtu\"/>\n",
                          plan.snapshots[i].step, part++, name, name, i);
    }
  }
  viz::write_whole(path, text + "  </Collection>\n</VTKFile>\n");
}

}  // namespace

void write_fields(const Plan& plan, const std::string& directory) {
  vtkObject::GlobalWarningDisplayOff();  // what goes wrong is told once, by us
  std::filesystem::create_directory(directory +
                                    "/fields");  // never the folders above it: they may have been taken away
  SkinBlock top(plan, Side::top), bottom(plan, Side::bottom);
  top.set_risks(plan.chances), bottom.set_risks(plan.chances);
  FrameBlock frame(plan);
  const auto file = [&](const char* name, std::size_t i) {
    return fmt::format("{}/fields/{}_{:03}.vtu", directory, name, i);
  };
  for (std::size_t i = 0; i < plan.snapshots.size(); ++i) {
    const Snapshot& now = plan.snapshots[i];
    top.write(now, file("top", i));
    bottom.write(now, file("bottom", i));
    frame.write(now, file("frame", i));
    if (i > 0) write_iron(plan, plan.steps.at(i - 1), now, file("iron", i));
  }
  write_modes(plan, directory + "/fields");
  write_index(plan, directory + "/fields.pvd");
}

}  // namespace evenpull
