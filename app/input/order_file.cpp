#include "app/input/order_file.hpp"

#include "app/input/case_table.hpp"
#include "app/input/raw_file.hpp"
#include "app/input/read_measured.hpp"
#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace evenpull {
namespace {

constexpr Range pass_range{1, most::passes, "passes are counted from 1 in each stage"};
constexpr Range bay_range{1, most::bays, "bays are counted from 1 at the inboard end"};
constexpr Range strip_range{1, 1000, "strips are counted from 1 at the leading edge"};

std::string zone_words(const OrderStep& s) {
  return fmt::format("{} bay {}, strip {}", s.side == Side::top ? "top" : "bottom", s.bay, s.strip);
}

}  // namespace

OrderFile read_order_file(const std::string& path, const Case& c) { return order_file_of(read_raw(path), path, c); }

OrderFile order_file_of(std::string bytes, const std::string& path, const Case& c) {
  const auto document = document_of(std::move(bytes), path, DocumentKind::an_order);
  CaseContext context(path, document);
  const CaseTable top(context, document, "", {"format", "steps", "measured"});
  const auto* format = top.find("format");
  if (!format) top.missing("format", fmt::format("format = {} on the first line", order_format));
  if (format->kind != Entry::Kind::integer || format->number != order_format)
    top.fail("format", fmt::format("is not known to this program, which reads order files of format {}", order_format));
  OrderFile out;
  out.text = document.file_text;
  const auto tables = top.tables("steps", {"stage", "pass", "side", "bay", "strip", "dose", "done"}, most::order_steps);
  if (tables.empty())
    top.missing("steps",
                "steps = [{ stage = \"250 degF\", pass = 1, side = \"top\", bay = 1, strip = 1, dose = 0.25 }]");
  int stage_before = 0, pass_before = 1;
  for (const auto& t : tables) {
    OrderStep s;
    const int stage = stage_index(t, c);
    s.temperature = c.stages[static_cast<size_t>(stage)].temperature;
    s.pass = t.whole_number("pass", pass_range);
    s.side = t.choice("side", {"top", "bottom"}) == 0 ? Side::top : Side::bottom;
    s.bay = t.whole_number("bay", bay_range);
    s.strip = t.has("strip") ? t.whole_number("strip", strip_range) : 1;
    s.dose = t.quantity("dose", Quantity::fraction, {0.01, 1, "a dose is more than 0 and at most 1 (1 = a full pass)"});
    const auto before = [&] { return context.line_of(nth("steps", out.steps.size() - 1)); };
    if (stage < stage_before)
      t.fail("stage", fmt::format("is cooler than the step before it ({}, {}); stages only rise", before(),
                                  viz::degrees_both(out.steps.back().temperature)));
    if (stage == stage_before && s.pass < pass_before)
      t.fail("pass",
             fmt::format("is an earlier pass than the step before it ({}, pass {}); list the steps as they are worked",
                         before(), pass_before));
    stage_before = stage;
    pass_before = s.pass;
    out.steps.push_back(s);
    out.done.push_back(t.has("done") && t.flag("done"));
  }
  out.measured = read_measured(top, c, out.steps, out.done);
  out.places = std::move(context.places);
  return out;
}

std::vector<std::string> check_order(const OrderFile& order, const std::string& path, const Case& c,
                                     const Panel& panel) {
  using Pass = std::pair<double, int>;
  std::map<Pass, std::map<std::tuple<int, int, int>, int>> worked;
  for (size_t i = 0; i < order.steps.size(); ++i) {
    const auto& s = order.steps[i];
    if (s.bay > panel.bays || s.strip > panel.strips)
      throw CaseFileError(
          path, order.places.of(nth("steps", i)), nth("steps", i),
          fmt::format("names {}, but the panel of {} has {} bays with {} strips each; `evenpull survey` "
                      "draws its zones",
                      zone_words(s), c.file, panel.bays, panel.strips));
    if (panel.zone(s.side, s.bay - 1, s.strip - 1) < 0)
      throw CaseFileError(
          path, order.places.of(nth("steps", i)), nth("steps", i),
          fmt::format("names {}, but the cloth of {} is cut out there; `evenpull survey` draws its zones",
                      zone_words(s), c.file));
    ++worked[{s.temperature, s.pass}][{static_cast<int>(s.side), s.bay, s.strip}];
  }
  for (size_t i = 0; i < order.measured.size(); ++i)
    if (!order.measured[i].shape && order.measured[i].bay >= panel.bays)
      throw CaseFileError(
          path, order.places.of(nth("measured", i)), nth("measured", i),
          fmt::format("was read in bay {}, but the panel of {} has {} bays, counted from the inboard end",
                      order.measured[i].bay + 1, c.file, panel.bays));
  std::vector<std::string> doubts;
  size_t zones = 0;
  for (const Side side : {Side::top, Side::bottom})
    for (int bay = 0; bay < panel.bays; ++bay)
      for (int strip = 0; strip < panel.strips; ++strip) zones += panel.zone(side, bay, strip) >= 0 ? 1 : 0;
  for (const auto& [pass, counts] : worked) {
    const auto name = fmt::format("Pass {} at {:.0f} °F", pass.second, to_degF(pass.first));
    if (counts.size() < zones)
      doubts.push_back(fmt::format("{} leaves out {} of {} zones.", name, zones - counts.size(), zones));
    size_t twice = 0;
    for (const auto& [zone, count] : counts) twice += count > 1 ? 1 : 0;
    if (twice > 0) doubts.push_back(fmt::format("{} works {} zones more than once.", name, twice));
  }
  return doubts;
}

