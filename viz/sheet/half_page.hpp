// Half a sheet of letter or of A4 (A5): what the commands of the bench print. Head, foot, and what most of them need between;
// runs on over further halves where one is too small.
#pragma once

#include "viz/kit/text.hpp"
#include "viz/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Points.
Extent half_of(Paper paper);
Extent whole_of(Paper paper);  ///< upright

struct HalfPageFrame {
  std::string name;        ///< of the command's work: "Iron check"
  std::string title;       ///< of the case; cut short where it is long
  std::string version;     ///< of the program
  std::string to_fill_in;  ///< before the line at the foot: "read by, date, thermometer"
};

struct HalfPageColumn {
  std::string head;
  double share = 1;         ///< of the width
  bool emphasised = false;  ///< bold and larger: what is read at arm's length
};

class HalfPages {
 public:
  HalfPages(cairo_t* cr, HalfPageFrame frame, Extent page);

  /// Makes room for that much, on a new page if need be; gives where it begins.
  double take(double height);
  /// On a new page unless that much is left on this one.
  void keep(double height);
  double left() const { return bottom_ - y_; }
  /// Half of what a page holds: a longer piece of text is cut between lines.
  double half_a_page() const { return (bottom_ - margin) / 2; }

  /// Rows keep together; a cell wraps within its column.
  void table(const std::vector<HalfPageColumn>& columns, const std::vector<std::vector<std::string>>& rows);
  /// Bold sentences; a list with dashes.
  void warnings(const std::vector<std::string>& sentences);
  void notes(const std::vector<std::string>& sentences);
  /// Numbered from 1.
  void steps(const std::vector<std::string>& sentences);
  void heading(const std::string& text);
  void gap(double by = usual_gap) { y_ += by; }
  double height_of_notes(const std::vector<std::string>& sentences) const;

  static constexpr double margin = 30, usual_gap = 8;  // points
  const double width;

 private:
  void begin();

  cairo_t* cr_;
  HalfPageFrame frame_;
  Extent page_;
  double top_ = 0, y_ = 0, bottom_ = 0;
};

}  // namespace evenpull::viz
