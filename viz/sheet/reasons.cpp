#include "viz/sheet/reasons.hpp"

#include "viz/words/advice_words.hpp"
#include "viz/words/sure_words.hpp"
#include "viz/words/window_words.hpp"

#include <algorithm>

namespace evenpull::viz {

std::vector<Reason> reasons_of(const Plan& plan) {
  std::vector<Reason> reasons{{because_text(plan)}};
  if (auto sure = sure_words(plan); !sure.empty()) reasons.push_back({std::move(sure), true});
  for (auto& read : read_sentences(plan)) reasons.push_back({std::move(read), true});
  if (auto opens = opens_sentence(plan); !opens.empty()) reasons.push_back({std::move(opens)});
  for (auto& advice : advice_sentences(plan)) reasons.push_back({std::move(advice), true});
  return reasons;
}

double draw_reasons(cairo_t* cr, const std::vector<Reason>& reasons, const Box& box, std::vector<std::string>& left) {
  constexpr double between = 6;
  const TextStyle small{.size = reason_type, .width = box.width};
  double y = box.y;
  y += draw_text(cr, {box.x, y}, "Why", {.size = reason_heading_type, .bold = true}).height + 2;
  const double line = measure_text(cr, "T", small).height + between, bottom = box.bottom() - line;
  for (const auto& reason : reasons) {
    TextStyle style = small;
    style.bold = reason.bold;
    if (left.empty() &&
        y + measure_text(cr, reason.text, style).height > box.bottom() - (&reason == &reasons.back() ? 0 : line)) {
      // As much of the first that is too long as finds room, one line kept for the words that there is more.
      auto parts = split_by_height(cr, reason.text, style, bottom - y);
      if (bottom - y >= line) {
        y += draw_text(cr, {box.x, y}, parts.front(), style).height + between;
        parts.erase(parts.begin());
      }
      y += draw_text(cr, {box.x, y}, "More on the next page.", small).height + between;
      std::string rest;
      for (const auto& p : parts) rest += (rest.empty() ? "" : " ") + p;
      left.push_back(rest);
      continue;
    }
    if (left.empty()) y += draw_text(cr, {box.x, y}, reason.text, style).height + between;
    else left.push_back(reason.text);
  }
  return y - box.y;
}

}  // namespace evenpull::viz
