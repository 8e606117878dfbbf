#include "solver/numerics/elimination.hpp"

#include <Eigen/OrderingMethods>

#include <algorithm>
#include <numeric>

namespace evenpull::inline solver {

std::vector<int> inverse(const std::vector<int>& order) {
  std::vector<int> place(order.size());
  for (std::size_t k = 0; k < order.size(); ++k) place[order[k]] = static_cast<int>(k);
  return place;
}

std::vector<int> minimum_degree(const Sparse& lower) {
  const Sparse whole = lower.selfadjointView<Eigen::Lower>();
  Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> p;
  Eigen::AMDOrdering<int>()(whole, p);
  return {p.indices().data(), p.indices().data() + p.indices().size()};
}

Adjacency renumber(const Sparse& lower, const std::vector<int>& place) {
  const int n = static_cast<int>(lower.cols());
  Adjacency a;
  a.start.assign(n + 1, 0);
  const auto each = [&](auto&& use) {
    for (int j = 0; j < n; ++j)
      for (int t = lower.outerIndexPtr()[j]; t < lower.outerIndexPtr()[j + 1]; ++t) {
        const int p = place[lower.innerIndexPtr()[t]], q = place[j];
        if (p != q) use(std::min(p, q), std::max(p, q));
      }
  };
  each([&](int column, int) { ++a.start[column + 1]; });
  std::partial_sum(a.start.begin(), a.start.end(), a.start.begin());
  a.row.resize(a.start[n]);
  std::vector<int> at(a.start.begin(), a.start.end() - 1);
  each([&](int column, int row) { a.row[at[column]++] = row; });
  return a;
}

Adjacency transposed(const Adjacency& a) {
  const int n = static_cast<int>(a.start.size()) - 1;
  Adjacency t;
  t.start.assign(n + 1, 0);
  for (int i : a.row) ++t.start[i + 1];
  std::partial_sum(t.start.begin(), t.start.end(), t.start.begin());
  t.row.resize(a.row.size());
  std::vector<int> at(t.start.begin(), t.start.end() - 1);
  for (int j = 0; j < n; ++j)
    for (int k = a.start[j]; k < a.start[j + 1]; ++k) t.row[at[a.row[k]]++] = j;
  return t;
}

std::vector<int> elimination_tree(const Adjacency& left) {
  const int n = static_cast<int>(left.start.size()) - 1;
  std::vector<int> parent(n, -1), root(n, -1);
  for (int i = 0; i < n; ++i)
    for (int k = left.start[i]; k < left.start[i + 1]; ++k)
      for (int j = left.row[k]; j != -1 && j != i;) {
        const int next = root[j];
        root[j] = i;
        if (next == -1) parent[j] = i;
        j = next;
      }
  return parent;
}

// Every row walks up the tree from its own entries.
std::vector<int> column_counts(const Adjacency& left, const std::vector<int>& parent) {
  const int n = static_cast<int>(parent.size());
  std::vector<int> count(n, 1), seen(n, -1);
  for (int i = 0; i < n; ++i) {
    seen[i] = i;
    for (int k = left.start[i]; k < left.start[i + 1]; ++k)
      for (int j = left.row[k]; seen[j] != i; j = parent[j]) {
        seen[j] = i;
        ++count[j];
      }
  }
  return count;
}

}  // namespace evenpull::inline solver