void take_passes(Case& c, const OrderFile& order, const std::string& path) {
  for (auto& stage : c.stages) {
    size_t passes = 0;
    bool planned = false;  // not only a log of what was worked: then no pass follows that it does not list
    for (size_t i = 0; i < order.steps.size(); ++i) {
      const auto& s = order.steps[i];
      if (s.temperature != stage.temperature) continue;
      const auto pass = static_cast<size_t>(s.pass);
      if (!stage.passes_open && stage.doses.size() < pass)
        throw CaseFileError(
            path, order.places.of(nth("steps", i) + ".pass"), nth("steps", i) + ".pass",
            fmt::format("= {} is beyond the {} passes that {} states at {}; correct the one or the other", s.pass,
                        stage.doses.size(), c.file, viz::degrees_both(stage.temperature)));
      if (!stage.passes_open) continue;
      while (stage.doses.size() < pass) stage.doses.push_back(stage.doses.back());
      stage.doses[pass - 1] = s.dose;
      passes = std::max(passes, pass);
      planned = planned || !order.done[i];
    }
    if (planned) stage.doses.resize(passes);
  }
}

std::string order_text(const std::vector<OrderStep>& steps, const std::vector<bool>& done, const std::string& heading,
                       double hottest_safe, std::optional<double> by_reading,
                       const std::vector<std::string>& measured) {
  bool warned = false, asked = false;
  auto text = fmt::format(
      "# {}\n# One line a step, in the order worked. To try another order, copy this file under another name (the next "
      "run\n"
      "# writes it anew), move or change lines, and run: evenpull replay CASE.toml --order YOUR-ORDER.toml\n"
      "# Bays count from the inboard end, strips from the leading edge, both from 1. Stages are true sole temperatures "
      "by\n"
      "# thermometer. dose: share of the stage's full shrink (1 = full).\n"
      "format = {}\nsteps = [\n",
      heading, order_format);
  for (size_t i = 0; i < steps.size(); ++i) {
    const auto& s = steps[i];
    if (!asked && by_reading && s.temperature == *by_reading) {
      text +=
          "  # ONLY IF every bay listed reads inside its window after the stage before (plan.pdf): else never iron "
          "these.\n";
      asked = true;
    }
    if (!warned && s.temperature > by_reading.value_or(hottest_safe)) {
      text += "  # ABOVE THE HOTTEST SAFE STAGE: computed to find it. Never iron the steps below.\n";
      warned = true;
    }
    text += fmt::format(
        "  {{ stage = \"{:.9g} degF\", pass = {}, side = \"{}\", bay = {}, strip = {}, dose = {:.6g}, done = {} }},\n",
        to_degF(s.temperature), s.pass, s.side == Side::top ? "top" : "bottom", s.bay, s.strip, s.dose,
        i < done.size() && done[i] ? "true" : "false");
  }
  text += "]\n";
  if (measured.empty()) return text;
  text += "measured = [\n";
  for (const std::string& line : measured) text += "  " + line + ",\n";
  return text + "]\n";
}

std::vector<OrderStep> steps_done(const OrderFile& order, const std::string& path) {
  std::vector<OrderStep> out;
  for (size_t i = 0; i < order.steps.size(); ++i)
    if (order.done[i]) out.push_back(order.steps[i]);
  if (out.empty())
    throw CaseFileError(path, order.places.of("steps"), "steps",
                        "has no step marked done = true, so there is nothing to go on from: mark the steps that were "
                        "worked, in the order worked, or plan without --from");
  return out;
}

std::vector<bool> done_of(const Plan& plan) {
  std::vector<bool> out;
  for (const auto& s : plan.steps) out.push_back(s.done);
  return out;
}

std::vector<OrderStep> order_of(const Plan& plan) {
  std::vector<OrderStep> out;
  for (const auto& step : plan.steps) {
    const auto& zone = plan.panel.zones[static_cast<size_t>(step.zone)];
    out.push_back({plan.the_case.stages[static_cast<size_t>(step.stage)].temperature, step.pass, zone.side,
                   zone.bay + 1, zone.strip + 1, step.dose});
  }
  return out;
}

}  // namespace evenpull
