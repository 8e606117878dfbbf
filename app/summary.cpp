#include "app/summary.hpp"

#include "app/units.hpp"
#include "viz/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace evenpull {
namespace {

constexpr size_t line_length = 100;
constexpr size_t worst_shown = 6;

/// Letters, not bytes: the degree sign and its like take two.
size_t letters(const std::string& s) {
  return static_cast<size_t>(
      std::count_if(s.begin(), s.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string answer(const Plan& p) {
  if (!p.ceiling) return "  Hottest safe stage: NONE. Do not iron this cloth on this frame as stated.\n";
  const auto temperature = p.the_case.stages[static_cast<size_t>(*p.ceiling)].temperature;
  return fmt::format("  Hottest safe stage: {}, by thermometer on the sole\n", viz::degrees_both(temperature));
}

std::string worst_readings(const Plan& p) {
  const int last = p.ceiling.value_or(0);
  std::vector<const LimitReading*> shown;
  for (const auto& l : p.limits)
    if (l.stage <= last) shown.push_back(&l);
  const auto end = [](const LimitReading* l) { return l->use + l->use_plus_minus; };  // where the ceiling looks
  std::stable_sort(shown.begin(), shown.end(), [&](auto* a, auto* b) { return end(a) > end(b); });
  std::vector<const LimitReading*> first_of_name;
  for (const auto* l : shown)
    if (std::none_of(first_of_name.begin(), first_of_name.end(), [&](auto* f) { return f->name == l->name; }))
      first_of_name.push_back(l);
  if (first_of_name.size() > worst_shown) first_of_name.resize(worst_shown);
  if (first_of_name.empty()) return "";
  std::string text = p.ceiling ? "  Worst readings up to there (use 1 = at the limit):\n"
                               : "  Worst readings of the first stage (use 1 = at the limit):\n";
  for (const auto* l : first_of_name)
    text += fmt::format("    {:<16} use {:<12} {}\n                     {}; allowed {}\n", l->name,
                        viz::use_text(l->use, l->use_plus_minus),
                        wrap_text(l->where + (l->when.empty() ? "" : ", " + l->when), 38),
                        viz::limit_value(*l, l->value), viz::limit_allowed(*l));
  return text;
}

std::string bullet(const std::string& text) {
  return "    - " + wrap_text(text, 6) + "\n";
}

}  // namespace

std::string wrap_text(const std::string& text, int indent) {
  std::istringstream words(text);
  std::string word, out;
  size_t column = static_cast<size_t>(indent);
  while (words >> word) {
    const auto size = letters(word);
    if (!out.empty() && column + 1 + size > line_length) {
      out += "\n" + std::string(static_cast<size_t>(indent), ' ');
      column = static_cast<size_t>(indent);
    } else if (!out.empty()) {
      out += ' ';
      ++column;
    }
    out += word;
    column += size;
  }
  return out;
}

std::string plan_summary(const Plan& p, const std::string& folder) {
  std::string text = p.the_case.title + (p.quick() ? "  [QUICK: coarse mesh, no error bars]" : "") + "\n\n" + answer(p);
  if (!p.advice.because.empty()) text += "  Why: " + wrap_text(p.advice.because, 7) + "\n";
  if (p.setting)
    text += fmt::format("  Between the stages, up to {} would still pass (advice, not a step).\n",
                        viz::degrees_both(*p.setting));
  if (p.ceiling)
    text += "\n  Order: " + wrap_text(p.order_name + (p.order_rule.empty() ? "" : ": " + p.order_rule), 9) + "\n";
  text += "\n" + worst_readings(p);
  if (p.solve.mesh_change && p.solve.zone_change)
    text += fmt::format(
        "  The finest mesh changes the governing use by {:.1f} %, smaller zones by {:.1f} %; the bars hold both and "
        "count\n  against the answer.\n",
        *p.solve.mesh_change * 100, *p.solve.zone_change * 100);
  if (!p.advice.advice.empty()) {
    text += "\n  Advice:\n";
    for (const auto& a : p.advice.advice) text += bullet(a);
  }
  if (!p.the_case.doubts.empty()) {
    text += "\n  Doubts about the case:\n";
    for (const auto& d : p.the_case.doubts) text += bullet(d);
  }
  text += fmt::format(
      "\n  {} defaults were used; the sheet lists them. Results: {}/\n    plan.pdf (print it), pictures/, fields.pvd, "
      "plan.json, order.toml\n",
      p.the_case.defaults_used.size(), folder);
  text += "\n  " +
          wrap_text(
              "This does not show that the part is airworthy. The aircraft's approved data, local rules and a licensed "
              "mechanic go "
              "first. Check the iron with a thermometer at every setting.",
              2) +
          "\n";
  return text;
}

}  // namespace evenpull
