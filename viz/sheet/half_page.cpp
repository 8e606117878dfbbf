#include "viz/sheet/half_page.hpp"

#include "viz/sheet/sheet_flow.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {
namespace {

constexpr double name_type = 17, cell_type = 13, emphasis = 3;
constexpr double heading_with_first = 40;  // what of its part stands under a heading at least
constexpr double title_room = 60;          // height; a longer title is cut short
constexpr double between_columns = 4, between_rows = 3;

struct Cell {
  const std::string& text;
  TextStyle style;
  Point at;
};

Cell cell_of(const HalfPageColumn& c, const std::string& text, bool head, double x, double y, double width) {
  const bool large = c.emphasised && !head;
  const double size = head ? least_type : cell_type + (large ? emphasis : 0);
  // All on one base line.
  return {text,
          {.size = size, .bold = head || c.emphasised, .width = c.share * width - between_columns},
          {x, y + (large || head ? 0 : emphasis)}};
}

}  // namespace

Extent half_of(Paper paper) { return paper == Paper::a4 ? Extent{419.53, 595.28} : Extent{396, 612}; }

Extent whole_of(Paper paper) { return paper == Paper::a4 ? Extent{595.28, 841.89} : Extent{612, 792}; }

HalfPages::HalfPages(cairo_t* cr, HalfPageFrame frame, Extent page)
    : width(page.width - 2 * margin), cr_(cr), frame_(std::move(frame)), page_(page) {
  begin();
}

void HalfPages::keep(double height) {
  if (y_ + height <= bottom_ || y_ <= top_) return;
  end_page(cr_);
  begin();
}

double HalfPages::take(double height) {
  keep(height);
  const double at = y_;
  y_ += height;
  return at;
}

void HalfPages::begin() {
  y_ = margin;
  const Extent name = draw_text(cr_, {margin, y_}, frame_.name, {.size = name_type, .bold = true});
  const std::string version = "evenpull " + frame_.version;
  // Beside the name where both fit on the line, else under it.
  const bool beside = name.width + usual_gap + measure_text(cr_, version).width <= width;
  if (beside) draw_text(cr_, {margin + width, y_ + 7}, version, {.align = Align::right});
  y_ += name.height;
  if (!beside) y_ += draw_text(cr_, {margin, y_}, version).height;
  auto title = split_by_height(cr_, frame_.title, {.width = width}, title_room);
  if (title.size() > 1) title.front() += "…";
  y_ += draw_text(cr_, {margin, y_}, title.front(), {.width = width}).height + usual_gap;
  const double foot =
      page_.height - margin - measure_text(cr_, airworthy_sentence, {.bold = true, .width = width}).height;
  const double line = foot - usual_gap;
  draw_text(cr_, {margin, line - least_type - 6}, frame_.to_fill_in);
  stroke_line(cr_, {margin + 0.5 * width, line - 2}, {margin + width, line - 2}, 0.8);
  draw_text(cr_, {margin, foot}, std::string(airworthy_sentence) + ".", {.width = width});
  bottom_ = foot - 2 * least_type - 2 * usual_gap;
  top_ = y_;
}

void HalfPages::table(const std::vector<HalfPageColumn>& columns, const std::vector<std::vector<std::string>>& rows) {
  const auto each = [&](const std::vector<std::string>& cells, bool head, double y, bool measure_only) {
    double x = margin, height = 0;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const Cell c = cell_of(columns[i], cells[i], head, x, y, width);
      height = std::max(
          height, (measure_only ? measure_text(cr_, c.text, c.style) : draw_text(cr_, c.at, c.text, c.style)).height);
      x += columns[i].share * width;
    }
    return height;
  };
  std::vector<std::string> heads;
  for (const HalfPageColumn& c : columns) heads.push_back(c.head);
  // A head does not stand alone at the foot of a page.
  if (!rows.empty()) keep(each(heads, true, 0, true) + each(rows.front(), false, 0, true) + 2 * between_rows);
  each(heads, true, take(each(heads, true, 0, true) + between_rows), false);
  stroke_line(cr_, {margin, y_ - 1}, {margin + width, y_ - 1}, 1);
  for (const auto& row : rows) each(row, false, take(each(row, false, 0, true) + between_rows), false);
}

void HalfPages::warnings(const std::vector<std::string>& sentences) {
  const TextStyle style{.bold = true, .width = width};
  for (const auto& sentence : sentences)
    for (const auto& part : split_by_height(cr_, sentence, style, half_a_page())) {
      const double height = measure_text(cr_, part, style).height + between_rows;
      draw_text(cr_, {margin, take(height)}, part, style);
    }
}

void HalfPages::notes(const std::vector<std::string>& sentences) {
  for (const auto& sentence : sentences)
    for (const auto& part : split_by_height(cr_, sentence, {.width = width - usual_gap}, half_a_page())) {
      const double height = measure_items(cr_, {part}, width);
      draw_items(cr_, {margin, take(height)}, {part}, width);
    }
}

void HalfPages::steps(const std::vector<std::string>& sentences) {
  constexpr double number_room = 18;
  for (std::size_t i = 0; i < sentences.size(); ++i) {
    const TextStyle style{.width = width - number_room};
    const double height = measure_text(cr_, sentences[i], style).height + between_rows;
    const double at = take(height);
    draw_text(cr_, {margin, at}, fmt::format("{}.", i + 1), {.bold = true});
    draw_text(cr_, {margin + number_room, at}, sentences[i], style);
  }
}

void HalfPages::heading(const std::string& text) {
  const TextStyle style{.size = cell_type, .bold = true, .width = width};
  const double height = measure_text(cr_, text, style).height + between_rows;
  keep(height + heading_with_first);
  draw_text(cr_, {margin, take(height)}, text, style);
}

double HalfPages::height_of_notes(const std::vector<std::string>& sentences) const {
  return measure_items(cr_, sentences, width);
}

}  // namespace evenpull::viz
