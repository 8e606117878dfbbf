#include "viz/words/window_words.hpp"

#include "sequencer/sure/scenario.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/sure_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cctype>
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

std::string reading_where(const Plan& plan, const Measured& m) {
  const std::string after = ", after " + stage_name(plan, m.stage);
  if (m.shape) {
    std::string what = limit_text(*m.shape);
    what.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(what.front())));
    return what + after;
  }
  return fmt::format("{}, bay {}{}", window_side(m.side), m.bay + 1, after);
}

std::string reading_value(const Measured& m) {
  if (m.tone > 0) return fmt::format("{:.0f} Hz", m.tone);
  return fmt::format("{:.1f} mm", (m.shape ? m.value : m.sag) * in_mm);
}

std::string reading_expected(const Measured& m, double expected) {
  if (m.tone > 0) return fmt::format("{:.0f} Hz", expected);
  return fmt::format("{:.1f} mm", expected * in_mm) + (m.shape ? "" : " with " + weight_both(m.weight));
}

// Of what was stated, or beside it for the sole: what readings make of an input.
std::string input_range(const Case& c, const ReadingsTold::Input& i, double read_at) {
  constexpr double ends = 1.96;  // sigmas: 95 of 100
  // What one draw of the pull has in common at every stage, as it shows where it was read.
  const double spread = i.what == Unsure::pull ? common_pull_spread(c, read_at) : spread_of(c.spreads, i.what);
  const auto at = [&](double sigmas) { return spread * sigmas; };
  const double mean = at(i.mean), low = at(i.mean - ends * i.sigma), high = at(i.mean + ends * i.sigma);
  if (i.what == Unsure::sole)
    return fmt::format("{:+.0f} °F beside what was set ({:+.0f} to {:+.0f})", 1.8 * mean, 1.8 * low, 1.8 * high);
  return fmt::format("{:.2f} times what was stated ({:.2f} to {:.2f}; before {:.2f} to {:.2f})", std::exp(mean),
                     std::exp(low), std::exp(high), std::exp(at(-ends)), std::exp(at(ends)));
}

// What readings say of cloth, frame and friction apart, where they say something.
std::vector<std::string> input_sentences(const Plan& plan) {
  constexpr double moved = 0.3, narrowed = 0.9;  // sigmas; less is not worth a word: judgement
  double hottest = 0;                            // K, of the stages read after
  for (const ReadingsTold::Of& r : plan.read.readings)
    hottest = std::max(hottest, plan.the_case.stages[static_cast<std::size_t>(r.reading.stage)].temperature);
  std::vector<std::string> list;
  for (const ReadingsTold::Input& i : plan.read.inputs)
    if (std::abs(i.mean) > moved || i.sigma < narrowed)
      list.push_back(
          fmt::format("By what you read: {} {}.", unsure_text(i.what), input_range(plan.the_case, i, hottest)));
  return list;
}

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
    const std::string where = reading_where(plan, r.reading);
    if (!r.expected)
      list.push_back(where + (r.reading.shape ? ": not used, since hardly anything is expected there."
                                              : ": not used, since that bay is too small for the lid or its cloth not "
                                                "tight there."));
    else if (r.contradicts)
      list.push_back(fmt::format("{}: {} fits neither what was expected ({}) nor the other readings. Read it again.",
                                 where, reading_value(r.reading), reading_expected(r.reading, *r.expected)));
  }
  if (told.tighter_than_any)
    list.push_back(
        "These readings are tighter than 98 of 100 such panels read: something is not as stated. Stop and ask.");
  if (told.looser_than_any)
    list.push_back(
        "These readings are looser than 98 of 100 such panels read: something is not as stated. Stop and ask.");
  for (std::string& said : input_sentences(plan)) list.push_back(std::move(said));
  return list;
}

}  // namespace evenpull::viz
