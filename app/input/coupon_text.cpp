#include "app/input/coupon_text.hpp"

#include "app/input/case_parts.hpp"
#include "app/input/typed.hpp"
#include "app/text/quoted.hpp"
#include "shop/coupon_curve.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

constexpr const char* reading_option = "--reading";
constexpr const char* marks_option = "--marks";
constexpr const char* reading_example = "\"300 degF: 0.5 kg = 1.84 mm, 1 kg = 3.68 mm\"";
constexpr const char* marks_example = "\"300 degF: warp 500 mm = 465 mm, fill 500 mm = 470 mm\"";

constexpr std::size_t most_weights = 6;
constexpr Range coupon_weight_range{0.05, 10, "half a kilogram (1 lb) and one (2 lb) are usual"};
constexpr Range sag_of_coupon_range{0.00005, 0.05, "some 1 to 6 mm (0.04 to 0.25 in) are usual"};
constexpr Range between_marks_range{0.1, 3, "500 mm (20 in) are usual"};
constexpr Range board_range{0.01, 0.3, "boards of 38 x 89 mm (1 1/2 x 3 1/2 in) are usual"};
constexpr double most_free_shrink = 0.25;  // as in the curve of a case
// Below, cloth shrinks by next to nothing; above the second polyester is damaged.
constexpr Range coupon_stage_range{
    360, (polyester_refuse_degF + 459.67) / 1.8,
    "250, 300 and 350 degF are usual; above 400 degF polyester loses its pull and melts"};

[[noreturn]] void refuse_words(const char* option, const std::string& sentence) {
  throw CaseFileError(option, {}, "", sentence);
}

bool decimal_comma(const std::string& text) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  for (std::size_t i = 1; i + 1 < text.size(); ++i)
    if (text[i] == ',' && digit(text[i - 1]) && digit(text[i + 1])) return true;
  return false;
}

struct TypedStage {
  double temperature = 0;
  std::vector<std::pair<std::string, std::string>> parts;  ///< left and right of =
};

TypedStage typed_stage(const Typed& typed, const char* option, const char* example) {
  const std::string& text = typed.text();
  const auto not_one = [&]() {
    typed.refuse(
        fmt::format("is not understood; write {} {}: the stage, a colon, then what was read, parted by commas{}",
                    option, example, decimal_comma(text) ? "; decimals stand behind a point: 1.84, not 1,84" : ""));
  };
  const auto colon = text.find(':');
  if (colon == std::string::npos) not_one();
  TypedStage out;
  out.temperature = typed.quantity(trimmed(text.substr(0, colon)), Quantity::temperature, coupon_stage_range);
  for (const auto& part : parted_at(text.substr(colon + 1), ',')) {
    const auto sides = parted_at(part, '=');
    if (sides.size() != 2) not_one();
    out.parts.emplace_back(sides[0], sides[1]);
  }
  return out;
}

// Stages rising; two that are one are refused.
template <class Stage>
void put_in_order(const char* option, std::vector<Stage>& stages) {
  if (stages.size() > most::stages)
    refuse_words(option, fmt::format("is given {} times; {} stages are the most", stages.size(), most::stages));
  std::sort(stages.begin(), stages.end(), [](const auto& a, const auto& b) { return a.temperature < b.temperature; });
  for (std::size_t i = 1; i < stages.size(); ++i)
    if (stages[i].temperature - stages[i - 1].temperature < one_stage_within)
      refuse_words(option, fmt::format("has {} twice; put all that was read at a stage into one, as {}",
                                       viz::degrees_both(stages[i].temperature),
                                       option == reading_option ? reading_example : marks_example));
}

