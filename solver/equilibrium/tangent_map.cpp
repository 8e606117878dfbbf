#include "solver/equilibrium/tangent_map.hpp"

#include "solver/cloth/quads.hpp"

#include <algorithm>
#include <cassert>
#include <map>
#include <utility>

namespace evenpull::inline solver {

int position_of(const Sparse& a, int row, int column) {
  if (row < column) std::swap(row, column);
  const int* begin = a.innerIndexPtr() + a.outerIndexPtr()[column];
  const int* end = a.innerIndexPtr() + a.outerIndexPtr()[column + 1];
  const int* at = std::lower_bound(begin, end, row);
  assert(at != end && *at == row);
  return static_cast<int>(at - a.innerIndexPtr());
}

TangentMap::TangentMap(const Panel& p, const Unknowns& u, const Sparse& pattern) {
  std::map<std::pair<int, int>, int> known;
  for (const Quad& q : p.quads) {
    std::array<int, 6> here{};
    for (int k = 0; k < 6; ++k) {
      const int a = q.nodes[quad_pairs[k][0]], b = q.nodes[quad_pairs[k][1]];
      assert(a > b && "corners of a quad are numbered otherwise");
      const auto [at, fresh] = known.try_emplace({a, b}, pairs());
      if (fresh) pairs_.push_back(place(a, b, u, pattern));
      here[k] = at->second;
    }
    of_quads_.push_back(here);
  }
  for (int n = 0; n < static_cast<int>(p.nodes.size()); ++n) {
    own_.push_back(place(n, n, u, pattern));
    Columns c;
    c.count = u.nodes[n].count;
    for (int r = 0; r < 3; ++r)
      for (int k = 0; k < c.count; ++k) c.row[r][k] = u.nodes[n].column(r, k);
    columns_.push_back(c);
  }
}

TangentMap::Pair TangentMap::place(int first, int second, const Unknowns& u, const Sparse& pattern) {
  const NodeMap &a = u.nodes[first], &b = u.nodes[second];
  Pair p;
  p.first = first;
  p.second = second;
  p.at = static_cast<int>(positions_.size());
  p.free = a.is_free() && b.is_free();
  if (p.free) {
    for (int k = 0; k < 3; ++k)
      positions_.push_back(position_of(pattern, a.index[first == second ? k : 0], b.index[k]));
    return p;
  }
  for (int i = 0; i < a.count; ++i)
    for (int j = 0; j < (first == second ? i + 1 : b.count); ++j) {
      const int at = position_of(pattern, a.index[i], b.index[j]);
      // K_ab and its transpose K_ba meet on the diagonal where two nodes share an unknown.
      positions_.push_back(first != second && a.index[i] == b.index[j] ? ~at : at);
    }
  return p;
}

void TangentMap::add_free(const Pair& p, const NodeBlock& k, bool lower, double* values) const {
  for (int c = 0; c < 3; ++c) {
    const int top = lower ? c : 0;
    double* column = values + positions_[p.at + c] - top;
    for (int r = top; r < 3; ++r) column[r] += k[3 * r + c];
  }
}

void TangentMap::add_tied(const Pair& p, const NodeBlock& k, bool lower, double* values) const {
  const Columns &a = columns_[p.first], &b = columns_[p.second];
  double moved[3][most];  // K T_b
  for (int r = 0; r < 3; ++r)
    for (int j = 0; j < most; ++j)
      moved[r][j] = k[3 * r] * b.row[0][j] + k[3 * r + 1] * b.row[1][j] + k[3 * r + 2] * b.row[2][j];
  const int* at = positions_.data() + p.at;
  for (int i = 0; i < a.count; ++i) {
    double product[most];
    for (int j = 0; j < most; ++j)
      product[j] = a.row[0][i] * moved[0][j] + a.row[1][i] * moved[1][j] + a.row[2][i] * moved[2][j];
    const int end = lower ? i + 1 : b.count;
    for (int j = 0; j < end; ++j, ++at) {
      if (*at >= 0) values[*at] += product[j];
      else values[~*at] += 2 * product[j];
    }
  }
}

void TangentMap::add(const std::vector<NodeBlock>& blocks, std::vector<NodeBlock>& own, double* values) const {
  own.assign(own_.size(), NodeBlock{});
  for (std::size_t n = 0; n < pairs_.size(); ++n) {
    const Pair& p = pairs_[n];
    const NodeBlock& k = blocks[n];
    NodeBlock &a = own[p.first], &b = own[p.second];
    for (int r = 0; r < 3; ++r)
      for (int c = 0; c < 3; ++c) {
        a[3 * r + c] -= k[3 * r + c];
        b[3 * r + c] -= k[3 * c + r];
      }
    if (p.free) add_free(p, k, false, values);
    else add_tied(p, k, false, values);
  }
  for (std::size_t n = 0; n < own_.size(); ++n) {
    if (own_[n].free) add_free(own_[n], own[n], true, values);
    else add_tied(own_[n], own[n], true, values);
  }
}

}  // namespace evenpull::inline solver
