// The work: iron, stages and limits.
#include "app/case_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

/// A stage may be written as a round figure in the other scale (177 degC for 350 degF) without leaving the measured
/// range.
constexpr double round_figure_kelvin = 1.0;

constexpr Range stage_range{323.15, 600, "stages are usually 250, 300 and 350 degF (121, 149, 177 degC)"};

struct DefaultStage {
  const char* temperature;
  std::vector<std::string> passes;
};
const std::vector<DefaultStage>& default_stages() {
  static const std::vector<DefaultStage> table = {
      {"250 degF", {"light", "light", "full"}}, {"300 degF", {"full", "full"}}, {"350 degF", {"full", "full"}}};
  return table;
}

struct Doses {
  double light = 0.25, full = 1;
};

double dose_of(const Doses& d, const CaseTable& stage, const Entry& e, const std::string& key) {
  if (e.kind == Entry::Kind::text) {
    if (plain_word(e.text) == "light") return d.light;
    if (plain_word(e.text) == "full") return d.full;
  }
  const bool word =
      e.kind == Entry::Kind::text && !e.text.empty() && std::isalpha(static_cast<unsigned char>(e.text.front()));
  if (word)
    stage.context().fail(key,
                         fmt::format("= \"{}\" is not a pass; write \"light\", \"full\" or a dose like 0.5", e.text));
  return stage.number_of(e, key, Quantity::fraction,
                         {0.01, 1, "a dose is more than 0 and at most 1 (1 = a full pass)"});
}

std::vector<double> read_doses(const CaseTable& t, const Doses& d, bool first) {
  std::vector<double> out;
  if (const auto* passes = t.find("passes")) {
    if (passes->kind != Entry::Kind::list || passes->list.empty())
      t.fail("passes", "must be a list like [\"light\", \"light\", \"full\"]");
    if (passes->list.size() > 12) t.fail("passes", "has more than 12 passes; two or three are usual");
    for (size_t i = 0; i < passes->list.size(); ++i)
      out.push_back(dose_of(d, t, passes->list[i], nth(t.path("passes"), i)));
    return out;
  }
  for (const auto& word : default_stages()[first ? 0 : 1].passes) out.push_back(word == "light" ? d.light : d.full);
  t.context().note_default(
      t.path("passes"), first ? "light, light, full" : "full, full",
      first ? "light passes first even the pull; estimate" : "two passes: common practice, no source");
  return out;
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
                                      print_temperature(hottest.temperature)));
  if (temperature > hottest.temperature) {
    t.context().doubts.push_back(fmt::format("The stage at {} is taken as {}, the hottest point of cloth.curve.",
                                             t.find("temperature")->text, print_temperature(hottest.temperature)));
    temperature = hottest.temperature;
  }
  if (temperature <= c.cloth.curve.front().temperature)
    t.fail("temperature", fmt::format("does not shrink the cloth at all: its onset is {}",
                                      print_temperature(c.cloth.curve.front().temperature)));
  if (degF > polyester_doubt_degF)
    t.context().doubts.push_back(
        fmt::format("A stage of {:.0f} °F is above {:.0f} °F, where polyester begins to lose tension.", degF,
                    polyester_doubt_degF));
}

}  // namespace

void read_iron(const CaseTable& top, Case& c) {
  const auto t = top.table_or_empty("iron", {"sole_length", "sole_width", "travel_speed", "cooling_time", "swing"});
  const Range sole{0.01, 0.5, "a household iron's sole is about 100 x 200 mm (4 x 8 in)"};
  c.iron.sole_length = t.quantity_or("sole_length", Quantity::length, sole, {0.20, "200 mm (8 in)", default_estimate});
  c.iron.sole_width = t.quantity_or("sole_width", Quantity::length, sole, {0.10, "100 mm (4 in)", default_estimate});
  c.iron.travel_speed = t.quantity_or("travel_speed", Quantity::speed, {0, 0.5, "20 to 50 mm/s (1 to 2 in/s) is usual"},
                                      {0.035, "35 mm/s (1.4 in/s)", "estimate (band 20 to 50 mm/s)"});
  c.iron.cooling_time = t.quantity_or("cooling_time", Quantity::time, {0, 60, "cloth cools in about 6 s"},
                                      {6, "6 s", "both faces in still air; computed"});
  c.iron.swing = t.quantity_or("swing", Quantity::temperature_difference,
                               {0, 60, "household irons swing by 8 to 20 K (15 to 35 degF)"},
                               {14, "±14 K (25 °F)", "estimate (band 8 to 20 K); check with a thermometer"});
}

