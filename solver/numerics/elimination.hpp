// In which order the unknowns of a sparse symmetric matrix are eliminated and what that fills in: approximate minimum
// degree, elimination tree, column counts (Liu, SIAM Journal on Matrix Analysis 11, 1990, from memory).
#pragma once

#include <Eigen/SparseCore>

#include <vector>

namespace evenpull::inline solver {

using Sparse = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;

/// Neighbours of each column, column compressed.
struct Adjacency {
  std::vector<int> start, row;
};

/// For each order[k] its k.
std::vector<int> inverse(const std::vector<int>& order);

/// The unknown to eliminate at each place; `lower` is the lower triangle of the matrix.
std::vector<int> minimum_degree(const Sparse& lower);

/// Strictly lower neighbours of each column where unknown i is numbered place[i].
Adjacency renumber(const Sparse& lower, const std::vector<int>& place);

/// By rows instead of columns, and back: for each row its columns to the left.
Adjacency transposed(const Adjacency& below);

/// Parent of each column in the elimination tree, -1 for roots; `left` by rows.
std::vector<int> elimination_tree(const Adjacency& left);

/// Entries of each column of the factor, diagonal included.
std::vector<int> column_counts(const Adjacency& left, const std::vector<int>& parent);

}  // namespace evenpull::inline solver
