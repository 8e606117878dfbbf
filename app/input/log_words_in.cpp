#include "app/input/log_words_in.hpp"

#include "app/input/read_measured.hpp"
#include "app/input/tap_readings.hpp"
#include "app/input/typed.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <sstream>
#include <tuple>

namespace evenpull {
namespace {

constexpr double stage_as_typed = 1.0;  // K: what was typed in the other scale may differ by its rounding

double stage_typed(const Typed& typed, const std::string& words, const std::vector<double>& stages) {
  const double kelvin = typed.quantity(words, Quantity::temperature, {300, 600, "one of the stages of the case"});
  for (const double s : stages)
    if (std::abs(s - kelvin) <= stage_as_typed) return s;
  std::string known;
  for (const double s : stages) known += (known.empty() ? "" : ", ") + viz::degrees_both(s);
  typed.refuse(fmt::format(
      "names {}, which is no stage of the case or its plan; they have {}. What the sole truly was goes into --sole",
      in_quotes(words), known));
}

// Of the case, and those that a plan goes on from at what the sole truly was.
std::vector<double> stages_of(const Case& c, const PlanDigest& plan) {
  std::vector<double> out;
  for (const Stage& s : c.stages) out.push_back(s.temperature);
  for (const PlanDigest::Step& p : plan.steps)
    if (std::none_of(out.begin(), out.end(),
                     [&](double s) { return std::abs(s - p.step.temperature) <= stage_as_typed; }))
      out.push_back(p.step.temperature);
  std::sort(out.begin(), out.end());
  return out;
}

struct At {
  std::optional<double> stage{};
  std::optional<int> pass{};
};

bool same_temperature(double a, double b) { return std::abs(a - b) < stage_as_typed; }

bool was_worked(const WorkSoFar& work, const OrderStep& s) {
  return std::any_of(work.steps.begin(), work.steps.end(), [&](const OrderStep& w) {
    return w.side == s.side && w.bay == s.bay && w.strip == s.strip && w.pass == s.pass &&
           same_temperature(w.temperature, s.temperature);
  });
}

std::vector<const PlanDigest::Step*> left_of(const PlanDigest& plan, const WorkSoFar& work, const At& at) {
  std::vector<const PlanDigest::Step*> out;
  for (const PlanDigest::Step& p : plan.steps) {
    if (at.stage && !same_temperature(p.step.temperature, *at.stage)) continue;
    if (at.pass && p.step.pass != *at.pass) continue;
    if (!was_worked(work, p.step)) out.push_back(&p);
  }
  return out;
}

std::vector<OrderStep> steps_of_kind(const std::string& words, const Typed& typed, const PlanDigest& plan,
                                     const WorkSoFar& work, const At& at) {
  const auto left = left_of(plan, work, at);
  if (left.empty()) typed.refuse("finds nothing left to work there: look with evenpull log CASE alone");
  const PlanDigest::Step& first = *left.front();
  std::vector<OrderStep> out;
  const auto take_while = [&](const auto& goes_on) {
    for (const PlanDigest::Step* p : left) {
      if (!goes_on(*p)) break;
      out.push_back(p->step);
    }
  };
  if (words == "run") {
    take_while([&](const PlanDigest::Step& p) {
      return p.run == first.run && p.step.pass == first.step.pass && p.step.temperature == first.step.temperature;
    });
  } else if (words == "stage") {
    take_while([&](const PlanDigest::Step& p) { return p.step.temperature == first.step.temperature; });
  } else {
    const auto number = words == "next" ? 1 : whole_number_in(trimmed(words.substr(4)));
    if (!number || *number < 1 || *number > static_cast<int>(left.size()))
      typed.refuse(fmt::format("is not understood: after next comes how many zones, from 1 to {}", left.size()));
    take_while([&](const PlanDigest::Step&) { return out.size() < static_cast<std::size_t>(*number); });
  }
  return out;
}

// The step of a zone: the next one of the plan for it, or the last pass there once more.
OrderStep step_for(const PlanDigest::Step& zone, const PlanDigest& plan, const WorkSoFar& work, const At& at,
                   const Typed& typed) {
  const auto is_it = [&](const OrderStep& s) {
    return s.side == zone.step.side && s.bay == zone.step.bay && s.strip == zone.step.strip;
  };
  const auto left = left_of(plan, work, at);
  const double now = at.stage              ? *at.stage
                     : !work.steps.empty() ? work.steps.back().temperature
                                           : plan.steps.front().step.temperature;
  const auto of_now = [&](const PlanDigest::Step* p) { return p->step.temperature <= now + stage_as_typed; };
  for (const PlanDigest::Step* p : left)
    if (is_it(p->step) && of_now(p)) return p->step;
  // Of a stage that is done, again at it or the first at the next: nobody but who did it knows.
  if (!at.stage && std::none_of(left.begin(), left.end(), of_now))
    typed.refuse(fmt::format("may be work done again or the next stage: say at which, like \"{:.0f} degF: {}\"",
                             to_degF(now), zone.label));
  // Worked again at this stage: no new pass begins with that.
  const OrderStep* again = nullptr;
  for (const PlanDigest::Step& p : plan.steps)
    if (is_it(p.step) && same_temperature(p.step.temperature, now)) again = &p.step;
  if (again) return *again;
  // A stage that this plan does not go to, at what a pass of it usually is.
  if (!at.stage)
    typed.refuse("names a zone that this plan does not work now: say at which stage, like \"300 degF: T3\"");
  OrderStep s = zone.step;
  s.temperature = *at.stage, s.pass = at.pass.value_or(1), s.dose = 1;
  return s;
}

std::vector<OrderStep> steps_of_zones(const std::string& words, const Typed& typed, const PlanDigest& plan,
                                      const WorkSoFar& work, const At& at) {
  // Each zone of the plan once, in the order in which a pass works them.
  std::vector<const PlanDigest::Step*> zones;
  for (const PlanDigest::Step& p : plan.steps)
    if (std::none_of(zones.begin(), zones.end(), [&](const auto* z) { return z->label == p.label; }))
      zones.push_back(&p);
  std::vector<std::string> labels;
  std::vector<int> bays;
  std::optional<Side> side;
  std::istringstream in(words);
  std::string word;
  while (in >> word) {
    while (!word.empty() && (word.back() == ',' || word.back() == '.')) word.pop_back();
    const std::string plain = lower_case(word);
    if (plain == "top" || plain == "bottom") {
      side = plain == "top" ? Side::top : Side::bottom;
    } else if (plain == "bay" || plain == "bays") {
      in >> word;
      const auto bay = whole_number_in(word);
      if (!bay) typed.refuse("is not understood: after bay comes its number, like \"bay 3\"");
      bays.push_back(*bay);
    } else {
      labels.push_back(plain);
    }
  }
  const auto is_meant = [&](const PlanDigest::Step& z) {
    const bool here = (side || !bays.empty()) && (!side || *side == z.step.side) &&
                      (bays.empty() || std::find(bays.begin(), bays.end(), z.step.bay) != bays.end());
    return here || std::find(labels.begin(), labels.end(), lower_case(z.label)) != labels.end();
  };
  std::vector<const PlanDigest::Step*> meant;
  for (const auto* z : zones)
    if (is_meant(*z)) meant.push_back(z);
  for (const std::string& label : labels) {
    std::vector<std::string> known;
    for (const auto* z : zones) known.push_back(z->label);
    if (std::any_of(known.begin(), known.end(), [&](const std::string& k) { return lower_case(k) == label; })) continue;
    const auto guess = nearest(label, known);
    typed.refuse(fmt::format(
        "names {}, which is no zone of this panel{}; say next, run, stage, top, bottom, bay N, or zones as on "
        "the drawing",
        in_quotes(label), guess.empty() ? "" : "; did you mean " + guess + "?"));
  }
  if (meant.empty())
    typed.refuse("names no zone: say next, run, stage, top, bottom, bay N, or zones as on the drawing");
  std::vector<OrderStep> out;
  for (const auto* z : meant) out.push_back(step_for(*z, plan, work, at, typed));
  return out;
}

// "300 degF, pass 2: T3 T4" parted at its colon.
At part_at(const std::string& text, std::string& rest, const Typed& typed, const std::vector<double>& stages) {
  At at;
  rest = trimmed(text);
  const auto colon = text.find(':');
  if (colon == std::string::npos) return at;
  std::istringstream parts(text.substr(0, colon));
  std::string part;
  while (std::getline(parts, part, ',')) {
    part = trimmed(part);
    if (lower_case(part).rfind("pass", 0) == 0) {
      at.pass = whole_number_in(trimmed(part.substr(4)));
      if (!at.pass || *at.pass < 1) typed.refuse("is not understood: after pass comes its number, like \"pass 2\"");
    } else {
      at.stage = stage_typed(typed, part, stages);
    }
  }
  rest = trimmed(text.substr(colon + 1));
  return at;
}

}  // namespace

std::vector<OrderStep> worked_steps_of(const std::string& text, const std::string& option, const PlanDigest& plan,
                                       const WorkSoFar& work, const Case& c) {
  const Typed typed(option, text);
  if (plan.steps.empty()) typed.refuse("finds no steps in the plan");
  std::string rest;
  const At at = part_at(text, rest, typed, stages_of(c, plan));
  const std::string words = lower_case(rest);
  const bool of_kind = words == "run" || words == "stage" || words == "next" || words.rfind("next ", 0) == 0;
  return of_kind ? steps_of_kind(words, typed, plan, work, at) : steps_of_zones(rest, typed, plan, work, at);
}

LogEntry reading_entry_of(const std::string& text, const std::string& option, const PlanDigest& plan,
                          const WorkSoFar& work, const Case& c) {
  const Typed typed(option, text);
  const char* const forms =
      "is not understood; write \"top, bay 2: 500 g = 3.4 mm\", \"top, bay 2 = 84 Hz\", \"trailing edge bow = 0.03 "
      "in\", \"twist = 2 "
      "mm\" or \"slip = 1 mm\"";
  LogEntry e;
  e.kind = LogEntry::Kind::read;
  std::string words = text;
  std::optional<double> stage;
  const auto colon = words.find(':');
  const std::string front = trimmed(words.substr(0, colon == std::string::npos ? 0 : colon));
  if (!front.empty() && std::isdigit(static_cast<unsigned char>(front[0]))) {
    stage = stage_typed(typed, front, stages_of(c, plan));
    words = trimmed(words.substr(colon + 1));
  }
  if (!stage && work.steps.empty())
    typed.refuse("was read before anything was ironed: log the bare frame as a --remark");
  e.after = stage.value_or(work.steps.empty() ? 0 : work.steps.back().temperature);
  const auto equals = words.find('=');
  if (equals == std::string::npos) typed.refuse(forms);
  const std::string value = trimmed(words.substr(equals + 1));
  const auto inner = words.find(':');
  const std::string name = lower_case(trimmed(words.substr(0, equals)));
  const bool of_bay = name.find("bay") != std::string::npos;
  if (inner == std::string::npos && !of_bay) {
    const auto& names = shape_names();
    const auto at = std::find(names.begin(), names.end(), name);
    if (at == names.end()) {
      const auto guess = nearest(name, names);
      typed.refuse(
          fmt::format("names {}, which is nothing to read{}; it may be {}, or a bay: \"top, bay 2: 500 g = 3.4 mm\"",
                      in_quotes(name), guess.empty() ? "" : "; did you mean " + guess + "?", list_words(names)));
    }
    e.reading.shape = shape_limit(static_cast<std::size_t>(at - names.begin()));
    e.reading.value = typed.quantity(value, Quantity::length, shape_range);
    return e;
  }
  int bays = 0;
  for (const PlanDigest::Step& p : plan.steps) bays = std::max(bays, p.step.bay);
  std::tie(e.reading.side, e.reading.bay) =
      typed.bay(words.substr(0, std::min(inner, equals)), bays, "\"top, bay 2: 500 g = 3.4 mm\"");
  if (inner == std::string::npos) {
    const auto tone = tone_in(value);
    if (!tone || *tone < lowest_by_ear || *tone > highest_by_ear)
      typed.refuse(fmt::format(
          "holds {}, which is no tone of a bay of cloth: it may be {:.0f} to {:.0f} Hz, usually 40 to 150. A sag "
          "comes with its weight: \"top, bay 2: 500 g = 3.4 mm\"",
          in_quotes(value), lowest_by_ear, highest_by_ear));
    e.reading.tone = *tone;
    return e;
  }
  e.reading.weight = typed.quantity(trimmed(words.substr(inner + 1, equals - inner - 1)), Quantity::mass, weight_range);
  e.reading.sag = typed.quantity(value, Quantity::length, sag_range);
  return e;
}

}  // namespace evenpull
