// The iron as the user states it, and what thermometer readings at its dial say.
#include "app/input/case_parts.hpp"
#include "shop/calibration.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

constexpr double soleplate_specific_heat = 900;  // J/(kg K), aluminium, from memory

DialReading read_reading(const CaseTable& t) {
  DialReading r;
  const auto* dial = t.find("dial");
  if (!dial) t.missing("dial", "dial = 3 (the mark, as a number; for words count them: 1, 2, 3)");
  if (dial->kind != Entry::Kind::number && dial->kind != Entry::Kind::integer)
    t.fail("dial", "must be a number without quotes; where the dial has words count them from the coolest: 1, 2, 3");
  if (!std::isfinite(dial->number) || std::abs(dial->number) > highest_mark)
    t.fail("dial",
           fmt::format("is no mark of a dial; marks are numbers from {:.0f} to {:.0f}", -highest_mark, highest_mark));
  r.dial = dial->number;
  const auto* sole = t.find("sole");
  if (!sole) t.missing("sole", "sole = [\"255 degF\", \"268 degF\", \"262 degF\"], read over a minute or two");
  if (sole->kind == Entry::Kind::list) {
    const auto& list = t.list("sole", {1, most::readings_of_a_mark, "sole = [\"255 degF\", \"268 degF\"]"});
    for (size_t i = 0; i < list.size(); ++i)
      r.sole.push_back(t.number_of(list[i], nth(t.path("sole"), i), Quantity::temperature, reading_range));
  } else {
    r.sole.push_back(t.number_of(*sole, t.path("sole"), Quantity::temperature, reading_range));
  }
  return r;
}

void check_reading(const CaseTable& t, const DialReading& r, Case& c) {
  const double degF = to_degF(mean_of(r));
  if (degF > polyester_refuse_degF)
    t.fail("sole", fmt::format("has a mean of {:.0f} degF at mark {}: above {:.0f} degF polyester loses its tension, "
                               "and near 480 degF it melts; never use that mark, and leave the reading out",
                               degF, print_number(r.dial), polyester_refuse_degF));
  if (degF > polyester_doubt_degF)
    t.context().doubts.push_back(fmt::format(
        "At mark {} the sole has {:.0f} °F in the mean, above {:.0f} °F, where polyester begins to lose tension.",
        print_number(r.dial), degF, polyester_doubt_degF));
  for (const DialReading& before : c.iron.readings) {
    if (before.dial >= r.dial)
      t.fail("dial",
             fmt::format("is not above the mark before it ({}); list marks from cool to hot, each once, with all "
                         "its readings in one list",
                         print_number(before.dial)));
    if (no_dial_shows_apart(before.dial, r.dial))
      t.fail("dial",
             fmt::format("is closer than {} to the mark before it ({}), which no dial shows; read the sole at marks "
                         "further apart",
                         closest_marks, print_number(before.dial)));
    if (mean_of(before) >= mean_of(r))
      t.fail("sole",
             fmt::format("does not rise: mark {} gave {:.0f} degF and mark {} gives {:.0f} degF; wait until the "
                         "thermostat has clicked twice after each change and read again",
                         print_number(before.dial), to_degF(mean_of(before)), print_number(r.dial), degF));
  }
}

void check_sole(const CaseTable& t, const Case& c) {
  double chord = 0;
  for (size_t i = 0; i < std::min(c.outline.leading_edge.size(), c.outline.trailing_edge.size()); ++i)
    chord = std::max(chord, c.outline.trailing_edge[i].x - c.outline.leading_edge[i].x);
  const double span = c.outline.span();
  const double length = std::max(c.iron.sole_length, c.iron.sole_width);
  const double width = std::min(c.iron.sole_length, c.iron.sole_width);
  if (length <= std::max(chord, span) && width <= std::min(chord, span)) return;
  const auto* key = t.has("sole_length") ? "sole_length" : t.has("sole_width") ? "sole_width" : nullptr;
  const auto sole = fmt::format("{} x {}", print_length(length), print_length(width)),
             panel = fmt::format("{} x {}", print_length(span), print_length(chord));
  if (key) t.fail(key, fmt::format("makes the sole ({}) larger than the panel ({}); check the units", sole, panel));
  else
    t.context().fail(
        "iron", fmt::format("the usual sole ({}) is larger than the panel ({}); write the sole_length and sole_width "
                            "of yours",
                            sole, panel));
}

}  // namespace

