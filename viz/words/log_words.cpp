#include "viz/words/log_words.hpp"

#include "viz/words/limit_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace evenpull::viz {
namespace {

constexpr std::size_t zones_in_a_row = 10;

std::string bay_words(Side side, int bay) {
  return fmt::format("{}, bay {}", side == Side::top ? "top" : "bottom", bay + 1);
}

std::string bay_list(const std::vector<PlanDigest::Bay>& bays) {
  std::string text;
  for (const PlanDigest::Bay& b : bays) text += (text.empty() ? "" : "; ") + bay_words(b.side, b.bay);
  return text;
}

std::string label_list(const std::vector<std::string>& labels) {
  std::string text;
  for (std::size_t i = 0; i < labels.size() && i < zones_in_a_row; ++i) text += (i ? " " : "") + labels[i];
  if (labels.size() > zones_in_a_row) text += fmt::format(" and {} more", labels.size() - zones_in_a_row);
  return text;
}

// The label that a plan gives a zone; side, bay and strip where it has none.
std::string label_of(const PlanDigest& plan, const OrderStep& s) {
  for (const PlanDigest::Step& p : plan.steps)
    if (p.step.side == s.side && p.step.bay == s.bay && p.step.strip == s.strip) return p.label;
  return fmt::format("{} bay {} strip {}", s.side == Side::top ? "top" : "bottom", s.bay, s.strip);
}

std::string off_text(const JobStanding& s, OffPlan off) {
  switch (off) {
    case OffPlan::hotter_than_safe:
      return "Zones were ironed hotter than any stage that this plan calls safe. Do not iron on. Look the frame over "
             "for bends "
             "and kinks, read bow and twist, and ask a licensed mechanic before anything else.";
    case OffPlan::sole_differed:
      return "The sole was at another temperature than the stage: what was worked is reckoned at what it truly was.";
    case OffPlan::left_out:
      return fmt::format(
          "{} of an earlier pass or stage were left out: {}. Do not go back to them cooler; the rest is planned anew "
          "with what they lack.",
          s.left_out.size() == 1 ? "A zone" : "Zones", label_list(s.left_out));
    case OffPlan::before_its_turn: return "Zones were worked before their turn.";
    case OffPlan::reads_otherwise:
      return "The cloth pulls otherwise than this plan expects, by more than the reading can be off: the plan may say "
             "another "
             "stage with it.";
    case OffPlan::not_of_the_plan: return "What was worked is at a stage that this plan does not have.";
  }
  return "";
}

std::string value_words(const Measured& m) {
  if (m.tone > 0) return fmt::format("{:.0f} Hz", m.tone);
  return small_length_both(m.shape ? m.value : m.sag) + (m.shape ? "" : " with " + weight_both(m.weight));
}

const char* says_words(const ReadingJudged& r) {
  const bool shape = r.reading.reading.shape.has_value();
  switch (r.says) {
    case ReadingSays::inside: return r.of_window ? "inside" : "as expected";
    case ReadingSays::less: return r.of_window ? "less: STOP" : "less than expected";
    case ReadingSays::more: return shape ? "more: STOP" : r.of_window ? "more: work again" : "more than expected";
    case ReadingSays::far_off: return "not believed: read it again";
    case ReadingSays::nothing_expected: return "noted";
    case ReadingSays::in_the_plan: return "in the plan";
  }
  return "";
}

std::string stage_words(double kelvin) { return degrees_f(kelvin); }

}  // namespace

std::string log_stop_text(LogStop stop) {
  switch (stop) {
    case LogStop::jolted:
      return "the panel was dropped, knocked or clamped anew, and no bow, twist or slip was read since. Look it over "
             "for bends, "
             "kinks and loose joints, clamp it as planned, read bow and twist, log them, then go on. Anything bent: a "
             "licensed "
             "mechanic looks at it first";
    case LogStop::sole_above_planned:
      return "zones were ironed with the sole above 375 °F (191 °C), where polyester loses tension for good. What it "
             "pulls "
             "there is not known and cannot be planned. Look the cloth over, weigh every bay, and ask a licensed "
             "mechanic "
             "whether it stays";
  }
  return "";
}

std::string damaged_log_text(int line, int lines_left_out) {
  return fmt::format(
      "the log is damaged here: what stands before it was read, {} line{} from here on cannot be trusted. Copy the "
      "file, cut the copy before line {}, log again what came after, and use the copy",
      lines_left_out, lines_left_out == 1 ? "" : "s", line);
}

std::string next_move_headline(NextMove move) {
  switch (move) {
    case NextMove::work: return "NEXT";
    case NextMove::read_first: return "READ FIRST";
    case NextMove::work_again: return "WORK AGAIN";
    case NextMove::stop: return "STOP";
    case NextMove::plan_anew: return "PLAN ANEW";
    case NextMove::finished: return "ALL DONE";
  }
  return "";
}

std::string next_steps_text(const PlanDigest& plan, const JobStanding& s) {
  if (s.next.empty()) return "";
  std::vector<std::string> labels;
  for (const int i : s.next) labels.push_back(plan.steps[static_cast<std::size_t>(i)].label);
  const OrderStep& first = plan.steps[static_cast<std::size_t>(s.next.front())].step;
  return fmt::format("{} at {}, pass {}, {}", label_list(labels), stage_words(first.temperature), first.pass,
                     first.side == Side::top ? "top" : "bottom");
}

