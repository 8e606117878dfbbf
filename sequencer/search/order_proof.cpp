#include "sequencer/search/order_proof.hpp"

#include <algorithm>
#include <queue>

namespace evenpull::inline sequencer {
namespace {

class DepthFirst {
 public:
  DepthFirst(const StepModel& m, const Prices& prices, long most_steps) : m_(m), prices_(prices), most_(most_steps) {}

  Found run(const std::vector<int>& known) {
    best_ = known.empty() ? Found{} : evaluate(m_, prices_, known);
    if (known.empty()) best_.cost = never;
    best_.model = m_.kind();
    steps_ = known.empty() ? 0 : static_cast<long>(known.size()) * m_.passes();
    open_cost_ = open_use_ = never;
    go(m_.begin());
    best_.exact = open_cost_ == never;
    best_.least_cost = std::min(best_.cost, open_cost_);
    best_.least_use = std::min({least_use_left_, open_use_, best_.tally.use});
    best_.steps = steps_;
    return best_;
  }

 private:
  void go(const PrefixPtr& p) {
    const int n = m_.size();
    if (static_cast<int>(order_.size()) == n) {
      const PrefixPtr end = walk(m_, p, order_);
      steps_ += static_cast<long>(n) * (m_.passes() - 1);
      least_use_left_ = std::min(least_use_left_, end->stands ? end->tally.use : never);
      const Found f = whole(m_, prices_, order_, *end);
      if (f.cost < best_.cost - same_cost) best_ = f;
      return;
    }
    std::vector<std::pair<double, int>> next;
    std::vector<PrefixPtr> made(n);
    for (int i : left_of(n, order_)) {
      made[i] = m_.step(p, i);
      ++steps_;
      if (made[i]->stands) next.emplace_back(least_of(m_, *made[i], prices_), i);
    }
    std::sort(next.begin(), next.end());
    for (const auto& [least, i] : next) {
      if (least >= best_.cost - same_cost) {  // no better, but its use may be lower
        least_use_left_ = std::min(least_use_left_, least_use_of(m_, *made[i]));
        continue;
      }
      if (steps_ >= most_) {
        open_cost_ = std::min(open_cost_, least);
        open_use_ = std::min(open_use_, least_use_of(m_, *made[i]));
        continue;
      }
      order_.push_back(i);
      go(made[i]);
      order_.pop_back();
      made[i].reset();
    }
  }

  const StepModel& m_;
  const Prices& prices_;
  long most_, steps_ = 0;
  std::vector<int> order_;
  Found best_;
  double open_cost_ = never, open_use_ = never, least_use_left_ = never;
};

// A prefix, and the last one before it, or itself, of which the state was kept.
struct Worked {
  std::vector<int> order;
  PrefixPtr kept;
};

PrefixPtr made_again(const StepModel& m, const Worked& w) {
  PrefixPtr p = w.kept;
  while (p->steps < static_cast<int>(w.order.size())) p = m.step(p, w.order[static_cast<std::size_t>(p->steps)]);
  return p;
}

}  // namespace

Found branch_and_bound(const StepModel& m, const Prices& prices, long most_steps, const std::vector<int>& known) {
  return DepthFirst(m, prices, most_steps).run(known);
}

Found bound_best_first(const StepModel& m, const Prices& prices, long most_steps, const Found& best,
                       const ParallelFor& parallel) {
  // Most are never gone into: each keeps the prefix it came from, which many share, and its own is made again if need be.
  // There are hundreds of thousands of them, so they are small.
  struct Open {
    double least = 0, least_use = 0;
    int number = 0;                      // ties: the one made first
    int last = -1;                       // worked after `from`
    std::shared_ptr<const Worked> from;  // none: nothing is worked yet
  };
  const auto later = [](const Open& a, const Open& b) {
    return a.least != b.least ? a.least > b.least : a.number > b.number;
  };
  std::priority_queue<Open, std::vector<Open>, decltype(later)> open(later);
  Found out = best;
  out.least_cost = best.cost;
  const int n = m.size();
  int number = 0;
  long steps = 0;
  double dropped_use = never;
  const PrefixPtr begin = m.begin();
  open.push({least_of(m, *begin, prices), least_use_of(m, *begin), number++, -1, nullptr});
  while (!open.empty() && open.top().least < out.cost - same_cost && steps < most_steps) {
    const Open now = open.top();
    open.pop();
    auto here = std::make_shared<Worked>();
    if (now.from) here->order = now.from->order, here->order.push_back(now.last), here->kept = now.from->kept;
    const PrefixPtr state = now.from ? made_again(m, *here) : begin;
    if (state->steps % m.kept_every() == 0) here->kept = state;
    const std::vector<int> left = left_of(n, here->order);
    std::vector<PrefixPtr> made(left.size());
    parallel(static_cast<int>(left.size()), [&](int k) { made[k] = m.step(state, left[k]); });
    steps += static_cast<long>(left.size());
    for (std::size_t k = 0; k < left.size(); ++k) {
      const PrefixPtr there = std::move(made[k]);
      if (!there->stands) continue;
      Open next{least_of(m, *there, prices), least_use_of(m, *there), number++, left[k], here};
      if (left.size() == 1) {
        std::vector<int> order = here->order;
        order.push_back(left[k]);
        const PrefixPtr end = walk(m, there, order);
        steps += static_cast<long>(n) * (m.passes() - 1);
        Found f = whole(m, prices, order, *end);
        dropped_use = std::min(dropped_use, end->stands ? end->tally.use : never);
        if (f.cost < out.cost - same_cost)
          out.order = f.order, out.tally = f.tally, out.cost = f.cost, out.stands = true;
        continue;
      }
      if (next.least >= out.cost - same_cost) dropped_use = std::min(dropped_use, next.least_use);
      else open.push(std::move(next));
    }
  }
  out.exact = open.empty() || open.top().least >= out.cost - same_cost;
  out.least_cost = out.exact ? out.cost : std::min(out.cost, open.top().least);
  out.least_use = dropped_use;
  for (; !open.empty(); open.pop()) out.least_use = std::min(out.least_use, open.top().least_use);
  out.least_use = std::min(out.least_use, out.tally.use);
  out.steps = best.steps + steps;
  return out;
}

}  // namespace evenpull::inline sequencer
