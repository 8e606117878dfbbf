#include "app/command/progress.hpp"

#include "viz/words/part_words.hpp"

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
constexpr double redraw_every = 0.2;  // s
constexpr double worth_a_line = 2;    // s

int columns_of_terminal() {
  winsize size{};
  return ioctl(STDERR_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0 ? size.ws_col : usual_columns;
}

}  // namespace

std::string progress_line(double share, const std::string& what, double seconds, int columns) {
  const double part = std::clamp(share, 0.0, 1.0);
  const int full = static_cast<int>(part * bar_length);
  std::string line =
      fmt::format("[{:#<{}}{:.<{}}] {:3.0f} %  {}", "", full, "", bar_length - full, std::floor(100 * part), what);
  if (const std::string left = viz::time_left(part, seconds); !left.empty()) line += ", " + left;
  if (static_cast<int>(line.size()) >= columns) line.resize(static_cast<std::size_t>(std::max(0, columns - 1)));
  return line;
}

struct Progress::Line {
  std::mutex one_at_a_time;
  Clock::time_point began = Clock::now();
  bool terminal = false;
  double drawn = -1;  // s since `began`
  double share = 0;
  std::string what;
};

Progress::Progress(bool wanted) {
  if (!wanted) return;
  line_ = std::make_unique<Line>();
  line_->terminal = isatty(STDERR_FILENO) != 0;
}

Progress::~Progress() {
  if (line_ && line_->terminal && line_->drawn >= 0) std::cerr << "\r\033[K" << std::flush;
}

void Progress::finish() {
  if (!line_ || !line_->terminal || line_->drawn < 0) return;
  const std::lock_guard lock(line_->one_at_a_time);
  const std::chrono::duration<double> past = Clock::now() - line_->began;
  std::cerr << '\r' << progress_line(1, viz::done_text(past.count()), past.count(), columns_of_terminal()) << "\033[K\n"
            << std::flush;
  line_->drawn = -1;
}

void Progress::show(double share, const std::string& what) {
  if (!line_) return;
  const std::lock_guard lock(line_->one_at_a_time);
  const std::chrono::duration<double> past = Clock::now() - line_->began;
  // Jobs side by side tell in any order: the bar never goes back.
  line_->share = std::max(line_->share, share);
  if (!line_->terminal) {
    if (what == line_->what || past.count() < worth_a_line) return;
    line_->what = what;
    std::cerr << fmt::format("{:3.0f} %  {}\n", std::floor(100 * line_->share), what) << std::flush;
    return;
  }
  if (what == line_->what && past.count() < line_->drawn + redraw_every) return;
  line_->what = what;
  line_->drawn = past.count();
  std::cerr << '\r' << progress_line(line_->share, what, past.count(), columns_of_terminal()) << "\033[K" << std::flush;
}

}  // namespace evenpull
