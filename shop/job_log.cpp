#include "shop/job_log.hpp"

#include "shop/calibration.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <set>
#include <tuple>

namespace evenpull {
namespace {

// Two true temperatures within this are one stage: a degree Fahrenheit, as in order files.
constexpr double same_stage = 1 / 1.8;

using ZoneOf = std::tuple<int, int, int>;

ZoneOf zone_of(const OrderStep& s) { return {static_cast<int>(s.side), s.bay, s.strip}; }

// Of the stage meant, or what the sole truly was where that is another stage. Rounded: a plan prints whole degrees.
double as_worked(const LogEntry& e, double meant, const Case& c) {
  if (!e.sole || std::abs(*e.sole - meant) <= c.spreads.sole) return meant;
  const double fahrenheit = std::round(*e.sole * 1.8 - 459.67);
  double out = (fahrenheit + 459.67) / 1.8;
  for (const Stage& s : c.stages)
    if (std::abs(s.temperature - out) <= same_stage) out = s.temperature;
  return out;
}

// Cooler work after hotter: a stage is worked from cool to hot, and what is to come depends on the shrink that both left.
bool put_in_turn(std::vector<OrderStep>& steps) {
  const auto cooler = [](const OrderStep& a, const OrderStep& b) { return a.temperature < b.temperature; };
  if (std::is_sorted(steps.begin(), steps.end(), cooler)) return false;
  std::stable_sort(steps.begin(), steps.end(), cooler);
  return true;
}

// Passes of a stage are counted anew in the order in which each zone saw them: two stages that were one to the iron.
void number_passes(std::vector<OrderStep>& steps) {
  std::map<double, std::map<ZoneOf, int>> seen;
  std::map<double, int> last;
  for (OrderStep& s : steps) {
    int& count = seen[s.temperature][zone_of(s)];
    s.pass = std::max({s.pass, count + 1, last[s.temperature]});
    count = s.pass, last[s.temperature] = s.pass;
  }
}

const Stage& nearest_stage(const Case& c, double kelvin) {
  return *std::min_element(c.stages.begin(), c.stages.end(), [&](const Stage& a, const Stage& b) {
    return std::abs(a.temperature - kelvin) < std::abs(b.temperature - kelvin);
  });
}

// A stage of which something was worked, at what it was worked at.
Stage stage_begun(const Case& c, double temperature, const WorkSoFar& work) {
  Stage out = nearest_stage(c, temperature);
  if (out.temperature != temperature) out.dwells.clear();
  out.temperature = temperature;
  if (const auto planned = work.passes.find(temperature); planned != work.passes.end()) {
    out.doses.resize(static_cast<std::size_t>(planned->second), out.doses.back());
    out.passes_open = false;
  }
  return out;
}

std::uint32_t mixed(std::uint32_t sum, double value) {
  // FNV-1a (Fowler, Noll, Vo; public domain, from memory) over tenths of a millimetre: what a person typed in another unit is
  // the same panel.
  constexpr std::uint32_t prime = 16777619;
  auto word = static_cast<std::uint32_t>(std::lround(value * 1e4));
  for (int i = 0; i < 4; ++i, word >>= 8) sum = (sum ^ (word & 0xffU)) * prime;
  return sum;
}

}  // namespace

std::vector<int> entries_that_hold(const JobLog& log) {
  std::set<int> back;
  for (auto e = log.entries.rbegin(); e != log.entries.rend(); ++e) {
    const int number = static_cast<int>(log.entries.rend() - e);
    // What takes back may itself be taken back, later.
    if (e->kind == LogEntry::Kind::taken_back && !back.count(number)) back.insert(e->takes_back);
  }
  std::vector<int> out;
  for (int n = 1; n <= static_cast<int>(log.entries.size()); ++n)
    if (!back.count(n) && log.entries[static_cast<std::size_t>(n) - 1].kind != LogEntry::Kind::taken_back)
      out.push_back(n);
  return out;
}

WorkSoFar work_so_far(const JobLog& log, const Case& c) {
  WorkSoFar out;
  std::map<double, double> worked_at;  // by stage meant: the hottest it was worked at
  bool jolted = false, too_hot = false;
  for (const int number : entries_that_hold(log)) {
    const LogEntry& e = log.entries[static_cast<std::size_t>(number) - 1];
    out.last_entry_used = number;
    switch (e.kind) {
      case LogEntry::Kind::ironed:
        for (OrderStep s : e.steps) {
          const double meant = s.temperature;
          s.temperature = as_worked(e, meant, c);
          out.sole_differed = out.sole_differed || s.temperature != meant;
          if (e.passes > 0) out.passes[s.temperature] = std::max(out.passes[s.temperature], e.passes);
          double& at = worked_at[meant];
          at = std::max(at, s.temperature);
          out.steps.push_back(s);
        }
        too_hot = too_hot || (e.sole && *e.sole > damage_begins);
        break;
      case LogEntry::Kind::read:
        out.readings.push_back({worked_at.count(e.after) ? worked_at[e.after] : e.after, e.reading, number});
        if (e.reading.shape) jolted = false;
        break;
      case LogEntry::Kind::jolted: {
        jolted = true;
        const auto old = [](const WorkSoFar::Reading& r) { return r.reading.shape.has_value(); };
        out.readings.erase(std::remove_if(out.readings.begin(), out.readings.end(), old), out.readings.end());
        break;
      }
      case LogEntry::Kind::remark:
      case LogEntry::Kind::taken_back: break;
    }
  }
  if (jolted) out.stops.push_back(LogStop::jolted);
  if (too_hot) out.stops.push_back(LogStop::sole_above_planned);
  out.out_of_turn = put_in_turn(out.steps);
  if (out.sole_differed || out.out_of_turn) number_passes(out.steps);
  return out;
}

// What was to be fastened after a stage is fastened once that was worked, also where the sole was another: before the next stage
// of the case. One worked hotter than that next stage is taken for it.
static void move_attachments(const Case& c, const WorkSoFar& work, Case& out) {
  for (Attachment& a : out.attachments) {
    double next = 0;
    for (const Stage& s : c.stages)
      if (next == 0 && s.temperature > a.after + same_stage) next = s.temperature;
    if (a.after <= 0 || next == 0) continue;
    for (const OrderStep& s : work.steps)
      if (s.temperature < next - same_stage) a.after = std::max(a.after, s.temperature);
  }
}

Case case_as_worked(const Case& c, const WorkSoFar& work) {
  Case out = c;
  out.stages.clear();
  for (const OrderStep& s : work.steps) {
    if (out.stages.empty() || out.stages.back().temperature != s.temperature)
      out.stages.push_back(stage_begun(c, s.temperature, work));
    Stage& stage = out.stages.back();
    const auto pass = static_cast<std::size_t>(s.pass);
    if (stage.doses.size() < pass) stage.doses.resize(pass, stage.doses.back());
    stage.doses[pass - 1] = s.dose;
  }
  for (Stage& s : out.stages)
    if (!s.dwells.empty()) s.dwells.resize(s.doses.size(), 0.0);
  const double hottest = out.stages.empty() ? 0 : out.stages.back().temperature;
  for (const Stage& s : c.stages)
    if (s.temperature > hottest + same_stage) out.stages.push_back(s);
  move_attachments(c, work, out);
  return out;
}

std::vector<Measured> readings_for(const Case& as_worked, const WorkSoFar& work) {
  std::vector<Measured> out;
  for (const WorkSoFar::Reading& r : work.readings)
    for (std::size_t s = 0; s < as_worked.stages.size(); ++s)
      if (std::abs(as_worked.stages[s].temperature - r.after) <= same_stage) {
        out.push_back(r.reading);
        out.back().stage = static_cast<int>(s);
      }
  return out;
}

std::vector<bool> stages_whole(const Case& as_worked, const WorkSoFar& work, int zones) {
  std::vector<bool> out(as_worked.stages.size());
  for (std::size_t s = 0; s < out.size(); ++s) {
    std::map<int, std::set<ZoneOf>> passes;
    for (const OrderStep& step : work.steps)
      if (step.temperature == as_worked.stages[s].temperature) passes[step.pass].insert(zone_of(step));
    out[s] = !passes.empty() && static_cast<int>(passes.rbegin()->second.size()) == zones &&
             passes.rbegin()->first >= static_cast<int>(as_worked.stages[s].doses.size());
  }
  return out;
}

std::string panel_mark(const Case& c, int bays, int strips) {
  constexpr std::uint32_t begin = 2166136261;
  std::uint32_t sum = begin;
  for (const auto* edge : {&c.outline.leading_edge, &c.outline.trailing_edge})
    for (const auto& p : *edge) sum = mixed(mixed(sum, p.x), p.y);
  for (const Rib& r : c.ribs) sum = mixed(sum, r.station);
  sum = mixed(mixed(sum, bays), strips);
  constexpr char digits[] = "0123456789abcdef";
  std::string out;
  for (int shift = 28; shift >= 0; shift -= 4) out += digits[(sum >> shift) & 0xfU];
  return out;
}

}  // namespace evenpull
