// The work: stages and limits.
#include "app/input/case_parts.hpp"
#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

/// A stage may be written as a round figure in the other scale (177 degC for 350 degF) without leaving the measured
/// range.
constexpr double round_figure_kelvin = 1.0;

constexpr Range stage_range{323.15, 600, "stages are usually 250, 300 and 350 degF (121, 149, 177 degC)"};

constexpr const char* default_stages[] = {"250 degF", "300 degF", "350 degF"};

struct Doses {
  double light = 0.25, full = 1;
};

/// A pass is a word, a dose, or the time that the sole lies on each spot.
struct PassEntry {
  double dose = 0;
  double dwell = 0;  ///< s; 0: found from the dose, which else is found from it
};

bool is_time(const std::string& text) {
  const auto letter = std::find_if(text.begin(), text.end(), [](unsigned char c) { return std::isalpha(c) != 0; });
  return letter != text.end() && letter != text.begin();
}

PassEntry pass_of(const Doses& d, const CaseTable& stage, const Entry& e, const std::string& key) {
  if (e.kind == Entry::Kind::text) {
    if (plain_word(e.text) == "light") return {d.light, 0};
    if (plain_word(e.text) == "full") return {d.full, 0};
  }
  const bool word = e.kind == Entry::Kind::text && !e.text.empty() &&
                    std::isalpha(static_cast<unsigned char>(e.text.front()));
  if (word)
    stage.context().fail(key, fmt::format("= {} is not a pass; write \"light\", \"full\", a dose like 0.5, or how "
                                          "long the sole lies on each spot, like \"3 s\"",
                                          e.shown()));
  if (e.kind == Entry::Kind::text && is_time(e.text)) {
    const double dwell = stage.number_of(
        e, key, Quantity::time,
        {0.05, 120,
         "a dwell is the time the sole lies on a spot: 3 to 4 s over an open bay; none at all heats nothing"});
    return {0, dwell};
  }
  return {stage.number_of(e, key, Quantity::fraction,
                          {least_dose, 1, "a dose is more than 0 and at most 1 (1 = a full pass)"}),
          0};
}

void read_passes(const CaseTable& t, const Doses& d, bool first, Stage& stage) {
  if (t.has("passes")) {
    const auto& list =
        t.list("passes", {1, most::passes, "passes = [\"light\", \"light\", \"full\"]; two or three are usual"});
    bool stated = false;
    for (size_t i = 0; i < list.size(); ++i) {
      const PassEntry pass = pass_of(d, t, list[i], nth(t.path("passes"), i));
      stage.doses.push_back(pass.dose);
      stage.dwells.push_back(pass.dwell);
      stated = stated || pass.dwell > 0;
    }
    if (!stated) stage.dwells.clear();
    return;
  }
  if (first) {
    t.context().left_open.first_passes = t.context().hold_default(t.path("passes"));
    return;
  }
  stage.doses = {d.full, d.full};
  t.context().note_default(t.path("passes"), "full, full",
                           "two passes: common practice, no source; a plan tries others");
}

void check_temperature(const CaseTable& t, Case& c, double& temperature) {
  const double degF = to_degF(temperature);
  if (degF > polyester_refuse_degF)
    t.fail("temperature", fmt::format("is above {:.0f} degF (204 degC): polyester loses its tension there and melts "
                                      "near 480 degF; never iron that hot. "
                                      "Usual stages are 250, 300 and 350 degF by thermometer",
                                      polyester_refuse_degF));
  const auto& hottest = c.cloth.curve.back();
  if (temperature > hottest.temperature + round_figure_kelvin)
    t.fail("temperature", fmt::format("is hotter than the hottest point of cloth.curve ({}); nothing is known of the "
                                      "cloth above it: add a measured "
                                      "point, or stay at or below it",
                                      viz::degrees_both(hottest.temperature)));
  if (temperature > hottest.temperature) {
    t.context().doubts.push_back(fmt::format("The stage at {} is taken as {}, the hottest point of cloth.curve.",
                                             t.find("temperature")->shown(), viz::degrees_both(hottest.temperature)));
    temperature = hottest.temperature;
  }
  if (temperature <= c.cloth.curve.front().temperature)
    t.fail("temperature", fmt::format("does not shrink the cloth at all: its onset is {}",
                                      viz::degrees_both(c.cloth.curve.front().temperature)));
  if (degF > polyester_doubt_degF)
    t.context().doubts.push_back(
        fmt::format("A stage of {:.0f} °F is above {:.0f} °F, where polyester begins to lose tension.", degF,
                    polyester_doubt_degF));
}

}  // namespace

