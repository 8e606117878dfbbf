#include "viz/sheet_frame.hpp"

namespace evenpull::viz {

const char* const airworthy_sentence = "This does not show that the part is airworthy";

namespace {

constexpr double margin = 36;        // half an inch: what office printers can reach
constexpr double head_height = 24;
constexpr double foot_height = 22;
constexpr double head_type = 14;

}  // namespace

std::vector<std::string> plan_marks(const Plan& plan) {
  std::vector<std::string> marks;
  if (plan.quick) marks.push_back("QUICK: coarse, no error bars");
  if (plan.replayed) marks.push_back("REPLAY of a chosen order");
  if (plan.the_case.invented) marks.push_back("INVENTED DEMO");
  return marks;
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
  // The case's title is the first to give way when the head line is full.
  const double room = x - (margin + w + 16);
  std::string name = plan.the_case.title;
  while (!name.empty() && measure_text(cr, name, {}).width > room) {
    do name.pop_back();
    while (!name.empty() && (static_cast<unsigned char>(name.back()) & 0xC0) == 0x80);
  }
  if (name.size() < plan.the_case.title.size() && !name.empty()) name.clear();
  draw_text(cr, {margin + w + 14, y + 3}, name);
  stroke_line(cr, {margin, y + head_height}, {right, y + head_height}, 1.2);
}

void Sheet::draw_foot(double y) {
  const double right = page_.width - margin;
  stroke_line(cr, {margin, y}, {right, y}, 1.2);
  draw_text(cr, {margin, y + 5}, airworthy_sentence, {.bold = true});
  draw_text(cr, {right, y + 5},
            "page " + std::to_string(number_) + " of " + std::to_string(pages_) + "   evenpull " + version_,
            {.align = Align::right});
}

}  // namespace evenpull::viz