void read_stages(const CaseTable& top, Case& c) {
  const auto doses = top.table_or_empty("doses", {"light", "full"});
  const Range dose_range{0.01, 1, "a dose is more than 0 and at most 1 (1 = a full pass)"};
  Doses d;
  d.light = doses.quantity_or("light", Quantity::fraction, dose_range,
                              {d.light, "0.25", "a contact too short for full shrink; estimate"});
  d.full = doses.quantity_or("full", Quantity::fraction, dose_range,
                             {d.full, "1", "every spot reaches the stage's full shrink; ideal"});
  if (d.light > d.full) doses.fail("light", "is more than a full pass");
  c.light_dose = d.light;
  const auto tables = top.tables("stage", {"temperature", "passes"});
  if (tables.empty()) {
    std::string printed;
    for (const auto& s : default_stages()) {
      const double kelvin = top.context().units.parse(s.temperature, Quantity::temperature);
      if (kelvin > c.cloth.curve.back().temperature) break;  // never beyond what is known of the cloth
      Stage stage{kelvin, {}};
      for (const auto& word : s.passes) stage.doses.push_back(word == "light" ? d.light : d.full);
      c.stages.push_back(stage);
      printed += fmt::format("{}{:.0f} °F {}", printed.empty() ? "" : "; ", to_degF(kelvin), fmt::join(s.passes, ", "));
    }
    if (c.stages.empty())
      top.missing("stage", "[[stage]] with temperature = \"250 degF\"; the cloth's curve ends below the usual stages");
    top.context().note_default("stage", printed, default_from_practice);
    c.passes_open = true;
    return;
  }
  if (tables.size() > 8) top.context().fail("stage", "there are more than 8 stages; three are usual");
  for (const auto& t : tables) {
    Stage stage;
    stage.temperature = t.quantity("temperature", Quantity::temperature, stage_range);
    check_temperature(t, c, stage.temperature);
    if (!c.stages.empty() && stage.temperature <= c.stages.back().temperature)
      t.fail("temperature", fmt::format("is not hotter than the stage before it ({}); stages rise",
                                        print_temperature(c.stages.back().temperature)));
    if (c.stages.empty()) c.passes_open = !t.has("passes");
    stage.doses = read_doses(t, d, c.stages.empty());
    c.stages.push_back(stage);
  }
}

void read_limits(const CaseTable& top, Case& c) {
  const auto t = top.table_or_empty("limits", {"yield_share", "rupture_share", "bow_per_spacing", "twist",
                                               "buckling_factor", "slip", "unevenness", "pull_difference"});
  auto& l = c.limits;
  const Range share{0.01, 1, "a share of the strength between 0 and 1; 0.5 leaves half for flight"};
  l.yield_share = t.quantity_or("yield_share", Quantity::fraction, share, {0.5, "0.5 (yield / 2)", default_judgement});
  l.rupture_share = t.quantity_or("rupture_share", Quantity::fraction, share,
                                  {1.0 / 3, "1/3 (modulus of rupture / 3)", default_judgement});
  l.bow_per_spacing = t.quantity_or("bow_per_spacing", Quantity::fraction, {0.0005, 0.2, "usually 0.005 to 0.02"},
                                    {0.01, "0.01 (spacing / 100)", default_judgement});
  l.twist = t.quantity_or("twist", Quantity::angle, {0.0005, 0.2, "usually 0.25 to 1 deg"},
                          {0.5 * M_PI / 180, "0.5 deg", default_judgement});
  l.buckling_factor = t.quantity_or("buckling_factor", Quantity::fraction, {1, 20, "at least 1; usually 2 to 4"},
                                    {2, "2", default_judgement});
  l.slip = t.quantity_or("slip", Quantity::length, {0.0001, 0.1, "usually 2 to 10 mm"},
                         {0.005, "5 mm (0.2 in)", default_judgement});
  l.unevenness = t.quantity_or("unevenness", Quantity::fraction, {0.01, 2, "usually 10 to 40 %"},
                               {0.25, "25 %", default_judgement});
  l.pull_difference =
      t.quantity_if("pull_difference", Quantity::force_per_width, {1, 5000, "usually 50 to 500 N/m (0.3 to 3 lb/in)"});
}

}  // namespace evenpull