void read_stages(const CaseTable& top, Case& c) {
  const auto doses = top.table_or_empty("doses", {"light", "full"});
  const Range dose_range{least_dose, 1, "a dose is more than 0 and at most 1 (1 = a full pass)"};
  Doses d;
  d.light = doses.quantity_or("light", Quantity::fraction, dose_range,
                              {d.light, "0.25", "a contact too short for full shrink; estimate"});
  d.full = doses.quantity_or("full", Quantity::fraction, dose_range,
                             {d.full, "1", "every spot reaches the stage's full shrink; ideal"});
  if (d.light > d.full)
    doses.context().fail(doses.path("light"), fmt::format("= {} is more than a full pass, {}; a light pass brings less",
                                                          print_number(d.light), print_number(d.full)));
  c.light_dose = d.light;
  c.light_dose_open = !doses.has("light");
  const auto tables = top.tables("stage", {"temperature", "passes"}, most::stages);
  top.context().left_open.full_dose = d.full;
  if (tables.empty()) {
    for (const char* temperature : default_stages) {
      const double kelvin = top.context().units.parse(temperature, Quantity::temperature);
      if (kelvin > c.cloth.curve.back().temperature) break;  // never beyond what is known of the cloth
      c.stages.push_back({kelvin, {}, {}, true});
    }
    if (c.stages.empty())
      top.missing("stage", "[[stage]] with temperature = \"250 degF\"; the cloth's curve ends below the usual stages");
    top.context().left_open.all_stages = top.context().hold_default("stage");
    return;
  }
  for (const auto& t : tables) {
    Stage stage;
    stage.temperature = t.quantity("temperature", Quantity::temperature, stage_range);
    check_temperature(t, c, stage.temperature);
    if (!c.stages.empty() && stage.temperature <= c.stages.back().temperature)
      t.fail("temperature", fmt::format("is not hotter than the stage before it ({}); stages rise",
                                        viz::degrees_both(c.stages.back().temperature)));
    if (!c.stages.empty() && to_degF(stage.temperature) - to_degF(c.stages.back().temperature) < closest_stages_degF)
      t.fail("temperature",
             fmt::format("is too close to the stage before it ({}); stages are at least {:.0f} degF (1.1 degC) apart, "
                         "since an order file names them by their temperature",
                         viz::degrees_both(c.stages.back().temperature), closest_stages_degF));
    stage.passes_open = !t.has("passes");
    read_passes(t, d, c.stages.empty(), stage);
    c.stages.push_back(stage);
  }
}

