// iron: from thermometer readings to the marks of the dial, on the screen and as a card.
#include "app/command/commands.hpp"
#include "app/input/case_parts.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/typed.hpp"
#include "app/output/json_number.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/quoted.hpp"
#include "app/text/units.hpp"
#include "app/text/version.hpp"
#include "shop/calibration.hpp"
#include "solver/heat/pass_heat.hpp"
#include "viz/sheet/iron_card.hpp"
#include "viz/words/print.hpp"
#include "viz/words/terminal_text.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <ostream>

namespace evenpull {
namespace {

// Scatter of single readings (one sigma) where there are too few to tell, and swing where nobody says: a household iron.
constexpr double assumed_swing = 14;  // K, estimate
constexpr double sine_over_its_root_mean_square = 1.4142135623730951;
constexpr double assumed_scatter = assumed_swing / sine_over_its_root_mean_square;  // K
constexpr int curve_points = 40;
constexpr double drawn_beyond = 0.1;  // of the range of marks

struct Check {
  std::string title;
  std::vector<DialReading> readings;
  double swing = 0;
  bool swing_assumed = false;
  std::vector<double> stages;
  std::optional<Case> the_case;
  FilePlace place;  ///< of the readings in the case
};

[[noreturn]] void refuse(const std::string& sentence) { throw CaseFileError("--reading", {}, "", sentence); }

/// A number and nothing else.
bool parse_mark(std::string text, double& mark) {
  text.erase(0, text.find_first_not_of(' '));
  text.erase(text.find_last_not_of(' ') + 1);
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), mark);
  return error == std::errc{} && end == text.data() + text.size() && std::isfinite(mark) &&
         std::abs(mark) <= highest_mark;
}

/// "3 = 255 degF, 268 degF"
DialReading parse_reading(const std::string& text) {
  const Typed typed("--reading", text);
  const auto equals = text.find('=');
  DialReading r;
  if (equals == std::string::npos || !parse_mark(text.substr(0, equals), r.dial))
    typed.refuse(fmt::format(
        "is not a reading; write --reading \"3 = 255 degF, 268 degF\": the mark as a number up to {:.0f}, =, and the "
        "temperatures read there",
        highest_mark));
  for (const std::string& one : parted_at(text.substr(equals + 1), ',')) {
    r.sole.push_back(typed.quantity(one, Quantity::temperature, reading_range));
    if (r.sole.size() > most::readings_of_a_mark)
      typed.refuse(
          fmt::format("has more than {} temperatures, which is the most for a mark", most::readings_of_a_mark));
  }
  return r;
}

void refuse_damage(const std::vector<DialReading>& readings) {
  for (const DialReading& r : readings)
    if (mean_of(r) > damage_certain)
      refuse(
          fmt::format("mark {} has a mean of {}: above 400 °F (204 °C) polyester loses its tension, and near 480 °F it "
                      "melts; never use that mark, and leave the reading out",
                      print_number(r.dial), viz::degrees_both(mean_of(r))));
}

Check check_of(const Request& r) {
  Check k;
  if (!r.case_file.empty()) {
    auto file = read_case_file(r.case_file);
    k.place = file.place_of("iron.reading");
    k.the_case = std::move(file.value);
    k.title = k.the_case->title;
    k.readings = k.the_case->iron.readings;
    k.swing = k.the_case->iron.swing;
    for (const Stage& s : k.the_case->stages) k.stages.push_back(s.temperature);
  } else {
    k.title = "readings given on the command line";
    for (const auto* s : {"250 degF", "300 degF", "350 degF"})  // common practice, no source
      k.stages.push_back(Units().parse(s, Quantity::temperature));
  }
  if (!r.readings.empty()) {
    k.readings.clear();
    if (r.readings.size() > most::marks)
      refuse(fmt::format("is given {} times; {} marks are the most", r.readings.size(), most::marks));
    for (const auto& text : r.readings) k.readings.push_back(parse_reading(text));
    std::stable_sort(k.readings.begin(), k.readings.end(),
                     [](const auto& a, const auto& b) { return a.dial < b.dial; });
    refuse_damage(k.readings);
  }
  if (k.readings.empty())
    throw CaseFileError(
        r.case_file.empty() ? "evenpull iron" : r.case_file, k.place, "iron.reading",
        "there are no thermometer readings; add [[iron.reading]] with dial = 3 and sole = [\"255 degF\", "
        "\"268 degF\"] to the case, or give --reading \"3 = 255 degF, 268 degF\" for each mark");
  if (!r.swing.empty()) {
    k.swing = Typed("--swing", r.swing).quantity(Quantity::temperature_difference, swing_range);
  } else if (!k.the_case || !r.readings.empty()) {
    k.swing = measured_swing(k.readings);
    k.swing_assumed = !(k.swing > 0);
    if (k.swing_assumed) k.swing = assumed_swing;
  }
  return k;
}

std::string hold_of(const Check& k, double temperature) {
  if (!k.the_case) return "";
  const PassHeat p = pass_heat(*k.the_case, temperature, 1);
  return fmt::format("{:.1f} s", p.open.contact) + (p.nose ? fmt::format(", nose {:.0f} s", p.nose->contact) : "");
}