void read_iron(const CaseTable& top, Case& c) {
  const auto t = top.table_or_empty(
      "iron", {"sole_length", "sole_width", "travel_speed", "cooling_time", "swing", "mass", "power", "conductance",
               "fastest_stroke", "longest_dwell", "hand_scatter", "overlap", "missed", "room", "reading"});
  const Range sole{0.01, 0.5, "a household iron's sole is about 100 x 200 mm (4 x 8 in)"};
  auto& iron = c.iron;
  iron.sole_length = t.quantity_or("sole_length", Quantity::length, sole, {0.20, "200 mm (8 in)", default_estimate});
  iron.sole_width = t.quantity_or("sole_width", Quantity::length, sole, {0.10, "100 mm (4 in)", default_estimate});
  check_sole(t, c);
  iron.travel_speed = t.quantity_or("travel_speed", Quantity::speed, {0, 0.5, "20 to 50 mm/s (1 to 2 in/s) is usual"},
                                    {0.035, "35 mm/s (1.4 in/s)", "estimate (band 20 to 50 mm/s)"});
  iron.room = t.quantity_or("room", Quantity::temperature, {263.15, 323.15, "a workshop has 15 to 30 degC"},
                            {293.15, "20 °C (68 °F)", default_estimate});
  if (const auto cooling = t.quantity_if("cooling_time", Quantity::time, {0, 60, "cloth cools in 3 to 6 s"}))
    iron.cooling_time = *cooling;
  else t.context().left_open.cooling_time = t.context().hold_default(t.path("cooling_time"));
  for (const auto& r : t.tables("reading", {"dial", "sole"}, most::marks)) {
    const DialReading reading = read_reading(r);
    check_reading(r, reading, c);
    iron.readings.push_back(reading);
  }
  const double measured = measured_swing(iron.readings);
  const auto swing_words = fmt::format("±{:.0f} K (±{:.0f} °F)", measured, measured * 1.8);
  iron.swing = t.quantity_or(
      "swing", Quantity::temperature_difference, swing_range,
      measured > 0 ? Default{measured, swing_words.c_str(), "half the range of the readings in iron.reading"}
                   : Default{14, "±14 K (25 °F)", "estimate (band 8 to 20 K); check with a thermometer"});
  iron.heat_capacity = soleplate_specific_heat * t.quantity_or("mass", Quantity::mass,
                                                               {0.05, 5, "a household iron has about 1.2 kg"},
                                                               {1.2, "1.2 kg", default_estimate});
  iron.power = t.quantity_or("power", Quantity::power, {20, 4000, "a household iron has 1000 to 1500 W"},
                             {1200, "1200 W", default_estimate});
  iron.conductance = t.quantity_or("conductance", Quantity::conductance,
                                   {50, 3000, "150 to 1000 W/m^2/K; 400 is usual"},
                                   {400, "400 W/(m² K)", "estimate (band 150 to 1000); rises with pressure"});
  iron.fastest_stroke = t.quantity_or("fastest_stroke", Quantity::speed, {0.02, 2, "about 0.3 m/s (12 in/s)"},
                                      {0.30, "0.3 m/s (12 in/s)", "what a hand keeps even; judgement"});
  iron.longest_dwell = t.quantity_or("longest_dwell", Quantity::time, {1, 120, "10 to 30 s"},
                                     {20, "20 s", "what anybody waits on one spot; judgement"});
  iron.hand_scatter = t.quantity_or("hand_scatter", Quantity::fraction, {0, 1, "a share of the dwell, usually 25 %"},
                                    {0.25, "±25 %", default_estimate});
  iron.overlap = t.quantity_or("overlap", Quantity::fraction,
                               {0, 0.9, "a share of a stroke's width, usually 10 to 30 %"},
                               {0.20, "20 %", default_estimate});
  iron.missed = t.quantity_or("missed", Quantity::fraction, {0, 0.5, "a share of the area, usually 0 to 5 %"},
                              {0.03, "3 %", default_estimate});
}

}  // namespace evenpull
