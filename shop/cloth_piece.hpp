// A piece of cloth as it is cut: straight cuts round the unrolled skin with what is lapped, tucked and trimmed, what is cut
// out of it later, and how its yarns lie.
#pragma once

#include "shop/trimming.hpp"
#include "shop/unrolled.hpp"

#include <string>
#include <vector>

namespace evenpull {

using PlanePoint = Eigen::Vector2d;
using Polygon = std::vector<PlanePoint>;

/// Edges of a piece in the order in which they go round: from the root along the first edge to the tip and back.
enum class PieceEdge { upper, tip, lower, root };

/// What an edge of a piece does.
enum class EdgeKind { nose_seam, edge_seam, end_rib, tip_bow, goes_on };

struct PieceEdgePlan {
  EdgeKind kind = EdgeKind::nose_seam;
  double round = 0;    ///< cloth from the line to the other piece's line, halved: what goes round an edge [m]
  double glued = 0;    ///< width that is lapped or tucked, this piece's share [m]
  double shrinks = 0;  ///< longer, since what hangs free shrinks before it is glued [m]
  double trim = 0;     ///< m
  double whole() const { return round + glued + shrinks + trim; }
};

struct PieceCutOut {
  bool gap = false;  ///< in the nose; else a pocket
  int number = 0;    ///< of its kind in the case, from 0
  Polygon line;      ///< the finished edge
};

struct PieceLine {
  bool rib = true;  ///< else along the trailing edge
  int number = 0;   ///< of the rib, from 0
  Polygon line;
};

struct ClothPiece {
  int of_case = 0;  ///< which of the cases
  PieceOf of = PieceOf::whole_panel;
  Polygon line;  ///< where it is glued: edge of the unrolled skin, looseness included
  Polygon cut;   ///< convex; what is cut
  std::array<PieceEdgePlan, 4> edges{};
  std::vector<PieceCutOut> cut_outs;
  std::vector<PieceLine> lines;
  double warp = 0;                     ///< angle of the warp in the plane, from u towards v [rad]
  double length = 0, width = 0;        ///< of the cut along u and v [m]
  double off_plane = 0, fullness = 0;  ///< Unrolled::off and spread
  Yarns loose{};                       ///< share of length that the piece is larger by
};

/// The pieces of one case, cut out of `unrolled` skins: one of a full wrap, two of two sheets. Cloth that is glued taut is cut
/// to the length of the skin and its looseness; what hangs free beyond the glue is longer by what the hottest stage of the
/// case may shrink it.
std::vector<ClothPiece> cloth_pieces(const Case& c, const SeamStatement& seam);

double area_of(const Polygon& p);
/// Convex, in the order of rising angle, no point on a straight line.
Polygon convex_hull(Polygon points);

}  // namespace evenpull
