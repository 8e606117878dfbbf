#include "viz/run_list.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

constexpr double box_size = 13;
constexpr double box_step = 18;
constexpr double row_gap = 5, close_row_gap = 2;
constexpr std::size_t many_runs = 14;  ///< more than this: closer rows and no side word (the zones' T or B says it)
constexpr double head_height = 17;
constexpr double word_gap = 6;
constexpr double column_gap = 16;

const TextStyle bold{.size = 13, .bold = true};
const TextStyle plain{.size = 13};

}  // namespace

RunList::RunList(cairo_t* cr, const Panel& panel, const StageOrder& order) : cr_(cr), passes_(order.passes) {
  const bool close = order.runs.size() > many_runs;
  row_gap_ = close ? close_row_gap : row_gap;
  double zones = 0;
  for (const auto& run : order.runs) {
    lines_.push_back(
        {std::to_string(run.number), close ? "" : run_side(panel, run), run_zones(panel, run, order.mixed)});
    number_ = std::max(number_, measure_text(cr, lines_.back().number, bold).width);
    if (!close) side_ = std::max(side_, measure_text(cr, lines_.back().side, plain).width + word_gap);
    zones = std::max(zones, measure_text(cr, lines_.back().zones, bold).width);
  }
  boxes_ = box_step * static_cast<double>(passes_.size());
  column_ = boxes_ + number_ + side_ + zones + 2 * word_gap;
}

double RunList::width_of(int columns) const {
  return columns * (column_ + column_gap) - column_gap + 1;
}

int RunList::columns(double width) const {
  const int fit = static_cast<int>((width + column_gap) / (column_ + column_gap));
  return std::clamp(fit, 1, std::max(1, static_cast<int>(lines_.size())));
}

int RunList::lines_of(const Line& line, double width) const {
  const double room = width - (boxes_ + number_ + side_ + 2 * word_gap);
  TextStyle style = bold;
  style.width = std::max(room, 60.0);
  const double one = measure_text(cr_, "T", bold).height;
  return std::max(1, static_cast<int>(std::lround(measure_text(cr_, line.zones, style).height / one)));
}

double RunList::height(double width) const {
  const int n = columns(width);
  const double w = n == 1 ? width : column_;
  const double one = measure_text(cr_, "T", bold).height;
  const std::size_t rows = (lines_.size() + n - 1) / n;
  double tallest = 0;
  for (int c = 0; c < n; ++c) {
    double h = 0;
    for (std::size_t i = c * rows; i < std::min(lines_.size(), (c + 1) * rows); ++i)
      h += lines_of(lines_[i], w) * one + row_gap_;
    tallest = std::max(tallest, h);
  }
  return head_height + tallest;
}

void RunList::draw(const Box& box) const {
  const int n = columns(box.width);
  const double w = n == 1 ? box.width : column_;
  const double step = n == 1 ? w : (box.width - w) / (n - 1);
  const double one = measure_text(cr_, "T", bold).height;
  const std::size_t rows = (lines_.size() + n - 1) / n;
  for (int c = 0; c < n && c * rows < lines_.size(); ++c) {
    const double x = box.x + std::min(step, w + 3 * column_gap) * c;
    for (std::size_t p = 0; p < passes_.size(); ++p)
      draw_centred(cr_, {x + box_step * static_cast<double>(p) + box_size / 2, box.y + head_height / 2 - 1},
                   std::to_string(passes_[p]), {});
    double y = box.y + head_height;
    for (std::size_t i = c * rows; i < std::min(lines_.size(), (c + 1) * rows); ++i) {
      const bool left = lines_[i].zones != run_done;  // what is done needs no tick
      for (std::size_t p = 0; left && p < passes_.size(); ++p)
        draw_tick_box(cr_, {x + box_step * static_cast<double>(p), y + (one - box_size) / 2}, box_size);
      TextStyle right = plain;
      right.align = Align::right;
      const double words = x + boxes_;
      draw_text(cr_, {words + number_, y}, lines_[i].number, right);
      draw_text(cr_, {words + number_ + word_gap, y}, lines_[i].side, plain);
      const double zones_x = words + number_ + word_gap + side_;
      TextStyle zones = bold;
      if (n == 1) zones.width = std::max(60.0, x + w - zones_x);
      draw_text(cr_, {zones_x, y}, lines_[i].zones, zones);
      y += lines_of(lines_[i], w) * one + row_gap_;
    }
  }
}

}  // namespace evenpull::viz
