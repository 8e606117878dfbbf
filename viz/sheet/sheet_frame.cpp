#include "viz/sheet/sheet_frame.hpp"

namespace evenpull::viz {

const char* const airworthy_sentence = "This does not show that the part is airworthy";

namespace {

constexpr double margin = 36;  // half an inch: what office printers can reach
constexpr double head_height = 24;
constexpr double foot_height = 22;
constexpr double head_type = 14;
constexpr double least_title = 80;  // room for a dozen letters

}  // namespace

// ISO 216 and ANSI sizes in points.
Extent paper_size(Paper paper) { return paper == Paper::a4 ? Extent{841.89, 595.276} : Extent{792, 612}; }

std::vector<std::string> plan_marks(const Plan& plan) {
  std::vector<std::string> marks;
  if (plan.quick()) marks.push_back("QUICK: no error bars");
  if (plan.replayed) marks.push_back("REPLAY");
  if (plan.the_case.invented) marks.push_back("INVENTED DEMO");
  return marks;
}

std::string title_and_marks(cairo_t* cr, const Plan& plan, const std::string& before, double type, double room) {
  std::string marks;
  for (const auto& mark : plan_marks(plan)) marks += "  ·  " + mark;
  const TextStyle style{.size = type};
  return before + cut_to_width(cr, plan.the_case.title, style, room - measure_text(cr, before + marks, style).width) +
         marks;
}

Box Sheet::begin_page(const std::string& title) {
  if (number_ > 0) end_page(cr);
  ++number_;
  draw_head(title, margin);
  const double foot = page_.height - margin - foot_height;
  draw_foot(foot);
  const double top = margin + head_height + 8;
  return {margin, top, page_.width - 2 * margin, foot - 6 - top};
}

void Sheet::finish() {
  if (number_ > 0) end_page(cr);
}

void Sheet::draw_head(const std::string& title, double y) {
  const double right = page_.width - margin;
  double x = right;
  for (const auto& mark : plan_marks(plan)) {
    const TextStyle style{.bold = true};
    const Extent size = measure_text(cr, mark, style);
    stroke_box(cr, {x - size.width - 8, y, size.width + 8, head_height - 4}, 1.6);
    draw_text(cr, {x - size.width - 4, y + (head_height - 4 - size.height) / 2}, mark, style);
    x -= size.width + 14;
  }
  const TextStyle bold{.size = head_type, .bold = true};
  const double w = measure_text(cr, title, bold).width;
  draw_text(cr, {margin, y + 1}, title, bold);
  // The foot line says it too, so it is whole here or not at all.
  const double room = x - (margin + w + 20);
  const std::string words = room < least_title ? "" : cut_to_width(cr, plan.the_case.title, {}, room);
  if (words == plan.the_case.title) draw_text(cr, {margin + w + 14, y + 3}, words);
  stroke_line(cr, {margin, y + head_height}, {right, y + head_height}, 1.2);
}

void Sheet::draw_foot(double y) {
  const double right = page_.width - margin;
  stroke_line(cr, {margin, y}, {right, y}, 1.2);
  const double sentence = draw_text(cr, {margin, y + 5}, airworthy_sentence, {.bold = true}).width;
  const Extent page =
      draw_text(cr, {right, y + 5},
                "page " + std::to_string(number_) + " of " + std::to_string(pages_) + "   evenpull " + version_,
                {.align = Align::right});
  // A loose sheet must say what it belongs to even where the head line had no room.
  const double left = margin + sentence + 16;
  const double room = right - page.width - 16 - left;
  // Nothing rather than hardly a word.
  if (room >= least_title) draw_text(cr, {left, y + 5}, cut_to_width(cr, plan.the_case.title, {}, room));
}

}  // namespace evenpull::viz