void read_limits(const CaseTable& top, Case& c) {
  const auto t = top.table_or_empty(
      "limits", {"yield_share", "rupture_share", "bow_per_spacing", "twist", "buckling_factor", "slip", "unevenness",
                 "pull_difference", "least_bow", "whole_edge_bow", "hinge_line_bow", "crippling_share", "waves"});
  auto& l = c.limits;
  const Range share{0.01, 1, "a share of the strength between 0 and 1; 0.5 leaves half for flight"};
  l.yield_share = t.quantity_or("yield_share", Quantity::fraction, share, {0.5, "0.5 (yield / 2)", default_judgement});
  l.rupture_share = t.quantity_or("rupture_share", Quantity::fraction, share,
                                  {1.0 / 3, "1/3 (modulus of rupture / 3)", default_judgement});
  l.bow_per_spacing = t.quantity_or("bow_per_spacing", Quantity::fraction, {0.0005, 0.2, "usually 0.005 to 0.02"},
                                    {0.005, "0.005 (spacing / 200)", default_judgement});
  if (t.has("bow_per_spacing") && !t.has("least_bow"))
    t.context().note_default(t.path("least_bow"), "0", "a stated bow_per_spacing holds however short the bay");
  else
    l.least_bow = t.quantity_or("least_bow", Quantity::length, {0, 0.02, "usually 0.5 to 3 mm (1/32 to 1/8 in)"},
                                {0.0254 / 16, "1/16 in (1.6 mm)", default_judgement});
  l.whole_edge_bow =
      t.quantity_if("whole_edge_bow", Quantity::fraction, {0.0002, 0.1, "a share of its length, usually 0.002 to 0.01"})
          .value_or(0);
  l.hinge_line_bow =
      t.quantity_if("hinge_line_bow", Quantity::length, {0.0001, 0.05, "usually 0.5 to 3 mm (1/32 to 1/8 in)"})
          .value_or(0);
  l.twist = t.quantity_or("twist", Quantity::angle, {0.0005, 0.2, "usually 0.25 to 1 deg"},
                          {0.5 * M_PI / 180, "0.5 deg", default_judgement});
  l.buckling_factor = t.quantity_or("buckling_factor", Quantity::fraction, {1, 20, "at least 1; usually 2 to 4"},
                                    {2, "2", default_judgement});
  l.slip = t.quantity_or("slip", Quantity::length, {0.0001, 0.1, "usually 2 to 10 mm"},
                         {0.005, "5 mm (0.2 in)", default_judgement});
  l.unevenness = t.quantity_or("unevenness", Quantity::fraction, {0.01, 2, "usually 10 to 40 %"},
                               {0.25, "25 %", default_judgement});
  l.crippling_share = t.quantity_or("crippling_share", Quantity::fraction,
                                    {0, 1, "a share of the stress at which thin sheet cripples; 0 leaves it out"},
                                    {2.0 / 3, "2/3 (crippling / 1.5)", default_judgement});
  l.waves = t.quantity_or("waves", Quantity::fraction,
                          {0, 20, "usually 1: told where the legs of a folded trailing edge go wavy; 0 leaves it out"},
                          {1, "1", default_judgement});
  l.pull_difference =
      t.quantity_if("pull_difference", Quantity::force_per_width, {1, 5000, "usually 50 to 500 N/m (0.3 to 3 lb/in)"});
}

// What orders are compared by beside the use of the limits.
void read_score(const CaseTable& top, Case& c) {
  const auto t = top.table_or_empty("score", {"pull_difference", "unevenness", "turn_over", "no_rule_turn_overs"});
  Score& s = c.score;
  constexpr double newtons_a_metre = 100;  // that the price of a pull difference is stated for
  const auto price = [&](const char* key, double usual, double most, const char* usually, const char* printed) {
    return t.quantity_or(key, Quantity::fraction, {0, most, usually}, {usual, printed, default_judgement});
  };
  s.pull_difference = price("pull_difference", newtons_a_metre * s.pull_difference, 1,
                            "a share of a limit for each 100 N/m (0.6 lb/in), usually 0.05",
                            "0.05 for each 100 N/m (0.6 lb/in)") /
                      newtons_a_metre;
  s.unevenness = price("unevenness", s.unevenness, 2, "a share of a limit, usually 0.2", "0.2");
  s.turn_over = price("turn_over", s.turn_over, 0.1, "a share of a limit for each turn-over, usually 0.001", "0.001");
  s.no_rule_turn_overs = price("no_rule_turn_overs", s.no_rule_turn_overs, 100,
                               "turn-overs that following a list zone by zone is as much trouble as, usually 3", "3");
}

}  // namespace evenpull
