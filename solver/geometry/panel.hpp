// The panel: mesh of the cloth, frame, ties between them and zones. Built once from a Case; never changes.
// Axes: x chordwise from LE to TE, y spanwise from the inboard end rib, z up. Lengths in m.
#pragma once

#include "solver/statement/case.hpp"

#include <Eigen/Core>

#include <array>
#include <stdexcept>
#include <string>
#include <vector>

namespace evenpull::inline solver {

/// How a cloth node is held (docs/model.md, section 1).
enum class Tie { none, glued, bearing, wrapped };

struct ClothNode {
  Eigen::Vector3d placed;  ///< position as laid on, before ironing
  Side side = Side::top;
  int row = 0;     ///< chordwise station: 0 = seam line at the LE, rows() - 1 = TE
  int column = 0;  ///< spanwise station: 0 = inboard end rib
  Tie tie = Tie::none;
  int joint = -1;                        ///< joint it is tied to
  bool on_nose = false;                  ///< bears on the metal nose
  bool absent = false;                   ///< inside a cut-out: no cloth, no unknowns, tied to nothing
  Eigen::Vector3d offset{0, 0, 0};       ///< from the joint
  Eigen::Vector3d normal{0, 0, 1};       ///< outward unit normal of the placed cloth
  Eigen::Vector3d along_chord{1, 0, 0};  ///< unit tangent from LE to TE
  Eigen::Vector3d along_span{0, 1, 0};   ///< unit tangent from root to tip
};

/// Four nodes in the order (row, column), (row+1, column), (row+1, column+1), (row, column+1). The law is evaluated on
/// the four triangles of both diagonals, each with half its area, so that no diagonal is preferred.
struct Quad {
  std::array<int, 4> nodes{};
  Side side = Side::top;
  int row = 0, column = 0;
  int bay = 0;
  int zone = 0;           ///< index into Panel::zones
  double area = 0;        ///< placed area [m^2]
  double warp_angle = 0;  ///< of the warp from the span on this quad [rad]
};

/// What is worked in one step: one strip of one bay on one side (all counted from 0; shown to the reader from 1).
struct Zone {
  Side side = Side::top;
  int bay = 0;
  int strip = 0;
  double area = 0;
  std::vector<int> quads;
  std::string label;  ///< "T7", "B12": side and number counted along the strips of each bay, root to tip
};

struct Joint {
  Eigen::Vector3d position;
};

/// A straight piece of a member between two joints.
struct Beam {
  int from = 0, to = 0;
  int member = 0;
  Section section;                   ///< at its middle: stiffness
  Section section_from, section_to;  ///< at its ends: stress, which peaks at joints; a tapered member differs there
  Eigen::Vector3d up{0, 0, 1};       ///< unit vector of "up" bending, perpendicular to the axis
  bool hinge_from = false, hinge_to = false;
  double shape_depth = 0;                   ///< what stands in for a height of 0 in the shape at its middle [m]
  bool weld_from = false, weld_to = false;  ///< there is a weld at this end
};

enum class MemberRole { leading_edge, spar, trailing_edge, tip_bow, end_rib, inner_rib, brace, pocket_front, batten };

struct FrameMember {
  std::string name;
  MemberRole role = MemberRole::spar;
  int material = 0;
  std::vector<int> beams;   ///< in order along the member
  std::vector<int> joints;  ///< beams.size() + 1
  SectionShape shape{};     ///< as stated at its first piece
  int span_member = -1;     ///< Case::span_members that it is, or a piece of; -1: none
  bool comes_out = false;   ///< taken out when the panel is released
};

/// Cloth cut out on both sides alike: what lies between these lines of the mesh.
struct CutOut {
  int first_row = 0, last_row = 0;
  int first_column = 0, last_column = 0;
};

/// A pocket in the trailing edge as it is built (docs/model.md, section 1). The trailing edge stops at its sides; its front
/// member carries on between the side ribs, and ribs between these end there.
struct PanelPocket {
  int from_rib = 0, to_rib = 0;  ///< of Case::ribs
  double chord_fraction = 0;     ///< of its front, all along
  int member = -1;               ///< along its front: index into Panel::members
  std::vector<int> front;        ///< joints of its front from side to side, one a column
  /// Joints of each side from the front to the trailing edge; the front's alone where the pocket is open to that end.
  std::array<std::vector<int>, 2> sides;
};

struct Panel {
  int rows = 0;     ///< chordwise stations a side
  int columns = 0;  ///< spanwise stations
  int bays = 0;
  int strips = 0;                ///< zones along the chord in each bay and side
  std::vector<int> rib_columns;  ///< column of each rib
  std::vector<int> strip_rows;   ///< row at which each strip begins, and the last row: strips + 1 values
  std::vector<ClothNode> nodes;  ///< index = side * rows * columns + row * columns + column
  std::vector<Quad> quads;       ///< by side, row, column; as many above as below; none in cut-outs
  std::vector<Zone> zones;       ///< by side, bay, strip; each has cloth: those that are cut out do not exist
  std::vector<int> zone_at;      ///< index into zones of side * bays * strips + bay * strips + strip; -1: cut out
  std::vector<Joint> joints;
  std::vector<Beam> beams;
  std::vector<FrameMember> members;
  std::vector<int> edge_joint;       ///< TE joint of each column; within a pocket the joint of its front
  double fullness = 0;               ///< share of length that a doubly curved tip leaves to be shrunk out
  std::vector<char> rib_carries;     ///< of each rib: the cloth touches it; none: all do
  std::vector<PanelPocket> pockets;  ///< as Case::pockets
  std::vector<CutOut> cut_outs;      ///< those of the pockets, then those of Case::hinge_gaps
  int node(Side s, int row, int column) const { return (static_cast<int>(s) * rows + row) * columns + column; }
  /// -1 where there is no such zone, its cloth being cut out.
  int zone(Side s, int bay, int strip) const {
    const int at = (static_cast<int>(s) * bays + bay) * strips + strip;
    return zone_at.empty() ? at : zone_at[static_cast<std::size_t>(at)];
  }
  /// The pocket that takes the trailing edge out of a bay; -1: none.
  int pocket_in(int bay) const;
  /// Row at which the cloth of a bay ends: the trailing edge, or the front of its pocket.
  int last_row(int bay) const;
  /// Joints of the edge at which the cloth of a bay ends, from rib to rib.
  std::vector<int> edge_of(int bay) const;
  /// Ribs (of the bay's two, or beyond) between which the cloth of a bay is free along the span.
  int carried_from(int bay) const;
  int carried_to(int bay) const;
};

/// Cloth nodes of the coarse mesh, on which a quick plan is made: it ranks orders as the fine one does, with a lower use
/// (docs/model.md, section 8).
inline constexpr int coarse_nodes = 350;

/// Cloth nodes of the mesh on which orders are ranked and a search tries thousands of prefixes: half the nodes of the
/// coarse one, twice its pace, use and pull difference within a tenth of it.
inline constexpr int search_nodes = 200;

/// Share of the chord (of the span for ribs) by which two members must stand apart: nearer ones are one member stated
/// twice, since none is thinner. Judgement.
inline constexpr double least_apart = 5e-3;

/// Mesh density. Every count is chosen by the solver from these.
struct MeshOptions {
  int target_nodes = 2000;
  /// Of a mesh study: edges are 2/fineness of those that `target_nodes` asks for (1 twice as long, 4 half as long).
  /// From 2 * coarse_nodes on all meshes of a case hold the lines of the one of fineness 1, zone borders included; below
  /// that, only even ones hold the lines of fineness 2, and 1 is as near as counts allow.
  int fineness = 2;
  int zone_parts = 1;  ///< 2 or 4: each zone cut along the span line (numerical study), where the rows allow it
};

/// Throws CaseError (key "member" or "ribs.stations") where two members or two ribs stand practically in one place.
Panel build_panel(const Case& c, const MeshOptions& options);

}  // namespace evenpull::inline solver
