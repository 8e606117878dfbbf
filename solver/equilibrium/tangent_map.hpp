// Where the stiffness of the cloth goes in the tangent. It is summed for pairs of nodes first, whatever holds them, and
// each pair is carried over to the unknowns of its nodes once: K += T_a^T K_ab T_b, T of a node = NodeMap::column.
#pragma once

#include "solver/equilibrium/unknowns.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/numerics/elimination.hpp"

#include <array>
#include <vector>

namespace evenpull::inline solver {

/// 3x3 stiffness between two nodes, row by row [N/m].
using NodeBlock = std::array<double, 9>;

class TangentMap {
 public:
  TangentMap() = default;
  /// `pattern`: lower triangle of the tangent, in which every needed place exists.
  TangentMap(const Panel& p, const Unknowns& u, const Sparse& pattern);

  /// Number of pairs of different nodes that share a quad.
  int pairs() const { return static_cast<int>(pairs_.size()); }
  /// The pair of each of quad_pairs, by quad.
  const std::vector<std::array<int, 6>>& of_quads() const { return of_quads_; }
  /// Adds the pairs' blocks and, for each node by itself, minus the sum of its blocks to the values of the tangent.
  /// `own` is workspace.
  void add(const std::vector<NodeBlock>& blocks, std::vector<NodeBlock>& own, double* values) const;

 private:
  static constexpr int most = 8;  ///< unknowns that move a node, as in NodeMap
  struct Pair {
    int first = 0, second = 0;  ///< nodes
    int at = 0;                 ///< in positions_: 3 (top of each column) where both are free, else every product
    bool free = false;
  };
  struct Columns {
    int count = 0;
    double row[3][most] = {};
  };
  void add_free(const Pair& p, const NodeBlock& k, bool lower, double* values) const;
  void add_tied(const Pair& p, const NodeBlock& k, bool lower, double* values) const;
  Pair place(int first, int second, const Unknowns& u, const Sparse& pattern);

  std::vector<Pair> pairs_, own_;
  std::vector<std::array<int, 6>> of_quads_;
  std::vector<Columns> columns_;
  std::vector<int> positions_;  ///< in the tangent's values; ~position where the product counts twice
};

/// Position of (row, column) or (column, row) in the values of a lower triangle.
int position_of(const Sparse& lower, int row, int column);

}  // namespace evenpull::inline solver
