// Pieces on the bolt: convex polygons in a strip of a given width, as short as a search finds it.
#pragma once

#include "shop/cloth_piece.hpp"

#include <optional>

namespace evenpull {

struct NestPiece {
  Polygon shape;  ///< convex; x along the bolt, y across
  int kind = 0;   ///< pieces of one kind are alike
};

struct NestPlace {
  int piece = 0;
  double turned = 0;       ///< about the origin of its shape, before it is moved [rad]
  PlanePoint moved{0, 0};  ///< then
  Polygon shape;           ///< where it lies: 0 <= y <= width, x from 0
};

struct Nest {
  std::vector<NestPlace> places;  ///< one a piece, in the order of the pieces
  double length = 0;              ///< of the bolt [m]
  double least = 0;               ///< no nest is shorter: by area, or by a piece
  bool all_tried = false;         ///< of the orders and turns that were to be tried
};

/// Each piece may be turned by 180 degrees, by 90 and 270 too where the warp may lie either way. Pieces are put one by one
/// where they lie furthest left, then lowest; all orders and turns are tried until `budget` placings are used up (eight
/// pieces or so), those that cannot beat the best so far are left out. None where a piece does not fit the width.
std::optional<Nest> nest(const std::vector<NestPiece>& pieces, double width, bool either_way, int budget = 60000);

/// Width that the strip must have for a piece to fit in one of its turns [m].
double width_needed(const NestPiece& piece, bool either_way);

}  // namespace evenpull
