#include "app/input/expected_pull.hpp"

#include "app/input/document.hpp"
#include "app/text/most.hpp"
#include "app/text/quoted.hpp"
#include "app/text/units.hpp"
#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>
#include <fstream>

namespace evenpull {
namespace {

constexpr double alike_kelvin = 1.0;  // as an order file names stages

const char* const no_plan = "is no plan.json of this program; give the one that `evenpull plan` wrote into its folder";

nlohmann::json read_plan(const std::string& path) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error))
    throw CaseFileError(path, {}, "--plan", "is not there; give plan.json from the folder of the plan");
  if (std::filesystem::file_size(path, error) > most::plan_bytes || error)
    throw CaseFileError(path, {}, "--plan", no_plan);
  std::ifstream in(path, std::ios::binary);
  const auto plan = nlohmann::json::parse(in, nullptr, false);
  if (!plan.is_object() || !plan.contains("stages") || !plan["stages"].is_array())
    throw CaseFileError(path, {}, "--plan", no_plan);
  return plan;
}

double mean_of_side(const nlohmann::json& stage, const char* way, const char* side) {
  const auto at = nlohmann::json::json_pointer(fmt::format("/mean_pull_N_per_m/{}/{}", way, side));
  return stage.contains(at) && stage.at(at).is_number() ? stage.at(at).get<double>() : 0;
}

}  // namespace

std::optional<int> expected_stage(const std::string& text, const Case& c) {
  if (text.empty()) return {};
  double kelvin = 0;
  try {
    kelvin = Units().parse(text, Quantity::temperature);
  } catch (const UnitError& e) {
    throw CaseFileError("--stage", {}, "", fmt::format("{} {}", in_quotes(text), e.what()));
  }
  std::string known;
  for (std::size_t s = 0; s < c.stages.size(); ++s) {
    if (std::abs(c.stages[s].temperature - kelvin) <= alike_kelvin) return static_cast<int>(s);
    known += (known.empty() ? "" : ", ") + viz::degrees_both(c.stages[s].temperature);
  }
  throw CaseFileError("--stage", {}, "",
                      fmt::format("{} is no stage of the case, which has {}", in_quotes(text), known));
}

std::array<double, 2> planned_pulls(const std::string& path, const Case& c, int stage) {
  const auto plan = read_plan(path);
  const double kelvin = c.stages[static_cast<std::size_t>(stage)].temperature;
  for (const auto& s : plan["stages"]) {
    if (!s.is_object() || !s.contains("stage_degF") || !s["stage_degF"].is_number()) continue;
    if (std::abs(s["stage_degF"].get<double>() - to_degF(kelvin)) > alike_kelvin * viz::kelvin_to_degF) continue;
    std::array<double, 2> out{};
    for (std::size_t k = 0; k < 2; ++k) {
      const char* side = k == 0 ? "top" : "bottom";
      out[k] = std::sqrt(mean_of_side(s, "chordwise", side) * mean_of_side(s, "spanwise", side));
      if (!(out[k] > 0))
        throw CaseFileError(
            path, {}, "--plan",
            fmt::format("tells no pull of the {} after {}: the plan does not get there, or its cloth is loose there",
                        side, viz::degrees_both(kelvin)));
    }
    return out;
  }
  throw CaseFileError(
      path, {}, "--plan",
      fmt::format("has no stage of {}: it is the plan of another case, or ends before it", viz::degrees_both(kelvin)));
}

}  // namespace evenpull
