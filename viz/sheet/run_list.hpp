// The list of runs with boxes to tick: one box for each pass, then the run's number, side and zones.
#pragma once

#include "viz/kit/text.hpp"
#include "viz/words/runs.hpp"

namespace evenpull::viz {

class RunList {
 public:
  RunList(cairo_t* cr, const Panel& panel, const StageOrder& order);
  /// Height when laid in as many columns as the width allows.
  double height(double width) const;
  void draw(const Box& box) const;
  /// Lines from `first` on, column by column, as many as find room in the box; gives the first that did not.
  std::size_t draw_part(const Box& box, std::size_t first) const;
  std::size_t lines() const { return lines_.size(); }
  /// True if a run goes on over several lines, which then carry one number.
  bool splits_runs() const { return splits_runs_; }
  /// Width that so many columns of whole lines take.
  double width_of(int columns) const;

 private:
  struct Line {
    std::string number, side, zones;
  };
  int columns(double width) const;
  void draw_head(double x, double y) const;
  /// Gives the height taken.
  double draw_line(const Line& line, Point at, double width, bool wrapped) const;
  int lines_of(const Line& line, double width) const;

  cairo_t* cr_;
  std::vector<Line> lines_;
  std::vector<int> passes_;
  bool splits_runs_ = false;
  double row_gap_ = 0, boxes_ = 0, number_ = 0, side_ = 0, column_ = 0;
};

}  // namespace evenpull::viz
