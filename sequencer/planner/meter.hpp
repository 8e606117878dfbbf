// Progress over jobs that run side by side: each job owns a share of its span.
#pragma once

#include "sequencer/planner/plan_part.hpp"

#include <atomic>
#include <functional>
#include <vector>

namespace evenpull::inline sequencer {

class Meter {
 public:
  explicit Meter(PlanProgress tell) : tell_(std::move(tell)) {}
  void span(double from, double to, int jobs, PlanPart part) {
    from_ = from, to_ = to, part_ = part;
    done_ = std::vector<std::atomic<double>>(jobs);
    tell();
  }
  std::function<void(int, int)> job(int i) {
    return [this, i](int done, int all) {
      done_[i] = static_cast<double>(done) / all;
      tell();
    };
  }

 private:
  void tell() const {
    if (!tell_) return;
    double sum = 0;
    for (const std::atomic<double>& d : done_) sum += d;
    tell_(from_ + (to_ - from_) * (done_.empty() ? 0 : sum / static_cast<double>(done_.size())), part_);
  }
  PlanProgress tell_;
  double from_ = 0, to_ = 1;
  PlanPart part_ = PlanPart::search;
  std::vector<std::atomic<double>> done_;
};

}  // namespace evenpull::inline sequencer
