// A drawing at its true size, as text: SVG and DXF (release 12, ASCII). Millimetres; x to the right, y down.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace evenpull::viz {

struct TrueLine {
  std::string layer;                                ///< capital letters and strokes: release 12 knows no others
  std::vector<std::pair<double, double>> points{};  ///< mm
  bool closed = false;
};

struct TrueLabel {
  std::string layer;
  double x = 0, y = 0;  ///< of the left end of its base line [mm]
  double height = 0;    ///< of capital letters [mm]
  std::string text;
};

struct TrueDrawing {
  std::string title;
  double width = 0, height = 0;  ///< mm
  std::vector<TrueLine> lines;
  std::vector<TrueLabel> labels;
};

/// Length of the line by which a print is checked [mm].
inline constexpr double check_bar = 100;
inline constexpr const char* check_bar_layer = "CHECK-BAR";

/// A bar of `check_bar` with ticks at its ends, its left end there.
void add_check_bar(TrueDrawing& d, double x, double y, const std::string& words);

/// One unit is a millimetre in both; a layer is a class of its lines in SVG.
std::string svg_of(const TrueDrawing& d);
std::string dxf_of(const TrueDrawing& d);

}  // namespace evenpull::viz