std::vector<std::string> standing_sentences(const PlanDigest& plan, const JobStanding& s, const std::string& again) {
  std::vector<std::string> out;
  for (const LogStop stop : s.stops) {
    std::string text = log_stop_text(stop) + ".";
    text.front() = 'T' == text.front() ? 'T' : static_cast<char>(text.front() - 'a' + 'A');
    out.push_back(text);
  }
  for (const OffPlan off : s.off) out.push_back(off_text(s, off));
  const auto less = [](const ReadingJudged& r) { return r.of_window && r.says == ReadingSays::less; };
  const auto bent = [](const ReadingJudged& r) { return r.reading.reading.shape && r.says == ReadingSays::more; };
  switch (s.move) {
    case NextMove::stop:
      if (std::any_of(s.readings.begin(), s.readings.end(), less))
        out.push_back(
            "A bay sags less than its window: the cloth pulls more than the frame was computed for. Do not iron that "
            "bay "
            "again, go no hotter, ask.");
      if (std::any_of(s.readings.begin(), s.readings.end(), bent))
        out.push_back("The frame went past what this plan lets go by. Do not iron on; let it cool, read again, ask.");
      break;
    case NextMove::work_again:
      out.push_back("More than the window: work again, at the same stage, then let it cool and read once more: " +
                    bay_list(s.again) + ".");
      break;
    case NextMove::read_first: out.push_back("Cloth cold, weigh before going on: " + bay_list(s.not_read) + "."); break;
    case NextMove::plan_anew: out.push_back("Plan the rest before you iron on: " + again); break;
    case NextMove::work: out.push_back("Next: " + next_steps_text(plan, s) + "."); break;
    case NextMove::finished:
      out.push_back(
          "Every step that may be ironed is done. Let it cool, read bow and twist off the rests, and have a licensed "
          "mechanic look at it.");
      if (std::any_of(s.readings.begin(), s.readings.end(), less))
        out.push_back("A bay sags less than the window that would open a hotter stage: go no hotter.");
      else if (!s.not_read.empty())
        out.push_back("A hotter stage may follow only if every one of these reads inside its window: " +
                      bay_list(s.not_read) + ".");
      break;
  }
  if (plan.first_look)
    out.push_back("The plan is a first look: it calls nothing safe. Make a whole plan before you iron.");
  return out;
}

ReadingRow reading_row(const ReadingJudged& r) {
  const Measured& m = r.reading.reading;
  ReadingRow out;
  out.where = (m.shape ? std::string(limit_text(*m.shape)) : bay_words(m.side, m.bay)) + ", after " +
              stage_words(r.reading.after);
  out.read = value_words(m);
  if (r.says != ReadingSays::nothing_expected && r.most > 0)
    out.expected = m.shape ? "up to " + small_length_both(r.most)
                           : fmt::format("{:.1f} to {:.1f} mm", r.least * 1e3, r.most * 1e3);
  out.says = says_words(r);
  return out;
}

std::vector<PassRow> pass_rows(const PlanDigest& plan, const WorkSoFar& work) {
  std::vector<PassRow> out;
  std::map<std::pair<double, int>, int> planned, worked;
  std::map<std::pair<double, int>, bool> ironed;
  for (const PlanDigest::Step& p : plan.steps) {
    ++planned[{p.step.temperature, p.step.pass}];
    if (p.to_be_ironed || p.only_by_reading) ironed[{p.step.temperature, p.step.pass}] = true;
  }
  std::set<std::tuple<double, int, int, int, int>> seen;
  for (const OrderStep& s : work.steps)
    if (seen.insert({s.temperature, s.pass, static_cast<int>(s.side), s.bay, s.strip}).second)
      ++worked[{s.temperature, s.pass}], planned.insert({{s.temperature, s.pass}, 0});
  for (const auto& [pass, zones] : planned) {
    const int done = worked.count(pass) ? worked[pass] : 0;
    if (!ironed[pass] && done == 0) continue;
    out.push_back({fmt::format("{}, pass {}", stage_words(pass.first), pass.second),
                   zones > 0 ? fmt::format("{} of {}", done, zones) : fmt::format("{}, not planned", done)});
  }
  return out;
}

std::string entry_text(int number, const LogEntry& e, const PlanDigest& plan, bool holds) {
  std::string what;
  switch (e.kind) {
    case LogEntry::Kind::ironed: {
      std::vector<std::string> labels;
      for (const OrderStep& s : e.steps) labels.push_back(label_of(plan, s));
      what = fmt::format("ironed {} at {}, pass {}", label_list(labels), stage_words(e.steps.front().temperature),
                         e.steps.front().pass);
      if (e.sole) what += fmt::format(", sole truly {}", degrees_f(*e.sole));
      break;
    }
    case LogEntry::Kind::read: {
      const ReadingRow row = reading_row({{e.after, e.reading, number}});
      what = fmt::format("read {}: {}", row.where, row.read);
      break;
    }
    case LogEntry::Kind::jolted: what = "dropped, knocked or clamped anew"; break;
    case LogEntry::Kind::remark: what = "remark"; break;
    case LogEntry::Kind::taken_back: what = fmt::format("took back entry {}", e.takes_back); break;
  }
  if (!e.text.empty()) what += ": " + e.text;
  return fmt::format("{:>3}  {}  {}{}", number, e.when, what,
                     holds || e.kind == LogEntry::Kind::taken_back ? "" : "  (taken back)");
}

}  // namespace evenpull::viz
