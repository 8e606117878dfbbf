// Progress over jobs that run side by side: each job owns a share of its part, each part one of the whole.
#pragma once

#include "sequencer/plan/accuracy.hpp"
#include "sequencer/planner/plan_part.hpp"

#include <atomic>
#include <cstddef>
#include <functional>
#include <utility>
#include <vector>

namespace evenpull::inline sequencer {

/// From where to where a part goes, as shares of the whole.
struct Span {
  double from = 0, to = 1;
};
/// Of the time of a whole plan: means over the demos (bench/RECORD.md, A whole plan by its parts).
Span span_of(PlanPart part, Accuracy accuracy);

class Meter {
 public:
  Meter(PlanProgress tell, Accuracy accuracy) : tell_(std::move(tell)), accuracy_(accuracy) {}

  /// Jobs of one length, of the given stretch of the part.
  void begin(PlanPart part, int jobs, Span stretch = {}) { begin(part, std::vector<double>(jobs, 1.0), stretch); }
  /// Jobs of unlike length, by what each costs in any unit.
  void begin(PlanPart part, std::vector<double> costs, Span stretch = {}) {
    if (another_) part = PlanPart::another_order;
    const Span whole = span_of(part, accuracy_);
    const double length = whole.to - whole.from;
    span_ = {whole.from + stretch.from * length, whole.from + stretch.to * length};
    part_ = part;
    costs_ = std::move(costs);
    done_ = std::vector<std::atomic<double>>(costs_.size());
    tell();
  }
  /// All that begins from here on belongs to another order, tried in the place of the first.
  void on_another_order() { another_ = true; }
  void back_to_the_plan() { another_ = false; }
  std::function<void(int, int)> job(int i) {
    return [this, i](int done, int all) {
      done_[i] = static_cast<double>(done) / all;
      tell();
    };
  }

 private:
  void tell() const {
    if (!tell_) return;
    double sum = 0, all = 0;
    for (std::size_t i = 0; i < done_.size(); ++i) sum += costs_[i] * done_[i], all += costs_[i];
    tell_(span_.from + (span_.to - span_.from) * (all > 0 ? sum / all : 0), part_);
  }
  PlanProgress tell_;
  Accuracy accuracy_;
  Span span_;
  PlanPart part_ = PlanPart::passes;
  bool another_ = false;
  std::vector<double> costs_;
  std::vector<std::atomic<double>> done_;
};

}  // namespace evenpull::inline sequencer
