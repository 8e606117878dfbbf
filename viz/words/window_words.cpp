#include "viz/words/window_words.hpp"

#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {
namespace {

constexpr double in_mm = 1e3;
// Of an inch: what a ruler in hundredths, or an eye between thirty-seconds, tells apart.
constexpr double ruler_grain = 0.005;

std::string stage_name(const Plan& plan, int stage) {
  return degrees_f(plan.the_case.stages[static_cast<std::size_t>(stage)].temperature);
}

const char* window_side(Side side) { return side == Side::top ? "Top" : "Bottom"; }

long of_hundred(double share) { return std::lround(100 * share); }

}  // namespace

std::string window_bay(const BayWindow& b) { return fmt::format("{}, bay {}", window_side(b.side), b.bay + 1); }

std::string window_inches(const BayWindow& b) {
  return fmt::format("{:.3f} to {:.3f} in", ruler_grain * std::ceil(inches(b.least) / ruler_grain),
                     ruler_grain * std::floor(inches(b.most) / ruler_grain));
}

std::string window_millimetres(const BayWindow& b) {
  return fmt::format("{:.1f} to {:.1f} mm", b.least * in_mm, b.most * in_mm);
}

std::string window_range(const BayWindow& b) { return window_inches(b) + " (" + window_millimetres(b) + ")"; }

std::string window_expected_all(const StageWindow& w) {
  double least = 1e300, most = 0;
  for (const BayWindow& b : w.bays) least = std::min(least, b.expected), most = std::max(most, b.expected);
  return fmt::format("{:.2f} to {:.2f} in ({:.1f} to {:.1f} mm)", inches(least), inches(most), least * in_mm,
                     most * in_mm);
}

std::vector<std::string> window_rules(const Plan& plan, const StageWindow& w) {
  const std::string next = stage_name(plan, w.next), now = stage_name(plan, w.stage);
  return {
      fmt::format("Cloth cold. Straightedge over the ribs, lid {} across amid the free cloth of the bay; read the gap "
                  "with {} on it, less the gap without.",
                  length_both(check_disc), weight_both(w.weight)),
      fmt::format("Go on to {} only if every bay listed reads at least the first and at most the second number.", next),
      fmt::format("Expected, if all is as stated: {}.", window_expected_all(w)),
      "Less in any bay: the cloth pulls more than the frame was computed for. Stop, do not iron that bay again, ask.",
      fmt::format(
          "More in any bay: work that bay again at {}, let it cool, read once more. Inside now: go on. Unchanged "
          "or still outside: something is not as stated; stop and ask.",
          now),
  };
}

std::vector<std::string> window_outcomes(const Plan& plan, const StageWindow& w) {
  return {fmt::format("all inside: go on to {}", stage_name(plan, w.next)), "less: stopped, asked",
          "more: worked again, read again"};
}

std::string window_said(const Plan& plan, const StageWindow& w, WindowSays what) {
  const std::string next = stage_name(plan, w.next), now = stage_name(plan, w.stage);
  switch (what) {
    case WindowSays::inside: return fmt::format("Inside in every bay: go on to {}.", next);
    case WindowSays::less: return "Less than the window: stop, do not iron that bay again, ask.";
    case WindowSays::more:
      return fmt::format("More than the window: work that bay again at {}, then read once more.", now);
    case WindowSays::not_believed: return "Far from anything expected: is it the right unit, and less the gap without?";
  }
  return "";
}

std::string stage_condition(const Plan& plan, int stage) {
  if (opened_by_reading(plan) != stage) return "";
  return fmt::format("ONLY IF after {} every bay listed read inside its window. Else do not iron this page.",
                     stage_name(plan, stage - 1));
}

std::string opens_sentence(const Plan& plan) {
  const std::optional<int> next = opened_by_reading(plan);
  if (!next) return "";
  const StageWindow& w = *window_after(plan, *next - 1);
  return fmt::format(
      "A hotter stage may follow by what you read: {} only if after {} every bay listed sags inside its window (of 100 "
      "jobs like this one about {} do). Read inside, at worst {} of 100 keep within every limit of bow, twist and "
      "slip.",
      stage_name(plan, *next), stage_name(plan, *next - 1), of_hundred(w.inside), of_hundred(w.shape));
}

std::vector<std::string> read_sentences(const Plan& plan) {
  const ReadingsTold& told = plan.read;
  if (told.readings.empty()) return {};
  if (!told.used)
    return {plan.first_look()
                ? "What you read is not used in a first look: it has no chances to weigh it by."
                : "What you read could not be used: no bay read is fit for it, or too little is known of the chances."};
  std::vector<std::string> list{
      fmt::format("By your {} reading{} the cloth pulls about {:.2f} times what was stated. Uses and chances here are "
                  "those given what "
                  "you read.",
                  told.readings.size(), told.readings.size() == 1 ? "" : "s", told.pull_times)};
  for (const ReadingsTold::Of& r : told.readings) {
    const std::string where = fmt::format("{}, bay {}, after {}", window_side(r.reading.side), r.reading.bay + 1,
                                          stage_name(plan, r.reading.stage));
    if (!r.expected)
      list.push_back(where + ": not used, since that bay is too small for the lid or its cloth not tight there.");
    else if (r.contradicts)
      list.push_back(fmt::format(
          "{}: {:.1f} mm fits neither what was expected ({:.1f} mm with {}) nor the other readings. Read it again.",
          where, r.reading.sag * in_mm, *r.expected * in_mm, weight_both(r.reading.weight)));
  }
  if (told.tighter_than_any)
    list.push_back(
        "These readings are tighter than 98 of 100 such panels read: something is not as stated. Stop and ask.");
  if (told.looser_than_any)
    list.push_back(
        "These readings are looser than 98 of 100 such panels read: something is not as stated. Stop and ask.");
  return list;
}

}  // namespace evenpull::viz
