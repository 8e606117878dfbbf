#include "shop/draft/answers.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace evenpull {
namespace {

constexpr double inch = 0.0254;
// Places that are worked out are rounded to what a tape shows.
constexpr double usual_step = inch / 4, usual_metric_step = 0.005;

std::string plain_number(double value) {
  constexpr int digits = 7;
  std::array<char, 40> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value == 0 ? 0.0 : value,
                                 std::chars_format::general, digits)
                       .ptr;
  return {text.data(), end};
}

bool is_metric(const std::string& text) { return text.find('m') != std::string::npos; }

bool holds_now(const DraftWhen& w, const DraftAnswers& answers) {
  const DraftAnswer* a = answers.find(w.ask);
  if (!a) return false;
  if (!w.differs_from) return std::find(w.is.begin(), w.is.end(), a->value) != w.is.end();
  const DraftAnswer* other = answers.find(*w.differs_from);
  return other && a->sizes.front().value != other->sizes.front().value;
}

const DraftUsual& usual_of(const DraftQuestion& q, DraftKind kind) {
  return *std::find_if(q.usual.begin(), q.usual.end(), [&](const DraftUsual& u) { return holds(u.kinds, kind); });
}

GivenSize share_of(const GivenSize& whole, double share) {
  if (share == 1) return whole;
  const double step = is_metric(whole.text) ? usual_metric_step : usual_step;
  return written_like(std::round(whole.value * share / step) * step, whole.text);
}

}  // namespace

const DraftAnswer* DraftAnswers::find(Ask ask) const {
  const auto at = all_.find(ask);
  return at == all_.end() ? nullptr : &at->second;
}

GivenSize written_like(double metres, const std::string& like) {
  const bool metric = is_metric(like);
  return {metres, plain_number(metric ? metres * 1000 : metres / inch) + (metric ? " mm" : " in")};
}

bool is_asked(const DraftQuestion& q, const DraftAnswers& answers) {
  if (q.ask == Ask::kind) return true;
  if (!answers.find(Ask::kind) || !holds(q.kinds, answers.kind())) return false;
  return std::all_of(q.when.begin(), q.when.end(), [&](const DraftWhen& w) {
    const DraftQuestion* earlier = question_of(w.ask, answers.kind());
    return earlier && is_asked(*earlier, answers) && holds_now(w, answers);
  });
}

std::vector<const DraftQuestion*> asked_questions(const DraftAnswers& answers) {
  std::vector<const DraftQuestion*> out;
  for (const DraftQuestion& q : draft_questions())
    if (is_asked(q, answers)) {
      out.push_back(&q);
      if (!answers.find(q.ask)) break;
    }
  return out;
}

std::vector<int> choices_of(const DraftQuestion& q, const DraftAnswers& answers) {
  std::vector<int> out;
  for (const DraftChoice& c : q.choices)
    if (q.ask == Ask::kind || holds(c.kinds, answers.kind())) out.push_back(c.value);
  return out;
}

DraftAnswer usual_answer(const DraftQuestion& q, const DraftAnswers& answers) {
  DraftAnswer out;
  out.usual = true;
  const DraftUsual& u = usual_of(q, q.ask == Ask::kind ? DraftKind::steel_tube : answers.kind());
  if (!u.as) {
    out.value = u.value;
    if (q.answer == AnswerKind::quantity) out.sizes = {{u.size.value, u.size.text}};
    return out;
  }
  const GivenSize& whole = answers.at(*u.as).sizes.front();
  if (u.every > 0) out.value = std::max(1, static_cast<int>(std::lround(whole.value / u.every)));
  else if (u.shares.empty()) out.sizes = {whole};
  else
    for (const double share : u.shares) out.sizes.push_back(share_of(whole, share));
  if (out.value > q.most && q.answer == AnswerKind::whole) out.value = static_cast<int>(q.most);
  return out;
}

DraftAnswers with_usual_anew(const DraftAnswers& answers) {
  DraftAnswers out;
  for (const DraftQuestion& q : draft_questions()) {
    if (!is_asked(q, out)) continue;
    const DraftAnswer* a = answers.find(q.ask);
    if (!a) return out;
    out.set(q.ask, a->usual && q.ask != Ask::kind ? usual_answer(q, out) : *a);
  }
  return out;
}

}  // namespace evenpull
