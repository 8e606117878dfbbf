#include "app/input/read_measured.hpp"

#include "app/input/tap_readings.hpp"
#include "sequencer/sure/shape_readings.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

/// A stage is named by its temperature; what was typed in the other scale may differ by its rounding. Where stages lie close
/// (`closest_stages` in app/input/case_parts.hpp) two are within this: the nearer one is meant.
constexpr double same_stage_kelvin = 1.0;
constexpr Range measured_bay_range{1, most::bays, "bays are counted from 1 at the inboard end"};

void check_done(const CaseTable& t, const Case& c, int stage, const std::vector<OrderStep>& steps,
                const std::vector<bool>& done) {
  const double kelvin = c.stages[static_cast<size_t>(stage)].temperature;
  bool worked = false, whole = true;
  for (size_t i = 0; i < steps.size(); ++i)
    if (steps[i].temperature == kelvin) worked = worked || done[i], whole = whole && done[i];
  if (!worked || !whole)
    t.fail("stage", fmt::format("is not done yet by the steps of this file: mark its steps done = true, or leave out "
                                "what was read after {}",
                                viz::degrees_both(kelvin)));
}

Measured read_one(const CaseTable& t, const Case& c) {
  Measured m;
  m.stage = stage_index(t, c);
  if (t.has("what")) {
    for (const char* other : {"side", "bay", "weight", "sag", "tone"})
      if (t.has(other)) t.fail(other, "does not belong to a reading of the whole panel: give what and value alone");
    m.shape = shape_limit(static_cast<size_t>(t.choice("what", shape_names())));
    m.value = t.quantity("value", Quantity::length, shape_range);
    return m;
  }
  m.side = t.choice("side", {"top", "bottom"}) == 0 ? Side::top : Side::bottom;
  m.bay = t.whole_number("bay", measured_bay_range) - 1;
  if (t.has("tone")) {
    for (const char* other : {"weight", "sag"})
      if (t.has(other)) t.fail(other, "does not belong to a tone: give a table of its own to each reading");
    const auto tone = tone_in(t.text("tone", "tone = \"84 Hz\""));
    if (!tone || *tone < lowest_by_ear || *tone > highest_by_ear)
      t.fail(
          "tone",
          fmt::format("is no tone of a bay of cloth: it may be {:.0f} to {:.0f} Hz, usually 40 to 150; write \"84 Hz\"",
                      lowest_by_ear, highest_by_ear));
    m.tone = *tone;
    return m;
  }
  m.weight = t.quantity("weight", Quantity::mass, weight_range);
  m.sag = t.quantity("sag", Quantity::length, sag_range);
  return m;
}

std::string measured_line(const Case& c, const Measured& m) {
  const auto stage =
      fmt::format("stage = \"{:.9g} degF\"", to_degF(c.stages[static_cast<size_t>(m.stage)].temperature));
  if (m.shape)
    return fmt::format("{{ {}, what = \"{}\", value = \"{:.6g} mm\" }}", stage, shape_name(*m.shape), m.value * 1e3);
  if (m.tone > 0)
    return fmt::format("{{ {}, side = \"{}\", bay = {}, tone = \"{:.6g} Hz\" }}", stage,
                       m.side == Side::top ? "top" : "bottom", m.bay + 1, m.tone);
  return fmt::format("{{ {}, side = \"{}\", bay = {}, weight = \"{:.6g} g\", sag = \"{:.6g} mm\" }}", stage,
                     m.side == Side::top ? "top" : "bottom", m.bay + 1, m.weight * 1e3, m.sag * 1e3);
}

}  // namespace

int stage_index(const CaseTable& t, const Case& c, const std::string& key) {
  const double kelvin = t.quantity(key, Quantity::temperature, {300, 600, "one of the stages of the case"});
  const auto off = [&](const Stage& s) { return std::abs(s.temperature - kelvin); };
  const auto nearest = std::min_element(c.stages.begin(), c.stages.end(),
                                        [&](const Stage& a, const Stage& b) { return off(a) < off(b); });
  if (off(*nearest) <= same_stage_kelvin) return static_cast<int>(nearest - c.stages.begin());
  std::string known;
  for (const Stage& s : c.stages) known += (known.empty() ? "" : ", ") + viz::degrees_both(s.temperature);
  t.fail(key, fmt::format("is no stage of the case, which has {}", known));
}

std::string shape_name(Limit limit) { return viz::limit_text(limit); }

Limit shape_limit(std::size_t name) { return shape_limits()[name]; }

const std::vector<std::string>& shape_names() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> names;
    for (const Limit l : shape_limits()) names.push_back(shape_name(l));
    return names;
  }();
  return all;
}

std::vector<Measured> read_measured(const CaseTable& top, const Case& c, const std::vector<OrderStep>& steps,
                                    const std::vector<bool>& done) {
  std::vector<Measured> out;
  for (const auto& t :
       top.tables("measured", {"stage", "side", "bay", "weight", "sag", "tone", "what", "value"}, most::order_steps)) {
    out.push_back(read_one(t, c));
    check_done(t, c, out.back().stage, steps, done);
  }
  return out;
}

std::vector<std::string> measured_lines(const Case& c, const std::vector<Measured>& readings) {
  std::vector<std::string> out;
  for (const Measured& m : readings) out.push_back(measured_line(c, m));
  return out;
}

std::vector<std::string> measured_lines(const Plan& plan) {
  std::vector<Measured> readings;
  for (const ReadingsTold::Of& r : plan.read.readings) readings.push_back(r.reading);
  return measured_lines(plan.the_case, readings);
}

}  // namespace evenpull
