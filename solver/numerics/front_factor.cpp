#include "solver/numerics/front_factor.hpp"

#include "solver/numerics/front_kernel.hpp"

#include <algorithm>

namespace evenpull::inline solver {

FrontFactor::FrontFactor(std::shared_ptr<const FrontPlan> plan)
    : plan_(std::move(plan)),
      factor_(plan_->factor_size),
      stack_(plan_->stack_size),
      work_(plan_->tallest),
      ordered_(plan_->size) {}

void FrontFactor::take_entries(int f, const double* values) {
  const FrontPlan& plan = *plan_;
  const Front& front = plan.fronts[f];
  double* panel = factor_.data() + front.panel;
  std::fill_n(panel, static_cast<std::size_t>(front.height) * front.columns, 0.0);
  for (int k = front.entries; k < plan.fronts[f + 1].entries; ++k) panel[plan.to[k]] += values[plan.from[k]];
}

// Adds what the children hand on: to the front's own columns, or to what it hands on itself.
void FrontFactor::take_children(int f, bool of_panel) {
  const FrontPlan& plan = *plan_;
  const Front& front = plan.fronts[f];
  for (int c = front.first_child; c >= 0; c = plan.fronts[c].sibling) {
    const Front& child = plan.fronts[c];
    const int* place = plan.in_parent.data() + child.rows;
    const int* run_end = plan.run_end.data() + child.rows;
    const double* square = stack_.data() + child.stack;
    const int own = static_cast<int>(std::lower_bound(place, place + child.below, front.columns) - place);
    const int begin = of_panel ? 0 : own, end = of_panel ? own : child.below;
    for (int j = begin; j < end; ++j) {
      const double* column = square + static_cast<std::size_t>(j) * child.handed;
      double* target = of_panel ? factor_.data() + front.panel + static_cast<std::size_t>(place[j]) * front.height
                                : stack_.data() + front.stack +
                                      static_cast<std::size_t>(place[j] - front.columns) * front.handed - front.columns;
      // Rows that follow each other here mostly do so in the parent.
      for (int i = j; i < child.below;) {
        const int end_of_run = run_end[i];
        double* shifted = target + (place[i] - i);
        for (; i < end_of_run; ++i) shifted[i] += column[i];
      }
    }
  }
}

bool FrontFactor::factorise(const double* values) {
  const FrontPlan& plan = *plan_;
  for (int f = 0; f + 1 < static_cast<int>(plan.fronts.size()); ++f) {
    const Front& front = plan.fronts[f];
    take_entries(f, values);
    take_children(f, true);
    double* panel = factor_.data() + front.panel;
    if (!eliminate(panel, front.height, front.columns)) return false;
    hand_on(stack_.data() + front.stack, panel, front.height, front.columns);
    take_children(f, false);
  }
  return true;
}

void FrontFactor::solve(const double* b, double* x) {
  const FrontPlan& plan = *plan_;
  double* y = ordered_.data();
  for (int k = 0; k < plan.size; ++k) y[k] = b[plan.original[k]];
  const int count = static_cast<int>(plan.fronts.size()) - 1;
  for (int f = 0; f < count; ++f) {
    const Front& front = plan.fronts[f];
    std::copy_n(y + front.first, front.columns, work_.data());
    std::fill(work_.data() + front.columns, work_.data() + front.height, 0.0);
    solve_down(factor_.data() + front.panel, front.height, front.columns, work_.data());
    std::copy_n(work_.data(), front.columns, y + front.first);
    for (int k = 0; k < front.below; ++k) y[plan.rows[front.rows + k]] += work_[front.columns + k];
  }
  for (int f = count - 1; f >= 0; --f) {
    const Front& front = plan.fronts[f];
    std::copy_n(y + front.first, front.columns, work_.data());
    for (int k = 0; k < front.below; ++k) work_[front.columns + k] = y[plan.rows[front.rows + k]];
    std::fill(work_.data() + front.columns + front.below, work_.data() + front.height, 0.0);
    solve_up(factor_.data() + front.panel, front.height, front.columns, work_.data());
    std::copy_n(work_.data(), front.columns, y + front.first);
  }
  for (int k = 0; k < plan.size; ++k) x[plan.original[k]] = y[k];
}

}  // namespace evenpull::inline solver