void add_warnings(IronCard& card, const DialCurve& curve, const std::vector<DialSetting>& settings, const Check& k) {
  for (const DialSetting& s : settings) {
    const auto at = viz::degrees_f(s.temperature);
    if (!s.mark) card.warnings.push_back(fmt::format("{}: no mark near it was read. Read the sole there first.", at));
    else if (s.mean_in_damage)
      card.warnings.push_back(
          fmt::format("{}: the mean may stand above 375 °F, where polyester begins to lose tension.", at));
    if (s.mark && s.swing_in_damage)
      card.warnings.push_back(fmt::format("{}: at moments the sole may stand above 400 °F. Let it settle first.", at));
  }
  if (!curve.scatter_known())
    card.notes.push_back("Too few readings to tell their scatter: the bands are a guess. Read each mark three times.");
  if (k.swing_assumed)
    card.notes.push_back(fmt::format("Swing not measured: ± {:.0f} °F taken, as household irons have.", k.swing * 1.8));
}

IronCard card_of(const Check& k, const DialCurve& curve, const std::vector<DialSetting>& settings) {
  IronCard card;
  card.title = k.title;
  for (const DialSetting& s : settings) {
    IronCardStage row;
    row.temperature = s.temperature;
    row.mark = s.mark ? fmt::format("{:.{}f}", *s.mark, s.decimals) : "not read";
    row.band = s.mark ? fmt::format("{:.0f} to {:.0f} °F", to_degF(s.coolest), to_degF(s.hottest)) : "-";
    row.hold = s.mark ? hold_of(k, s.temperature) : "";
    row.warn = !s.mark || s.mean_in_damage || s.swing_in_damage;
    card.stages.push_back(row);
  }
  add_warnings(card, curve, settings, k);
  card.notes.push_back(
      fmt::format("Mean of the sole certain to ± {:.0f} °F at the worst stage (95 %); on top it swings ± {:.0f} °F.",
                  1.8 * std::max_element(settings.begin(), settings.end(),
                                         [](const auto& a, const auto& b) { return a.plus_minus < b.plus_minus; })
                            ->plus_minus,
                  1.8 * k.swing));
  card.notes.push_back("Wait for two clicks of the thermostat after each change. Read again before each job.");
  for (const DialReading& r : k.readings)
    for (const double t : r.sole) card.readings.push_back({r.dial, t});
  const double room = drawn_beyond * (curve.highest() - curve.lowest());
  for (int i = 0; i <= curve_points; ++i) {
    const double x = curve.lowest() - room + (curve.highest() - curve.lowest() + 2 * room) * i / curve_points;
    card.curve.push_back({x, curve.at(x), curve.plus_minus(x)});
  }
  return card;
}

Json json_of(const Check& k, const DialCurve& curve, const std::vector<DialSetting>& settings, const IronCard& card) {
  auto stages = Json::array();
  for (const DialSetting& s : settings)
    stages.push_back({{"stage_degF", json_number(to_degF(s.temperature), "stage")},
                      {"dial", s.mark ? json_number(*s.mark, "dial") : Json(nullptr)},
                      {"dial_plus_minus", json_number(s.mark_plus_minus, "dial_plus_minus")},
                      {"mean_plus_minus_K", json_number(s.plus_minus, "plus_minus")},
                      {"coolest_degF", s.mark ? json_number(to_degF(s.coolest), "coolest") : Json(nullptr)},
                      {"hottest_degF", s.mark ? json_number(to_degF(s.hottest), "hottest") : Json(nullptr)}});
  Json j;
  j["format"] = 1;
  j["program"] = std::string("evenpull ") + version();
  j["title"] = k.title;
  j["curve"] = curve.bent() ? "parabola" : "straight line";
  j["scatter_K"] = json_number(curve.scatter(), "scatter");
  j["scatter_known"] = curve.scatter_known();
  j["swing_K"] = json_number(k.swing, "swing");
  j["swing_assumed"] = k.swing_assumed;
  j["stages"] = stages;
  j["warnings"] = card.warnings;
  j["notes"] = card.notes;
  return j;
}

std::string words_of(const IronCard& card, const std::string& folder) {
  std::string text =
      "Iron check: " + on_one_line(card.title) + "\n\n    stage         dial    the sole will swing    hold\n";
  for (const auto& s : card.stages)
    text += fmt::format("    {:<12}  {:<8}  {:<20}  {}\n", viz::degrees_f(s.temperature), s.mark, s.band, s.hold);
  text += "\n";
  for (const auto& w : card.warnings) text += "  WARNING: " + wrap_text(w, 11) + "\n";
  for (const auto& n : card.notes) text += "  - " + wrap_text(n, 4) + "\n";
  return text + "\n  Card to print: " + folder + "/iron-card.pdf\n";
}

}  // namespace

void run_iron(const Request& r, std::ostream& out) {
  const Check k = check_of(r);
  ResultFolder folder(result_folder_of(r), say_on_errors);
  std::optional<DialCurve> curve;
  try {
    curve.emplace(k.readings, k.swing > 0 ? k.swing / sine_over_its_root_mean_square : assumed_scatter);
  } catch (const ReadingsError& e) {
    throw CaseFileError(r.readings.empty() ? r.case_file : "--reading", r.readings.empty() ? k.place : FilePlace{},
                        "iron.reading", e.what());
  }
  std::vector<DialSetting> settings;
  for (const double t : k.stages) settings.push_back(setting_for_stage(*curve, t, k.swing));
  const IronCard card = card_of(k, *curve, settings);
  const std::string document = json_text(json_of(k, *curve, settings, card));
  const auto aside = folder.open();
  folder.write("iron.json", document);
  folder.draw([&] { write_iron_card(card, r.paper, version_and_commit(), (aside / "iron-card.pdf").string()); });
  folder.publish();
  say(r, out, document, [&] { return words_of(card, shown_result_folder(r)); });
}

}  // namespace evenpull
