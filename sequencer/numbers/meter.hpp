// Progress over jobs that run side by side: each job owns a share of its span.
#pragma once

#include <atomic>
#include <functional>
#include <string>
#include <vector>

namespace evenpull {

class Meter {
 public:
  using Tell = std::function<void(double share_done, const std::string& what)>;
  explicit Meter(const Tell& tell) : tell_(tell) {}
  void span(double from, double to, int jobs, std::string what) {
    from_ = from, to_ = to, what_ = std::move(what);
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
    tell_(from_ + (to_ - from_) * (done_.empty() ? 0 : sum / static_cast<double>(done_.size())), what_);
  }
  const Tell& tell_;
  double from_ = 0, to_ = 1;
  std::string what_;
  std::vector<std::atomic<double>> done_;
};

}  // namespace evenpull
