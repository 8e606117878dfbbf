// The values of kept runs for cereal, field by field. Whoever adds a field to one of these structs adds it here: the test
// that a plan goes on to the same bytes fails else.
#pragma once

#include "sequencer/sure/kept_runs.hpp"

#include <cereal/archives/binary.hpp>
#include <cereal/types/array.hpp>
#include <cereal/types/map.hpp>
#include <cereal/types/optional.hpp>
#include <cereal/types/variant.hpp>
#include <cereal/types/vector.hpp>

#include <Eigen/Core>

namespace Eigen {

template <class Archive, class Scalar, int Rows, int Columns, int Options, int MostRows, int MostColumns>
void save(Archive& a, const Matrix<Scalar, Rows, Columns, Options, MostRows, MostColumns>& m) {
  a(static_cast<long>(m.rows()), static_cast<long>(m.cols()));
  a(cereal::binary_data(m.data(), static_cast<std::size_t>(m.size()) * sizeof(Scalar)));
}

template <class Archive, class Scalar, int Rows, int Columns, int Options, int MostRows, int MostColumns>
void load(Archive& a, Matrix<Scalar, Rows, Columns, Options, MostRows, MostColumns>& m) {
  long rows = 0, columns = 0;
  a(rows, columns);
  m.resize(rows, columns);
  a(cereal::binary_data(m.data(), static_cast<std::size_t>(m.size()) * sizeof(Scalar)));
}

}  // namespace Eigen

namespace evenpull {

template <class Archive>
void serialize(Archive& a, Step& v) {
  a(v.stage, v.pass, v.run, v.place, v.zone, v.dose, v.done);
}
template <class Archive>
void serialize(Archive& a, RunJob& v) {
  a(v.kind, v.mesh, v.steps, v.kept_whole, v.inner_ribs, v.by_schedule, v.joints, v.last_stage, v.at_once, v.sigmas,
    v.number);
}

inline namespace solver {
template <class Archive>
void serialize(Archive& a, Missed& v) {
  a(v.what, v.value, v.allowed, v.unit);
}
template <class Archive>
void serialize(Archive& a, SolveReport& v) {
  a(v.converged, v.stable, v.iterations, v.residual, v.tension_change, v.threshold_error, v.tension_bound, v.gap,
    v.friction_gap, v.energy, v.failed, v.missed);
}
template <class Archive>
void serialize(Archive& a, Unevenness& v) {
  a(v.chord, v.span);
}
template <class Archive>
void serialize(Archive& a, ThicknessLoss& v) {
  a(v.loss, v.top, v.bottom, v.thickness, v.bay, v.chord_fraction);
}
template <class Archive>
void serialize(Archive& a, Tension& v) {
  a(v.pull, v.wrinkle);
}
// Under a name of its own: cereal takes the number Covering::load for the member function that it looks for.
template <class Archive>
void archive_covering(Archive& a, Covering& v) {
  a(v.unknowns, v.tension, v.shrink, v.friction, v.axial, v.nodal_force, v.held, v.springs_from, v.attached, v.load);
}
}  // namespace solver

inline namespace sequencer {
template <class Archive>
void serialize(Archive& a, Tally& v) {
  a(v.use, v.difference, v.slip, v.unevenness, v.travel, v.turn_overs);
}
template <class Archive>
void serialize(Archive& a, Place& v) {
  a(v.kind, v.member, v.station, v.aft, v.bay);
}
template <class Archive>
void serialize(Archive& a, MeshLevel& v) {
  a(v.size, v.value);
}
template <class Archive>
void serialize(Archive& a, ZoneLevel& v) {
  a(v.parts, v.size, v.value, v.change);
}
template <class Archive>
void serialize(Archive& a, NumberStudy& v) {
  a(v.mesh, v.zones, v.approach, v.order, v.extrapolated, v.mesh_plus_minus, v.zone_plus_minus, v.gave_way);
}
template <class Archive>
void serialize(Archive& a, LimitReading& v) {
  a(v.limit, v.where, v.when, v.stage, v.value, v.allowed, v.use, v.use_plus_minus, v.use_of_worse_joints, v.judgement,
    v.study, v.gave_way, v.lasting, v.compression, v.at_weld);
}
template <class Archive>
void serialize(Archive& a, BucklingMode& v) {
  a(v.factor, v.when, v.where, v.joint, v.node, v.residual, v.least_proven);
}
template <class Archive>
void serialize(Archive& a, StageEnd& v) {
  a(v.edge_bow, v.end_rib_bow, v.twist, v.slip, v.hinge_line_bow, v.whole_edge_bow, v.pocket_closing);
}
template <class Archive>
void serialize(Archive& a, WirePull& v) {
  a(v.brace, v.least, v.most, v.end);
}
template <class Archive>
void serialize(Archive& a, StageSummary& v) {
  a(v.stage, v.settled, v.gave_way, v.mean_pull_warp, v.mean_pull_fill, v.mean_pull_chord, v.mean_pull_span,
    v.unevenness, v.loose_share, v.loose_zones, v.worst_slip, v.twist, v.end, v.buckling_factor, v.buckling_mode,
    v.thickness_loss, v.thickness_loss_by_bay, v.wires, v.worst_use, v.passes, v.done, v.pull_chord_study,
    v.pull_span_study, v.slip_study);
}
template <class Archive>
void serialize(Archive& a, StageVerdict& v) {
  a(v.stage, v.limits, v.summary, v.buckled, v.worst_difference_chord, v.worst_difference_span, v.worst_slip,
    v.worst_twist, v.spread_along_span, v.end_use, v.lift, v.frame_turn, v.zone_pull, v.bay_pull, v.column_slip);
}
template <class Archive>
void serialize(Archive& a, Snapshot& v) {
  a(v.step, v.displacement, v.sag, v.pull_warp, v.pull_fill, v.pull_major, v.pull_minor, v.pull_chord, v.pull_span,
    v.major_angle, v.state, v.shrink_warp, v.shrink_fill, v.edge_slip, v.joint_displacement, v.beam_use, v.twist,
    v.tip_turn, v.difference_chord, v.difference_span);
}
template <class Archive>
void serialize(Archive& a, Certificate& v) {
  a(v.stage, v.when, v.step, v.solve);
}
template <class Archive>
void serialize(Archive& a, Solve& v) {
  a(v.nodes, v.steps, v.iterations, v.worst_residual, v.tension_error_bound, v.tension_error_bound_on_the_way,
    v.worst_threshold_error, v.mesh_change, v.zone_change);
}
// Of runs that found an equilibrium throughout: what is kept has no `unsolved`.
template <class Archive>
void serialize(Archive& a, ReplayResult& v) {
  a(v.planned, v.steps, v.moments, v.stages, v.snapshots, v.stage_end_snapshot, v.certificates, v.solve);
  cereal::size_type ends = v.stage_end.size();
  a(cereal::make_size_tag(ends));
  v.stage_end.resize(ends);
  for (Covering& c : v.stage_end) archive_covering(a, c);
}
template <class Archive>
void serialize(Archive& a, StudyRun& v) {
  a(v.fineness, v.zone_parts, v.nodes, v.edge, v.stages, v.unsolved);
}
template <class Archive>
void serialize(Archive& a, Outturn& v) {
  a(v.sigmas, v.uses, v.zone_pull, v.column_slip, v.bay_pull, v.end, v.fell, v.loose, v.solved);
}
}  // namespace sequencer

}  // namespace evenpull
