#include "app/input/page_file.hpp"

#include "app/input/document.hpp"
#include "app/input/raw_file.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

using PageJson = nlohmann::ordered_json;

constexpr const char* page_key = "evenpull_page";
constexpr double same_on_page = 1 / 1.8;  // K
constexpr double same_sag = 1e-5;         // m: a hundredth of a millimetre is nothing that anybody read anew

double page_kelvin(const PageJson& degF) { return (degF.get<double>() + 459.67) / 1.8; }

bool same_step(const OrderStep& a, const OrderStep& b) {
  return a.side == b.side && a.bay == b.bay && a.strip == b.strip && a.pass == b.pass &&
         std::abs(a.temperature - b.temperature) <= same_on_page;
}

void add_worked(std::vector<LogEntry>& out, const PageJson& worked, const std::string& path, const PlanDigest& plan,
                const WorkSoFar& work) {
  for (const PageJson& number : worked) {
    const int i = number.get<int>();
    if (i < 1 || i > static_cast<int>(plan.steps.size()))
      throw CaseFileError(
          path, {}, "worked",
          fmt::format("= {}: the plan has {} steps; was this page saved of another plan?", i, plan.steps.size()));
    const OrderStep& s = plan.steps[static_cast<std::size_t>(i) - 1].step;
    if (std::any_of(work.steps.begin(), work.steps.end(), [&](const OrderStep& w) { return same_step(w, s); }))
      continue;
    const bool goes_on = !out.empty() && out.back().steps.back().pass == s.pass &&
                         out.back().steps.back().temperature == s.temperature;
    if (!goes_on) {
      out.emplace_back();
      out.back().kind = LogEntry::Kind::ironed;
      out.back().passes = passes_of(plan, s.temperature);
    }
    out.back().steps.push_back(s);
  }
}

void add_readings(std::vector<LogEntry>& out, const PageJson& readings, const WorkSoFar& work) {
  for (const PageJson& j : readings) {
    LogEntry e;
    e.kind = LogEntry::Kind::read;
    e.after = page_kelvin(j.at("after_degF"));
    e.reading.side = j.at("side") == "top" ? Side::top : Side::bottom;
    e.reading.bay = j.at("bay").get<int>() - 1;
    e.reading.weight = j.at("weight_g").get<double>() / 1e3;
    e.reading.sag = j.at("sag_mm").get<double>() / 1e3;
    const bool there = std::any_of(work.readings.begin(), work.readings.end(), [&](const WorkSoFar::Reading& r) {
      return std::abs(r.after - e.after) <= same_on_page && r.reading.side == e.reading.side &&
             r.reading.bay == e.reading.bay && !r.reading.shape && std::abs(r.reading.sag - e.reading.sag) < same_sag;
    });
    if (!there) out.push_back(std::move(e));
  }
}

}  // namespace

std::vector<LogEntry> entries_of_page(const std::string& path, const PlanDigest& plan, const WorkSoFar& work) {
  const std::string text = read_raw(path);
  try {
    const PageJson j = PageJson::parse(text);
    if (!j.contains(page_key))
      throw CaseFileError(path, {}, "",
                          "was not saved by the page of a plan: open plan.html and press \"Save for the log\"");
    if (j.at("steps") != plan.steps.size())
      throw CaseFileError(path, {}, "steps",
                          fmt::format("= {}, but this plan has {}: the page is of another plan", j.at("steps").dump(),
                                      plan.steps.size()));
    std::vector<LogEntry> out;
    add_worked(out, j.at("worked"), path, plan, work);
    add_readings(out, j.at("readings"), work);
    return out;
  } catch (const PageJson::exception&) {
    throw CaseFileError(path, {}, "", "cannot be read as what a plan's page saves: it is damaged, or something else");
  }
}

}  // namespace evenpull
