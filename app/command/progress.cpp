#include "app/command/progress.hpp"

#include <boost/timer/progress_display.hpp>

#include <unistd.h>

#include <algorithm>
#include <iostream>
#include <mutex>

namespace evenpull {

struct Progress::Bar {
  static constexpr unsigned long whole = 1000;
  std::mutex one_at_a_time;
  boost::timer::progress_display display{whole, std::cerr};
};

Progress::Progress(bool wanted) {
  if (wanted && isatty(STDERR_FILENO)) bar_ = std::make_unique<Bar>();
}

Progress::~Progress() {
  if (bar_ && bar_->display.count() < Bar::whole) std::cerr << std::endl;
}

void Progress::show(double share) {
  if (!bar_) return;
  const std::lock_guard lock(bar_->one_at_a_time);
  const auto to = static_cast<unsigned long>(std::clamp(share, 0.0, 1.0) * Bar::whole);
  if (to > bar_->display.count()) bar_->display += to - bar_->display.count();
}

}  // namespace evenpull
