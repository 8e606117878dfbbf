#include "viz/sheet/run_list.hpp"

#include <algorithm>
#include <cmath>
#include <type_traits>

namespace evenpull::viz {

namespace {

constexpr double box_size = 13;
constexpr double box_step = 18;
constexpr double row_gap = 5, close_row_gap = 2;
constexpr std::size_t most_zones_a_line =
    100;                               ///< a longer run goes on in lines of its own, so that any fits on a page
constexpr std::size_t many_runs = 14;  ///< more than this: closer rows and no side word (the zones' T or B says it)
constexpr double head_height = 17;
constexpr double word_gap = 6;
constexpr double column_gap = 16;

/// The zones of a run from `first` on, as many as stand in a line.
Run part_of(const Run& run, std::size_t first) {
  const std::size_t end = std::min(run.zones.size(), first + most_zones_a_line);
  const auto cut = [&](const auto& all) {
    using List = std::decay_t<decltype(all)>;
    return all.empty()
               ? List{}
               : List(all.begin() + static_cast<std::ptrdiff_t>(first), all.begin() + static_cast<std::ptrdiff_t>(end));
  };
  return {run.number, cut(run.zones), cut(run.places), cut(run.doses), cut(run.done)};
}

const TextStyle bold{.size = 13, .bold = true};
const TextStyle plain{.size = 13};

}  // namespace

RunList::RunList(cairo_t* cr, const Panel& panel, const StageOrder& order) : cr_(cr), passes_(order.passes) {
  const bool close = order.runs.size() > many_runs;
  row_gap_ = close ? close_row_gap : row_gap;
  double zones = 0;
  std::vector<Run> runs;
  for (const auto& run : order.runs)
    for (std::size_t first = 0; first == 0 || first < run.zones.size(); first += most_zones_a_line)
      runs.push_back(part_of(run, first));
  splits_runs_ = runs.size() > order.runs.size();
  for (const auto& run : runs) {
    lines_.push_back(
        {std::to_string(run.number), close ? "" : run_side(panel, run), run_zones(panel, run, order.mixed)});
    number_ = std::max(number_, measure_text(cr, lines_.back().number, bold).width);
    if (!close) side_ = std::max(side_, measure_text(cr, lines_.back().side, plain).width + word_gap);
    zones = std::max(zones, measure_text(cr, lines_.back().zones, bold).width);
  }
  boxes_ = box_step * static_cast<double>(passes_.size());
  column_ = boxes_ + number_ + side_ + zones + 2 * word_gap;
}

double RunList::width_of(int columns) const { return columns * (column_ + column_gap) - column_gap + 1; }

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

void RunList::draw_head(double x, double y) const {
  for (std::size_t p = 0; p < passes_.size(); ++p)
    draw_centred(cr_, {x + box_step * static_cast<double>(p) + box_size / 2, y + head_height / 2 - 1},
                 std::to_string(passes_[p]), {});
}

double RunList::draw_line(const Line& line, Point at, double width, bool wrapped) const {
  const double one = measure_text(cr_, "T", bold).height;
  const bool left = line.zones != run_done;  // what is done needs no tick
  for (std::size_t p = 0; left && p < passes_.size(); ++p)
    draw_tick_box(cr_, {at.x + box_step * static_cast<double>(p), at.y + (one - box_size) / 2}, box_size);
  TextStyle right = plain;
  right.align = Align::right;
  const double words = at.x + boxes_;
  draw_text(cr_, {words + number_, at.y}, line.number, right);
  draw_text(cr_, {words + number_ + word_gap, at.y}, line.side, plain);
  const double zones_x = words + number_ + word_gap + side_;
  TextStyle zones = bold;
  if (wrapped) zones.width = std::max(60.0, at.x + width - zones_x);
  draw_text(cr_, {zones_x, at.y}, line.zones, zones);
  return lines_of(line, width) * one + row_gap_;
}

void RunList::draw(const Box& box) const {
  const int n = columns(box.width);
  const double w = n == 1 ? box.width : column_;
  const double step = n == 1 ? w : (box.width - w) / (n - 1);
  const std::size_t rows = (lines_.size() + n - 1) / n;
  for (int c = 0; c < n && c * rows < lines_.size(); ++c) {
    const double x = box.x + std::min(step, w + 3 * column_gap) * c;
    draw_head(x, box.y);
    double y = box.y + head_height;
    for (std::size_t i = c * rows; i < std::min(lines_.size(), (c + 1) * rows); ++i)
      y += draw_line(lines_[i], {x, y}, w, n == 1);
  }
}

std::size_t RunList::draw_part(const Box& box, std::size_t first) const {
  const int n = columns(box.width);
  const double w = n == 1 ? box.width : column_;
  const double one = measure_text(cr_, "T", bold).height;
  for (int c = 0; c < n && first < lines_.size(); ++c) {
    const double x = box.x + (w + column_gap) * c;
    draw_head(x, box.y);
    double y = box.y + head_height;
    for (bool none = true; first < lines_.size(); ++first, none = false) {
      if (!none && y + lines_of(lines_[first], w) * one > box.bottom()) break;
      y += draw_line(lines_[first], {x, y}, w, n == 1);
    }
  }
  return first;
}

}  // namespace evenpull::viz