void take_mark(CouponMarks& m, const std::pair<std::string, std::string>& part, const Typed& typed) {
  const auto space = std::min(part.first.find(' '), part.first.size());
  const std::string yarn = plain_word(part.first.substr(0, space));
  if (yarn != "warp" && yarn != "fill")
    typed.refuse_part(part.first,
                      fmt::format("begins with neither warp nor fill; write {} {}", marks_option, marks_example));
  const double before = typed.quantity(trimmed(part.first.substr(space)), Quantity::length, between_marks_range);
  const double after = typed.quantity(part.second, Quantity::length, between_marks_range);
  auto& was = yarn == "warp" ? m.warp_before : m.fill_before;
  if (was) typed.refuse(fmt::format("has the {} twice", yarn));
  const double shrink = 1 - after / before;
  if (!(shrink >= 0 && shrink <= most_free_shrink))
    typed.refuse_part(
        part.first + " = " + part.second,
        fmt::format(
            "would be a free shrink of {:.1f} %: it may be 0 to {:.0f} %, 4 to 14 % are usual; the length before "
            "stands first",
            100 * shrink, 100 * most_free_shrink));
  was = before;
  (yarn == "warp" ? m.warp_after : m.fill_after) = after;
}

void refuse_falling_marks(const std::vector<CouponMarks>& all) {
  const auto check = [](const CouponMarks& a, const CouponMarks& b, double before, double after, const char* yarn) {
    if (after < before)
      refuse_words(
          marks_option,
          fmt::format("the {} shrinks {:.1f} % at {} and only {:.1f} % at {}: shrink does not grow back; "
                      "measure from the marks as they were before the first stage, and check the readings",
                      yarn, 100 * before, viz::degrees_f(a.temperature), 100 * after, viz::degrees_f(b.temperature)));
  };
  for (std::size_t i = 1; i < all.size(); ++i) {
    const CouponMarks &a = all[i - 1], &b = all[i];
    check(a, b, 1 - *a.warp_after / *a.warp_before, 1 - *b.warp_after / *b.warp_before, "warp");
    check(a, b, 1 - *a.fill_after / *a.fill_before, 1 - *b.fill_after / *b.fill_before, "fill");
  }
}

}  // namespace

CouponBoards coupon_boards(const std::string& text) {
  const Typed typed("--boards", text);
  const auto sides = parted_at(text, 'x');
  if (sides.size() != 2)
    typed.refuse("is not understood; write --boards \"38 mm x 89 mm\": how high they lie, then how wide");
  return {typed.quantity(sides[1], Quantity::length, board_range),
          typed.quantity(sides[0], Quantity::length, board_range)};
}

std::vector<CouponWeights> coupon_readings(const std::vector<std::string>& texts) {
  std::vector<CouponWeights> out;
  for (const auto& text : texts) {
    const Typed typed(reading_option, text);
    const TypedStage stage = typed_stage(typed, reading_option, reading_example);
    CouponWeights w;
    w.temperature = stage.temperature;
    for (const auto& [mass, sag] : stage.parts)
      w.weights.push_back({typed.quantity(mass, Quantity::mass, coupon_weight_range),
                           typed.quantity(sag, Quantity::length, sag_of_coupon_range)});
    if (w.weights.size() > most_weights)
      typed.refuse(fmt::format("has more than {} weights, which is the most for a stage", most_weights));
    out.push_back(std::move(w));
  }
  put_in_order(reading_option, out);
  return out;
}

std::vector<CouponMarks> coupon_marks(const std::vector<std::string>& texts) {
  std::vector<CouponMarks> out;
  for (const auto& text : texts) {
    const Typed typed(marks_option, text);
    const TypedStage stage = typed_stage(typed, marks_option, marks_example);
    CouponMarks m;
    m.temperature = stage.temperature;
    for (const auto& part : stage.parts) take_mark(m, part, typed);
    if (!m.warp_after || !m.fill_after)
      typed.refuse(
          fmt::format("says nothing of the {}; both are needed, as {}", m.warp_after ? "fill" : "warp", marks_example));
    out.push_back(m);
  }
  put_in_order(marks_option, out);
  refuse_falling_marks(out);
  return out;
}

}  // namespace evenpull
