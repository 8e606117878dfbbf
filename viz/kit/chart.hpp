// A small chart of several curves over the steps: told apart by line kind and a letter at the end, not by colour alone.
#pragma once

#include "viz/kit/canvas.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

struct Chart {
  std::string title;                        ///< with the unit
  int decimals = 2;                         ///< of the numbers on the axis
  std::vector<std::vector<double>> curves;  ///< value after each step, from before the first; may differ in length
  std::size_t mark = 0;                     ///< a step to mark with an upright line; 0: none
  std::vector<double> limits{};             ///< what must not be passed, each a line across in its place
  std::string limit_words{};                ///< under the title
};

/// `letters`: one a curve.
void draw_chart(cairo_t* cr, const Box& box, const Chart& chart, const std::vector<std::string>& letters,
                double type_size);

/// A piece of the line that stands for a curve.
void draw_curve_sample(cairo_t* cr, Point from, double length, std::size_t curve);

}  // namespace evenpull::viz
