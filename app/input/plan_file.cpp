#include "app/input/plan_file.hpp"

#include "app/input/document.hpp"
#include "app/input/read_measured.hpp"
#include "sequencer/sure/shape_readings.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace evenpull {
namespace {

using PlanJson = nlohmann::ordered_json;

constexpr int plan_format = 1;
constexpr std::size_t most_plan_bytes = 64 * 1024 * 1024;

double kelvin_of(const PlanJson& degF) { return (degF.get<double>() + 459.67) / 1.8; }
Side side_in(const PlanJson& j) { return j.at("side") == "top" ? Side::top : Side::bottom; }

PlanDigest::Step step_in(const PlanJson& j) {
  PlanDigest::Step s;
  s.step = {kelvin_of(j.at("stage_degF")), j.at("pass").get<int>(),  side_in(j),
            j.at("bay").get<int>(),        j.at("strip").get<int>(), j.at("dose").get<double>()};
  s.label = j.at("zone").get<std::string>();
  s.run = j.at("run").get<int>();
  s.to_be_ironed = j.at("to_be_ironed").get<bool>();
  s.only_by_reading = j.at("only_by_reading").get<bool>();
  return s;
}

// The band of a bay is what mesh and formula leave open; cloth may pull half as much or twice as much as stated (docs/data.md), so
// that a bay beyond that band is told and no more.
PlanDigest::Bay bay_in(const PlanJson& j) {
  const double low = j.at("sag_mm").at(0).get<double>() / 1e3, high = j.at("sag_mm").at(1).get<double>() / 1e3;
  return {side_in(j), j.at("bay").get<int>() - 1, j.at("weight_g").get<double>() / 1e3, std::sqrt(low * high), low,
          high};
}

void take_window(PlanDigest::Stage& s, const PlanJson& j) {
  s.next = kelvin_of(j.at("to_stage_degF"));
  s.needed = j.at("only_by_reading").get<bool>();
  for (const PlanJson& b : j.at("every_bay_between"))
    s.window.push_back({side_in(b), b.at("bay").get<int>() - 1, j.at("weight_g").get<double>() / 1e3,
                        b.at("expected_mm").get<double>() / 1e3, b.at("sag_mm").at(0).get<double>() / 1e3,
                        b.at("sag_mm").at(1).get<double>() / 1e3});
}

// Beyond what 2 in 100 read, and never finer than a ruler tells.
void take_shape(PlanDigest::Stage& s, const PlanJson& j, const Case& c) {
  const auto& names = shape_names();
  const auto at = std::find(names.begin(), names.end(), j.at("name").get<std::string>());
  if (at == names.end()) return;
  const Limit limit = shape_limit(static_cast<std::size_t>(at - names.begin()));
  const double length = shape_length(c, limit);
  s.shapes.push_back({limit, j.at("expected").get<double>() * length,
                      std::max(shape_instrument(limit), j.at("seldom_more").get<double>() * length)});
}

PlanDigest::Stage stage_in(const PlanJson& j, const Case& c) {
  PlanDigest::Stage s;
  s.temperature = kelvin_of(j.at("stage_degF"));
  for (const PlanJson& b : j.at("weight_and_tap")) s.bays.push_back(bay_in(b));
  for (const PlanJson& r : j.at("to_be_read")) take_shape(s, r, c);
  if (!j.at("go_on").is_null()) take_window(s, j.at("go_on"));
  return s;
}

StageHours hours_in(const PlanJson& j) {
  return {kelvin_of(j.at("stage_degF")), j.at("ironing_s").get<double>(), j.at("turning_over_s").get<double>(),
          j.at("cooling_and_checks_s").get<double>(), j.at("turn_overs").get<int>()};
}

WorkSoFar::Reading reading_in(const PlanJson& j) {
  WorkSoFar::Reading r;
  r.after = kelvin_of(j.at("stage_degF"));
  if (j.contains("what")) {
    const auto& names = shape_names();
    const auto at = std::find(names.begin(), names.end(), j.at("what").get<std::string>());
    if (at != names.end()) r.reading.shape = shape_limit(static_cast<std::size_t>(at - names.begin()));
    r.reading.value = j.at("value_mm").get<double>() / 1e3;
    return r;
  }
  r.reading.side = side_in(j), r.reading.bay = j.at("bay").get<int>() - 1;
  if (!j.at("tone_Hz").is_null()) r.reading.tone = j.at("tone_Hz").get<double>();
  r.reading.weight = j.at("weight_g").get<double>() / 1e3, r.reading.sag = j.at("sag_mm").get<double>() / 1e3;
  return r;
}

}  // namespace

PlanDigest plan_digest_of(const std::string& text, const std::string& path, const Case& c) {
  try {
    const PlanJson j = PlanJson::parse(text);
    if (j.at("format") != plan_format)
      throw CaseFileError(path, {}, "format",
                          fmt::format("= {} is not known to this program: plan again", j.at("format").dump()));
    PlanDigest out;
    out.title = j.at("case").at("title").get<std::string>();
    out.case_file = j.at("case").at("file").get<std::string>();
    out.program = j.at("program").get<std::string>();
    out.order = j.at("order").at("name").get<std::string>();
    for (const PlanJson& t : j.at("times")) out.hours.push_back(hours_in(t));
    out.first_look = j.at("accuracy") == "quick";
    if (const PlanJson& safe = j.at("hottest_safe").at("stage_degF"); !safe.is_null())
      out.hottest_safe = kelvin_of(safe);
    for (const PlanJson& s : j.at("steps")) out.steps.push_back(step_in(s));
    for (const PlanJson& s : j.at("stages")) out.stages.push_back(stage_in(s, c));
    if (const PlanJson& read = j.at("read"); !read.is_null() && read.at("used").get<bool>())
      for (const PlanJson& r : read.at("readings")) out.read.push_back(reading_in(r));
    return out;
  } catch (const PlanJson::exception& e) {
    throw CaseFileError(path, {}, "", "is damaged, or was written by another version of evenpull: plan again");
  }
}

PlanDigest read_plan_folder(const std::string& folder, const Case& c) {
  return plan_digest_of(read_plan_text(folder), plan_file_in(folder), c);
}

std::string plan_file_in(const std::string& from) {
  const std::filesystem::path path(from);
  return (path.filename() == "plan.json" ? path : path / "plan.json").string();
}

std::string read_plan_text(const std::string& folder) {
  const std::filesystem::path file = plan_file_in(folder);
  std::error_code none;
  if (const auto bytes = std::filesystem::file_size(file, none); none || bytes > most_plan_bytes)
    throw CaseFileError(folder, {}, "",
                        none ? "holds no plan.json: make the plan first (evenpull plan CASE), or say with --plan (of "
                               "log) or --from where it lies"
                             : "holds a plan.json that is too long to be one of ours");
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

}  // namespace evenpull
