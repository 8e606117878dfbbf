#include "viz/words/plan_summary.hpp"

#include "viz/words/advice_words.hpp"
#include "viz/words/after_iron_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/sure_words.hpp"
#include "viz/words/time_words.hpp"
#include "viz/words/verdict_words.hpp"
#include "viz/words/window_words.hpp"
#include "viz/words/wording.hpp"
#include "viz/words/zone_names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace evenpull {
namespace {

constexpr size_t worst_shown = 4;  ///< the sheet has them all; a screen is short

// Loose cloth is said before all else.
std::string loose_cloth(const Plan& p, const Terminal& t) {
  std::string text;
  std::string headline = viz::loose_headline(p);
  std::transform(headline.begin(), headline.end(), headline.begin(), [](unsigned char c) { return std::toupper(c); });
  if (!headline.empty()) text += "  " + in_bold(t, headline + ".") + "\n";
  if (p.advice.loose) text += "  " + in_bold(t, wrap_text(viz::loose_sentence(p), 2, t.width)) + "\n";
  return text;
}

std::string answer(const Plan& p, const Terminal& t) {
  const std::string stage = p.ceiling
                                ? viz::degrees_both(p.the_case.stages[static_cast<size_t>(*p.ceiling)].temperature)
                                : viz::no_stage_text(p) + ".";
  return "  " + in_bold(t, wrap_text(viz::verdict_heading(p) + ": " + stage, 2, t.width)) + "\n  " +
         wrap_text(viz::verdict_note(p), 2, t.width) + "\n";
}

std::string worst_numbers(const Plan& p, const Terminal& t) {
  auto shown = worst_readings(p);
  if (shown.size() > worst_shown) shown.resize(worst_shown);
  if (shown.empty()) return "";
  std::string text = "  " +
                     wrap_text(p.ceiling ? "Worst numbers up to there (1 is the limit):"
                                         : "Worst numbers of the first stage (1 is the limit):",
                               2, t.width) +
                     "\n";
  constexpr size_t usual_width = 13, apart = 2;
  size_t use_width = usual_width;
  for (const auto& l : shown) use_width = std::max(use_width, letters(viz::use_text(l)) + apart);
  for (const auto& l : shown) {
    const auto use = viz::use_text(l);
    text += "    " + use + std::string(use_width - std::min(use_width, letters(use)), ' ') +
            wrap_text(fmt::format("{}: {}, {}; {}, allowed {}", viz::limit_text(l), viz::place_text(p.panel, l.where),
                                  viz::moment_text(l.when), viz::limit_value(l), viz::limit_allowed(l)),
                      4 + static_cast<int>(use_width), t.width) +
            "\n";
  }
  return text;
}

std::string defaults_words(size_t n) {
  if (n == 0) return "No defaults were used";
  return n == 1 ? "One default was used; the sheet lists it"
                : fmt::format("{} defaults were used; the sheet lists them", n);
}

std::string bullet(const std::string& text, const Terminal& t) { return "    - " + wrap_text(text, 6, t.width) + "\n"; }

}  // namespace

std::string plan_summary(const Plan& p, const std::string& folder, const Terminal& t) {
  const auto paragraph = [&](const std::string& words, int indent = 2) {
    return "  " + wrap_text(words, indent, t.width) + "\n";
  };
  std::string text =
      wrap_text(p.the_case.title + (p.quick() ? "  [QUICK: coarse mesh, no error bars]" : ""), 0, t.width) + "\n\n" +
      loose_cloth(p, t) + answer(p, t);
  text += paragraph("Why: " + viz::because_text(p), 7);
  if (const auto sure = viz::sure_words(p); !sure.empty()) text += paragraph(sure);
  for (const auto& read : viz::read_sentences(p)) text += paragraph(read);
  if (const auto opens = viz::opens_sentence(p); !opens.empty()) text += paragraph(opens);
  if (p.setting)
    text += paragraph(fmt::format("Between the stages, as stated, up to {} would still pass (advice, not a step).",
                                  viz::degrees_both(*p.setting)));
  if (const auto time = viz::time_sentence(p); !time.empty()) text += "\n" + paragraph(time, 8);
  if (p.ceiling) text += "\n" + paragraph("Order: " + viz::order_name(p.order) + ": " + viz::order_rule(p.order), 9);
  text += "\n" + worst_numbers(p, t);
  if (p.solve.mesh_change && p.solve.zone_change)
    text +=
        paragraph(fmt::format("The finest mesh changes the governing use by {:.1f} %, smaller zones by {:.1f} %; the "
                              "bars hold both and count against the answer.",
                              *p.solve.mesh_change * 100, *p.solve.zone_change * 100));
  if (const auto after = viz::after_iron_in_short(p.the_case); !after.empty()) text += paragraph(after);
  if (!p.advice.items.empty()) {
    text += "\n  Advice:\n";
    for (const auto& a : viz::advice_sentences(p)) text += bullet(a, t);
  }
  if (!p.the_case.doubts.empty()) {
    text += "\n  Doubts about the case:\n";
    for (const auto& d : p.the_case.doubts) text += bullet(d, t);
  }
  text += "\n" + paragraph(fmt::format("{}. Results: {}/", defaults_words(p.the_case.defaults_used.size()), folder)) +
          "    " +
          wrap_text("plan.pdf (print it), plan.html (for the bench), pictures/, fields.pvd, plan.json, order.toml", 4,
                    t.width) +
          "\n\n" +
          paragraph(
              "This does not show that the part is airworthy. The aircraft's approved data, local rules and a licensed "
              "mechanic go first. Check the iron with a thermometer at every setting.");
  return text;
}

}  // namespace evenpull
