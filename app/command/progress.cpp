#include "app/command/progress.hpp"

#include <fmt/format.h>

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <mutex>

namespace evenpull {
namespace {

using Clock = std::chrono::steady_clock;

// Boost's and the other progress bars packaged for C++ cannot say what is being done, so the line is drawn here.
constexpr int bar_length = 24, usual_columns = 80;
constexpr double redraw_every = 0.2;    // s
constexpr double too_early = 0.02;      // of the whole: nothing is told of the time yet
constexpr double told_in_minutes = 90;  // s
constexpr double seconds_step = 5, minutes_step = 0.5;

int columns_of_terminal() {
  winsize size{};
  return ioctl(STDERR_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0 ? size.ws_col : usual_columns;
}

}  // namespace

std::string time_left(double share, double seconds) {
  if (share < too_early || share >= 1) return {};
  const double left = seconds * (1 - share) / share;
  if (left < seconds_step) return "a few seconds left";
  if (left < told_in_minutes) return fmt::format("about {:.0f} s left", std::ceil(left / seconds_step) * seconds_step);
  return fmt::format("about {:g} min left", std::ceil(left / 60 / minutes_step) * minutes_step);
}

std::string progress_line(double share, const std::string& what, double seconds, int columns) {
  const double part = std::clamp(share, 0.0, 1.0);
  const int full = static_cast<int>(part * bar_length);
  std::string line =
      fmt::format("[{:#<{}}{:.<{}}] {:3.0f} %  {}", "", full, "", bar_length - full, std::floor(100 * part), what);
  if (const std::string left = time_left(part, seconds); !left.empty()) line += ", " + left;
  if (static_cast<int>(line.size()) >= columns) line.resize(static_cast<std::size_t>(std::max(0, columns - 1)));
  return line;
}

struct Progress::Line {
  std::mutex one_at_a_time;
  Clock::time_point began = Clock::now();
  double drawn = -1;  // s since `began`
  double share = 0;
  std::string what;
};

Progress::Progress(bool wanted) {
  if (wanted && isatty(STDERR_FILENO)) line_ = std::make_unique<Line>();
}

Progress::~Progress() {
  if (line_ && line_->drawn >= 0) std::cerr << "\r\033[K" << std::flush;
}

void Progress::show(double share, const std::string& what) {
  if (!line_) return;
  const std::lock_guard lock(line_->one_at_a_time);
  const std::chrono::duration<double> past = Clock::now() - line_->began;
  // Jobs side by side tell in any order: the bar never goes back.
  line_->share = std::max(line_->share, share);
  if (what == line_->what && past.count() < line_->drawn + redraw_every) return;
  line_->what = what;
  line_->drawn = past.count();
  std::cerr << '\r' << progress_line(line_->share, what, past.count(), columns_of_terminal()) << "\033[K" << std::flush;
}

}  // namespace evenpull
