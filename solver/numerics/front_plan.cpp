#include "solver/numerics/front_plan.hpp"

#include "solver/numerics/elimination.hpp"

#include <algorithm>
#include <numeric>

namespace evenpull::inline solver {
namespace {

constexpr int vector_width = 4;  // as in front_kernel.cpp
int padded(int n) { return (n + vector_width - 1) / vector_width * vector_width; }

// Merging a front into its parent stores zeros but saves handing over. Estimated cost of a front with k columns and m
// rows, in multiplications: its elimination, the handing over of what is left, and starting it at all. The two weights
// are of our own trials at 600 to 23,000 unknowns; a factor of two in either changes little.
constexpr double cost_of_handing = 2.5, cost_of_starting = 4000;
double cost(double k, double m) {
  const double left = m - k;
  return k * m * m - k * k * m + k * k * k / 3 + cost_of_handing * left * left + cost_of_starting;
}

// A front while fronts are being merged.
struct Group {
  int parent = -1, columns = 0, height = 0;
  std::vector<int> members;  // columns eliminated, in order
};

// Columns of one structure along a path of the tree become one group; `group_of` gets it for each column.
std::vector<Group> paths(const std::vector<int>& parent, const std::vector<int>& count, std::vector<int>& group_of) {
  const int n = static_cast<int>(parent.size());
  std::vector<int> continued(n, -1);  // the child that goes on in this column
  for (int j = 0; j < n; ++j)
    if (parent[j] >= 0 && count[parent[j]] == count[j] - 1 && continued[parent[j]] < 0) continued[parent[j]] = j;
  std::vector<Group> groups;
  group_of.assign(n, -1);
  for (int j = 0; j < n; ++j) {
    if (continued[j] < 0) {
      group_of[j] = static_cast<int>(groups.size());
      groups.push_back({});
      groups.back().height = count[j];
    } else {
      group_of[j] = group_of[continued[j]];
    }
    Group& g = groups[group_of[j]];
    g.members.push_back(j);
    ++g.columns;
    g.parent = parent[j];  // a column as yet; the last member's counts
  }
  for (Group& g : groups)
    if (g.parent >= 0) g.parent = group_of[g.parent];
  return groups;
}

// Children of each, ascending.
std::vector<std::vector<int>> children_of(const std::vector<Group>& groups) {
  std::vector<std::vector<int>> children(groups.size());
  for (std::size_t g = 0; g < groups.size(); ++g)
    if (groups[g].parent >= 0) children[groups[g].parent].push_back(static_cast<int>(g));
  return children;
}

// Post-order of the groups.
std::vector<int> post_order(const std::vector<Group>& groups) {
  const auto children = children_of(groups);
  std::vector<int> order, stack;
  for (std::size_t g = groups.size(); g-- > 0;)
    if (groups[g].parent < 0 && groups[g].columns > 0) stack.push_back(static_cast<int>(g));
  // Parents before children, last child first; reversed this is children first.
  while (!stack.empty()) {
    const int g = stack.back();
    stack.pop_back();
    order.push_back(g);
    for (int c : children[g])
      if (groups[c].columns > 0) stack.push_back(c);
  }
  std::reverse(order.begin(), order.end());
  return order;
}

// Merges groups into their parents where that is estimated to be quicker. A merged group is left without columns.
void merge(std::vector<Group>& groups) {
  auto children = children_of(groups);
  for (int p : post_order(groups)) {
    Group& up = groups[p];
    while (true) {
      double best = 0;
      int chosen = -1;
      for (int c : children[p]) {
        const Group& g = groups[c];
        const double gain = cost(g.columns, g.height) + cost(up.columns, up.height) -
                            cost(g.columns + up.columns, g.columns + up.height);
        if (gain > best) best = gain, chosen = c;
      }
      if (chosen < 0) break;
      Group& g = groups[chosen];
      up.columns += g.columns;
      up.height += g.columns;
      up.members.insert(up.members.begin(), g.members.begin(), g.members.end());
      auto& mine = children[p];
      mine.erase(std::find(mine.begin(), mine.end(), chosen));
      for (int c : children[chosen]) {
        groups[c].parent = p;
        mine.push_back(c);
      }
      g.columns = 0;
      g.members.clear();
    }
  }
}

// Where each front's square stands on two stacks used in turn by generations: children are read from the one while
// their parent is written on the other. Returns the size of both together.
std::size_t place_on_stacks(std::vector<Front>& fronts) {
  std::vector<int> turn(fronts.size(), 0);
  for (std::size_t f = fronts.size(); f-- > 0;)
    if (fronts[f].parent >= 0) turn[f] = 1 - turn[fronts[f].parent];
  std::size_t top[2] = {0, 0}, most[2] = {0, 0};
  for (std::size_t f = 0; f < fronts.size(); ++f) {
    Front& front = fronts[f];
    const int t = turn[f];
    front.stack = top[t];
    top[t] += static_cast<std::size_t>(front.handed) * front.handed;
    most[t] = std::max(most[t], top[t]);
    for (int c = front.first_child; c >= 0; c = fronts[c].sibling) top[1 - t] = std::min(top[1 - t], fronts[c].stack);
  }
  for (std::size_t f = 0; f < fronts.size(); ++f)
    if (turn[f] == 1) fronts[f].stack += most[0];
  return most[0] + most[1];
}

}  // namespace

FrontPlan::FrontPlan(const Sparse& lower) : size(static_cast<int>(lower.cols())) {
  const std::vector<int> ordering = minimum_degree(lower);
  const Adjacency left = transposed(renumber(lower, inverse(ordering)));
  const std::vector<int> tree = elimination_tree(left);
  std::vector<int> group_of;
  std::vector<Group> groups = paths(tree, column_counts(left, tree), group_of);
  merge(groups);

  std::vector<int> front_of(groups.size(), -1);
  for (int g : post_order(groups)) {
    front_of[g] = static_cast<int>(fronts.size());
    Front f;
    f.first = static_cast<int>(original.size());
    f.columns = groups[g].columns;
    fronts.push_back(f);
    for (int j : groups[g].members) original.push_back(ordering[j]);
  }
  for (std::size_t g = 0; g < groups.size(); ++g)
    if (front_of[g] >= 0 && groups[g].parent >= 0) fronts[front_of[g]].parent = front_of[groups[g].parent];
  for (int f = static_cast<int>(fronts.size()) - 1; f >= 0; --f)
    if (const int p = fronts[f].parent; p >= 0) {
      fronts[f].sibling = fronts[p].first_child;
      fronts[p].first_child = f;
    }

  const std::vector<int> place = inverse(original);
  const Adjacency below = renumber(lower, place);
  std::vector<int> seen(size, -1), local(size, 0), owner(size, 0);
  for (int f = 0; f < static_cast<int>(fronts.size()); ++f) {
    Front& front = fronts[f];
    front.rows = static_cast<int>(rows.size());
    const int end = front.first + front.columns;
    const auto take = [&](int row) {
      if (row < end || seen[row] == f) return;
      seen[row] = f;
      rows.push_back(row);
    };
    for (int j = front.first; j < end; ++j) {
      owner[j] = f;
      for (int k = below.start[j]; k < below.start[j + 1]; ++k) take(below.row[k]);
    }
    for (int c = front.first_child; c >= 0; c = fronts[c].sibling)
      for (int k = 0; k < fronts[c].below; ++k) take(rows[fronts[c].rows + k]);
    front.below = static_cast<int>(rows.size()) - front.rows;
    std::sort(rows.begin() + front.rows, rows.end());
    front.handed = padded(front.below);
    front.height = front.columns + front.handed;
    front.panel = factor_size;
    factor_size += static_cast<std::size_t>(front.height) * front.columns;
    tallest = std::max(tallest, front.height);
  }
  stack_size = place_on_stacks(fronts);

  // Place of every row within the front that it is met in, for children and for the matrix's own entries.
  in_parent.resize(rows.size());
  run_end.resize(rows.size());
  std::vector<std::vector<std::pair<int, int>>> entry(fronts.size());
  std::vector<int> starts(size + 1, 0), mine(lower.nonZeros());
  for (int j = 0; j < size; ++j)
    for (int t = lower.outerIndexPtr()[j]; t < lower.outerIndexPtr()[j + 1]; ++t)
      ++starts[owner[std::min(place[j], place[lower.innerIndexPtr()[t]])] + 1];
  std::partial_sum(starts.begin(), starts.end(), starts.begin());
  std::vector<int> column(lower.nonZeros()), row(lower.nonZeros());
  from.resize(lower.nonZeros());
  to.resize(lower.nonZeros());
  std::vector<int> at(starts.begin(), starts.end() - 1);
  for (int j = 0; j < size; ++j)
    for (int t = lower.outerIndexPtr()[j]; t < lower.outerIndexPtr()[j + 1]; ++t) {
      const int p = place[j], q = place[lower.innerIndexPtr()[t]];
      const int k = at[owner[std::min(p, q)]]++;
      from[k] = t;
      column[k] = std::min(p, q);
      row[k] = std::max(p, q);
    }
  for (int f = 0; f < static_cast<int>(fronts.size()); ++f) {
    Front& front = fronts[f];
    for (int k = 0; k < front.columns; ++k) local[front.first + k] = k;
    for (int k = 0; k < front.below; ++k) local[rows[front.rows + k]] = front.columns + k;
    for (int c = front.first_child; c >= 0; c = fronts[c].sibling)
      for (int k = fronts[c].rows; k < fronts[c].rows + fronts[c].below; ++k) in_parent[k] = local[rows[k]];
    for (int c = front.first_child; c >= 0; c = fronts[c].sibling)
      for (int k = fronts[c].below - 1, at_row = fronts[c].rows + k; k >= 0; --k, --at_row)
        run_end[at_row] =
            k + 1 < fronts[c].below && in_parent[at_row + 1] == in_parent[at_row] + 1 ? run_end[at_row + 1] : k + 1;
    front.entries = starts[f];
    for (int k = starts[f]; k < starts[f + 1]; ++k) to[k] = (column[k] - front.first) * front.height + local[row[k]];
  }
  fronts.push_back({});
  fronts.back().entries = starts[fronts.size() - 1];
}

}  // namespace evenpull::inline solver
