// Text, tables and lists that run on over as many pages as they need.
#pragma once

#include "viz/sheet/sheet_frame.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

struct TableColumn {
  std::string head;
  double share = 1;  ///< of the width
  Align align = Align::left;
};
struct TableRow {
  std::vector<std::string> cells;
  bool bold = false;
  bool rule_above = false;
};
struct TitledList {
  std::string title;
  std::vector<std::string> items;
};

class Flow {
 public:
  Flow(Sheet& sheet, std::string page_title) : sheet_(sheet), title_(std::move(page_title)) { new_page(); }
  void table(const std::string& title, const std::vector<TableColumn>& columns, const std::vector<TableRow>& rows);
  /// Lists one after the other in two columns of even height.
  void lists(const std::vector<TitledList>& lists);
  /// Lines to write on down to the foot of the page; nothing where hardly any would fit.
  void notebook(const std::string& title);

 private:
  void new_page() {
    room_ = sheet_.begin_page(title_);
    y_ = room_.y;
  }
  double left() const { return room_.bottom() - y_; }

  Sheet& sheet_;
  std::string title_;
  Box room_;
  double y_ = 0;
};

/// Height of a list of sentences and drawing it: a dash, then the sentence wrapped to the width.
double measure_items(cairo_t* cr, const std::vector<std::string>& items, double width);
double draw_items(cairo_t* cr, Point at, const std::vector<std::string>& items, double width);
/// The same in two columns of nearly even height; gives the height taken.
double draw_items_in_two(cairo_t* cr, Point at, const std::vector<std::string>& items, double width, bool measure_only);

}  // namespace evenpull::viz
