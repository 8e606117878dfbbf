#include "viz/words/lesson_words.hpp"

#include "viz/words/after_iron_words.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numbers>
#include <set>

namespace evenpull::viz {
namespace {

// What counts as a difference in a lesson: a quarter of the smaller value, and a tenth of the limit; of pull where it is not
// limited, a twentieth of the strongest. Less is alike. Judgement.
constexpr double clearly_more = 1.25, share_of_limit = 0.1, share_of_pull = 0.05;
// From twice on order matters much. Judgement.
constexpr double much_more = 2;
// Below a fifth of what counts as a difference there is nothing to divide by.
constexpr double next_to_nothing = 0.2;
constexpr std::size_t most_told = 3;  ///< in a sentence

std::string capital(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

std::string listed(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i)
    text += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
  return text;
}

/// One quantity by which ways are compared; less is better.
struct Measure {
  enum class Kind { twist, slip, difference, use };
  Kind kind;
  std::string name;  ///< "twist on the way"
  double step;       ///< a smaller difference does not count
  double (*of)(const WayFigures&);
  std::string (*text)(double);
};

std::vector<Measure> measures(const LessonScale& by) {
  const auto slip_text = [](double v) { return small_length_both(v); };
  std::vector<Measure> list = {{Measure::Kind::twist, "twist on the way", share_of_limit * by.limits.twist,
                                [](const WayFigures& w) { return std::abs(w.twist.value); }, lesson_angle},
                               {Measure::Kind::twist, "twist left at the end", share_of_limit * by.limits.twist,
                                [](const WayFigures& w) { return w.twist_left; }, lesson_angle}};
  if (by.can_slip) {
    list.push_back({Measure::Kind::slip, "slip left at the end", share_of_limit * by.limits.slip,
                    [](const WayFigures& w) { return w.slip_left; }, slip_text});
    list.push_back({Measure::Kind::slip, "slip of tight cloth on the way", share_of_limit * by.limits.slip,
                    [](const WayFigures& w) { return w.judged_slip; }, slip_text});
  }
  list.push_back(
      {Measure::Kind::difference, "pull difference along the chord",
       by.limits.pull_difference ? share_of_limit * *by.limits.pull_difference : share_of_pull * by.strongest_pull,
       [](const WayFigures& w) { return std::abs(w.difference.value); }, pull_both});
  list.push_back({Measure::Kind::use, "use of the limits (1 is the limit)", share_of_limit,
                  [](const WayFigures& w) { return w.worst_use; }, [](double v) { return number_text(v, 2); }});
  return list;
}

/// Whether `more` is clearly more than `less`.
bool differ(const Measure& m, double more, double less) { return more - less >= m.step && more >= clearly_more * less; }

std::string ratio_text(double ratio) {
  return number_text(ratio, ratio < 9.95 ? 1 : 0) + " times";  // one digit behind the point, or two before it
}

/// "twist on the way 0.54° against 0.19° (2.9 times)".
std::string against(const Measure& m, const WayFigures& one, const WayFigures& other) {
  const double a = m.of(one), b = m.of(other);
  std::string text = fmt::format("{} {} against {}", m.name, m.text(a), m.text(b));
  const double less = std::min(a, b), more = std::max(a, b);
  if (differ(m, a, b) && less >= next_to_nothing * m.step) text += " (" + ratio_text(more / less) + ")";
  return text;
}

/// How a way compares with the plan.
struct Compared {
  std::vector<const Measure*> worse, better, alike;
  bool much = false;
};

Compared compare(const std::vector<Measure>& all, const WayFigures& way, const WayFigures& plan) {
  Compared out;
  for (const Measure& m : all) {
    const double a = m.of(way), c = m.of(plan);
    if (differ(m, a, c)) {
      out.worse.push_back(&m);
      out.much = out.much || a >= much_more * c;
    } else if (differ(m, c, a)) {
      out.better.push_back(&m);
    } else {
      out.alike.push_back(&m);
    }
  }
  return out;
}

// The first of each kind, in numbers: what is twisted on the way mostly stays so, and need not be told twice.
std::string told(const std::vector<const Measure*>& which, const WayFigures& way, const WayFigures& plan) {
  std::vector<std::string> items;
  std::set<Measure::Kind> kinds;
  for (const Measure* m : which)
    if (items.size() < most_told && kinds.insert(m->kind).second) items.push_back(against(*m, way, plan));
  return listed(items);
}

std::string headline(const std::vector<WayFigures>& ways, const Compared& first, const Compared& second) {
  const auto gave_way = [](const WayFigures& w) { return w.gave_way; };
  if (std::all_of(ways.begin(), ways.end(), gave_way)) return "On this panel the frame gives way in all three ways.";
  if (std::any_of(ways.begin(), ways.end(), gave_way))
    return "On this panel order decides: not in every way does the frame stand.";
  if (!first.worse.empty() && !first.better.empty())
    return "On this panel order matters, and no way is the best in everything.";
  if (!first.worse.empty()) return first.much ? "On this panel order matters much." : "On this panel order matters.";
  if (!first.better.empty()) return "On this panel the plan keeps the frame no truer than one side first.";
  const bool plain_alike = second.worse.empty() && second.better.empty();
  return plain_alike ? "On this panel order changes little." : "On this panel one side first does as well as the plan.";
}

std::string limits_passed(const WayFigures& w, const LessonScale& by) {
  std::vector<std::string> over;
  double most = 1;  // use of the limits named, or the limit itself
  const auto add = [&](double value, double limit, const char* name, const std::string& text) {
    if (value > limit) over.push_back(fmt::format("{} ({})", name, text));
    most = std::max(most, value / limit);
  };
  add(std::abs(w.twist.value), by.limits.twist, "twist", lesson_angle(by.limits.twist));
  if (by.can_slip) add(w.judged_slip, by.limits.slip, "slip", small_length_both(by.limits.slip));
  if (by.limits.pull_difference)
    add(std::abs(w.difference.value), *by.limits.pull_difference, "pull difference",
        pull_both(*by.limits.pull_difference));
  constexpr double rounding = 0.005;
  if (w.worst_use > most + rounding) over.push_back("strength or bow (use " + number_text(w.worst_use, 2) + ")");
  return listed(over);
}

std::string which_pass_limits(const std::vector<WayFigures>& ways, const LessonScale& by) {
  std::string text;
  for (const WayFigures& w : ways)
    if (const std::string over = limits_passed(w, by); !over.empty())
      text += fmt::format(" {} passes the limit of {}.", capital(w.name), over);
  return text;
}

std::string which_gave_way(const std::vector<WayFigures>& ways) {
  std::vector<std::string> gave, stood;
  for (const WayFigures& w : ways) (w.gave_way ? gave : stood).push_back(w.letter + " (" + w.name + ")");
  return fmt::format("The frame gives way in {}{}. What is told of a way that gives way is what came before.",
                     listed(gave), stood.empty() ? "" : "; it stands in " + listed(stood));
}

std::string each(const std::vector<WayFigures>& ways, const auto& words) {
  std::string text;
  for (const WayFigures& w : ways) text += (text.empty() ? "" : "; ") + w.letter + " " + words(w);
  return text + ".";
}

constexpr double hardly_any_slip = 5e-5;  // m: printed as nothing
constexpr double hardly_any_turn = 5e-5;  // rad: 0.003°

LessonQuestion slip_question(const std::vector<WayFigures>& ways, const LessonScale& by) {
  if (!by.can_slip)
    return {
        "This panel has two sheets, each glued to the trailing edge. What does a full wrap do that this cloth "
        "cannot?",
        {"slide round the trailing edge", "pull along the span", "nothing"},
        "It cannot slide round the trailing edge from one side to the other: each sheet keeps what it has."};
  const WayFigures& a = ways.front();
  LessonQuestion q{"Way A: after which step has the cloth moved furthest round the trailing edge, and to which side?",
                   {"to the top", "to the bottom", "it hardly moves"},
                   ""};
  if (std::abs(a.slip.value) < hardly_any_slip) {
    q.answer = "It hardly moves.";
  } else {
    q.answer = fmt::format("{}: {}, to the {}.", capital(a.slip.when), small_length_both(std::abs(a.slip.value)),
                           a.slip.value > 0 ? "top" : "bottom");
    // Way A irons the top first.
    if (a.slip.value > 0) q.answer += " The top was hot first and took cloth from the other side.";
    if (std::abs(a.slip.value) >= clearly_more * a.judged_slip)
      q.answer += fmt::format(
          " There it was still loose on both sides and lies as chance has it; once tight it is {} at "
          "the most.",
          small_length_both(a.judged_slip));
  }
  q.answer += " Furthest in the other ways: " + each({ways.begin() + 1, ways.end()}, [](const WayFigures& w) {
                return small_length_both(std::abs(w.slip.value));
              });
  return q;
}

LessonQuestion twist_question(const std::vector<WayFigures>& ways, const LessonScale& by) {
  LessonQuestion q{"In which way does the frame twist most on the way, and after which step?", {}, ""};
  for (const WayFigures& w : ways) q.choices.push_back(w.letter);
  q.choices.push_back("no great difference");
  q.answer = each(ways, [](const WayFigures& w) { return lesson_angle(std::abs(w.twist.value)) + " " + w.twist.when; });
  const Measure twist = measures(by).front();
  const auto by_twist = [&](const WayFigures& a, const WayFigures& b) { return twist.of(a) < twist.of(b); };
  const WayFigures &most = *std::max_element(ways.begin(), ways.end(), by_twist),
                   &least = *std::min_element(ways.begin(), ways.end(), by_twist);
  q.answer = (differ(twist, twist.of(most), twist.of(least)) ? "Way " + most.letter + ". " : "No great difference. ") +
             q.answer;
  return q;
}

LessonQuestion difference_question(const std::vector<WayFigures>& ways) {
  const WayFigures& a = ways.front();
  return {
      "Way A: when do top and bottom pull least alike along the chord, and which side pulls harder?",
      {"top", "bottom"},
      fmt::format("{}: the {} by {}. That is what bends and twists the frame; pull alone, alike on both sides, only "
                  "squeezes it.",
                  capital(a.difference.when), a.difference.value > 0 ? "top" : "bottom",
                  pull_both(std::abs(a.difference.value)))};
}

// What the way that is turned over most has for it, against the one that is turned over least.
LessonQuestion turning_question(const std::vector<WayFigures>& ways, const LessonScale& by) {
  LessonQuestion q{"How many times is the panel turned over in each way? What is bought with it?",
                   {"a truer frame", "cloth that stays in place", "both", "nothing"},
                   each(ways, [](const WayFigures& w) { return times_text(w.turn_overs); })};
  const auto by_turns = [](const WayFigures& a, const WayFigures& b) { return a.turn_overs < b.turn_overs; };
  const WayFigures &most = *std::max_element(ways.begin(), ways.end(), by_turns),
                   &least = *std::min_element(ways.begin(), ways.end(), by_turns);
  if (most.turn_overs == least.turn_overs) {
    q.answer += " No way is turned over more than the others.";
    return q;
  }
  const std::vector<Measure> all = measures(by);
  const Compared c = compare(all, least, most);
  const std::string ways_compared = fmt::format("{} against {}", least.letter, most.letter);
  if (c.worse.empty()) q.answer += " More turn-overs buy nothing here.";
  else q.answer += fmt::format(" Bought ({}): {}.", ways_compared, told(c.worse, least, most));
  if (!c.better.empty()) q.answer += fmt::format(" Paid besides: {}.", told(c.better, least, most));
  return q;
}

LessonQuestion left_question(const std::vector<WayFigures>& ways, const LessonScale& by) {
  LessonQuestion q{"At the end every zone has had the same passes in all three ways. Is everything back where it was?",
                   {"yes", "nearly", "no"},
                   ""};
  bool all_back = true;
  for (const WayFigures& w : ways)
    all_back = all_back && w.twist_left < hardly_any_turn && (!by.can_slip || w.slip_left < hardly_any_slip) &&
               !w.gave_way;
  if (by.can_slip)
    q.answer +=
        "Slip that is left: " + each(ways, [](const WayFigures& w) { return small_length_both(w.slip_left); }) + " ";
  q.answer += "Twist that is left: " + each(ways, [](const WayFigures& w) { return lesson_angle(w.twist_left); });
  if (all_back) q.answer = "Yes, as far as one can see. " + q.answer;
  else q.answer += " What friction and shrunk cloth hold does not come back by itself.";
  q.answer += which_pass_limits(ways, by);
  if (std::any_of(ways.begin(), ways.end(), [](const WayFigures& w) { return w.gave_way; }))
    q.answer += " " + which_gave_way(ways);
  return q;
}

}  // namespace

OrderMatters order_matters(const std::vector<WayFigures>& ways, const LessonScale& by) {
  const WayFigures &wrong = ways.front(), &plain = ways.at(1), &plan = ways.back();
  const std::vector<Measure> all = measures(by);
  const Compared first = compare(all, wrong, plan), second = compare(all, plain, plan);
  OrderMatters out{headline(ways, first, second), ""};
  const bool any_gave_way = wrong.gave_way || plain.gave_way || plan.gave_way;
  if (any_gave_way) {
    out.finding = which_gave_way(ways);
    return out;
  }
  if (first.worse.empty() && first.better.empty()) {
    out.finding =
        fmt::format("{} comes out like {}: {}.", capital(wrong.name), plan.name, told(first.alike, wrong, plan));
  } else {
    if (!first.worse.empty())
      out.finding =
          fmt::format("{} does worse than {}: {}.", capital(wrong.name), plan.name, told(first.worse, wrong, plan));
    if (!first.better.empty())
      out.finding += fmt::format("{}{} does better in {}.", out.finding.empty() ? "" : " ",
                                 out.finding.empty() ? capital(wrong.name) : "It", told(first.better, wrong, plan));
  }
  if (!second.better.empty())
    out.finding +=
        fmt::format(" {} does better than {} in {}.", capital(plain.name), plan.name, told(second.better, plain, plan));
  if (!first.better.empty() || !second.better.empty())
    out.finding += " The plan weighs all limits, evenness and turn-overs together and need not be the best in each.";
  out.finding += which_pass_limits(ways, by);
  return out;
}

std::vector<LessonQuestion> lesson_questions(const std::vector<WayFigures>& ways, const LessonScale& by) {
  return {slip_question(ways, by), twist_question(ways, by), difference_question(ways), turning_question(ways, by),
          left_question(ways, by)};
}

std::string lesson_stage_text(const Plan& plan) {
  const std::string stage = stage_both(plan.the_case, plan.ceiling.value_or(0));
  if (coats_tauten(plan.the_case))
    return fmt::format(
        "The coats to come tauten, so the plan gives no verdict: shown is {}, for the lesson alone. Do not iron this "
        "panel "
        "by it.",
        stage);
  if (plan.first_look()) {
    const char* look = plan.quick() ? "C is the order of a first look (a quick plan), not of the full plan; it calls "
                                      "nothing safe. "
                                    : "The plan is a first look, without chances; it calls nothing safe. ";
    return look + (plan.ceiling ? fmt::format("Shown up to {}, which holds as stated.", stage)
                                : fmt::format("Not even as stated does a stage hold on this panel: shown is {}, to see "
                                              "why. Do not iron this panel by it.",
                                              stage));
  }
  if (plan.ceiling) return fmt::format("Shown up to {}, the hottest safe stage of the plan.", stage);
  return fmt::format(
      "The plan calls no stage of this panel safe: shown is {}, to see why. Do not iron this panel by it.", stage);
}

std::string lesson_plan_rule(const Plan& plan) {
  return (plan.quick() ? "As the first look has it: " : "As the plan has it: ") + order_name(plan.order) + ". " +
         order_rule(plan.order);
}

std::string lesson_angle(double radians) {
  const double degrees = radians * 180 / std::numbers::pi;
  return number_text(degrees, std::abs(degrees) < 0.1 ? 3 : 2) + "°";
}

std::string moment_words(const Plan& plan, std::size_t moment) {
  if (moment == 0 || moment > plan.steps.size()) return "before ironing";
  return fmt::format("after step {} ({})", moment, plan.panel.zones[plan.steps[moment - 1].zone].label);
}

std::string limit_line_text(const std::string& value) { return "hatched line: limit " + value; }
std::string limit_off_chart_text(const std::string& value) { return "limit " + value + " (off the chart)"; }

}  // namespace evenpull::viz
