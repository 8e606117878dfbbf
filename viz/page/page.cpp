#include "viz/page/page.hpp"

#include "viz/kit/page_parts.hpp"
#include "viz/page/page_data.hpp"
#include "viz/sheet/sheet_frame.hpp"
#include "viz/words/advice_words.hpp"
#include "viz/words/after_iron_words.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/cautions.hpp"
#include "viz/words/check_words.hpp"
#include "viz/words/heat_words.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/sure_words.hpp"
#include "viz/words/time_words.hpp"
#include "viz/words/verdict_words.hpp"
#include "viz/words/window_words.hpp"
#include "viz/words/wording.hpp"
#include "viz/words/zone_names.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cstdint>

namespace evenpull {

namespace {

using namespace viz;

std::string paragraph(const std::string& words, const char* kind = "") {
  return fmt::format("<p{}>{}</p>\n", *kind ? fmt::format(" class=\"{}\"", kind) : "", escaped(words));
}

std::string answer(const Plan& plan) {
  std::string html;
  // Loose cloth goes before everything else.
  if (const auto headline = loose_headline(plan); !headline.empty()) html += paragraph(headline, "big loose");
  if (const auto loose = loose_sentence(plan); !loose.empty()) html += paragraph(loose, "loose");
  html += fmt::format("<h2>{}</h2>\n", verdict_heading(plan));
  if (plan.ceiling) {
    const double kelvin = plan.the_case.stages.at(*plan.ceiling).temperature;
    html += fmt::format("<p class=\"big\">{} <small>{}</small></p>\n", degrees_f(kelvin), degrees_c(kelvin));
  } else {
    html += paragraph(coats_tauten(plan.the_case) ? no_stage_text(plan) : "None", "big");
  }
  html += paragraph(verdict_note(plan));
  if (const auto sure = sure_words(plan); !sure.empty()) html += paragraph(sure);
  for (const auto& read : read_sentences(plan)) html += paragraph(read);
  if (const auto opens = opens_sentence(plan); !opens.empty()) html += paragraph(opens);
  if (const auto time = time_sentence(plan); !time.empty()) html += paragraph(time);
  html += "<details><summary>Why, and what to do</summary>\n" + paragraph(because_text(plan));
  for (const auto& a : advice_sentences(plan)) html += paragraph(a);
  for (const auto& s : after_iron_sentences(plan.the_case)) html += paragraph(s);
  return html + "</details>\n";
}

std::string list_of_ticks(const std::vector<std::string>& checks, int stage) {
  std::string html;
  for (std::size_t i = 0; i < checks.size(); ++i)
    html += fmt::format(
        "<label class=\"check\"><input type=\"checkbox\" data-tick=\"check {} {}\"><span>{}</span></label>\n",
        stage + 1, i + 1, escaped(checks[i]));
  return html;
}

/// Fields that answer at once (plan.js).
std::string readings(const Plan& plan, const StageWindow& w) {
  std::string html = fmt::format("<fieldset class=\"readings\" data-after=\"{}\"><legend>Going on to {}?</legend>\n",
                                 w.stage, degrees_f(plan.the_case.stages.at(w.next).temperature));
  for (const auto& rule : window_rules(plan, w)) html += paragraph(rule, "small");
  html +=
      "<label>Read in <select class=\"unit\"><option value=\"0.001\">mm</option><option "
      "value=\"0.0254\">inches</option>"
      "</select></label>\n";
  for (std::size_t i = 0; i < w.bays.size(); ++i) {
    const BayWindow& b = w.bays[i];
    html += fmt::format(
        "<label class=\"reading\">{}: {}<input type=\"number\" min=\"0\" step=\"any\" inputmode=\"decimal\" "
        "data-reading=\"{} {}\"><output></output></label>\n",
        escaped(window_bay(b)), escaped(window_range(b)), w.stage, i);
  }
  return html + "<p class=\"verdict\" role=\"status\"></p>\n</fieldset>\n";
}

/// The steps of one pass, run by run.
std::string pass_list(const Plan& plan, std::size_t begin, std::size_t end) {
  std::string html = "<ol class=\"runs\">\n";
  for (std::size_t i = begin; i < end;) {
    const std::size_t first = i;
    const int run = plan.steps[i].run;
    std::string zones;
    bool top = false, bottom = false;
    for (; i < end && plan.steps[i].run == run; ++i) {
      const Zone& zone = plan.panel.zones.at(plan.steps[i].zone);
      (zone.side == Side::top ? top : bottom) = true;
      zones +=
          fmt::format("<label class=\"tick\"><input type=\"checkbox\" data-tick=\"step {}\"><span>{}</span></label>", i,
                      escaped(zone.label));
    }
    const char* side = top && bottom ? "BOTH" : top ? "TOP" : "BOTTOM";
    html += fmt::format("<li class=\"run\"><b>{} {}</b><div class=\"zones\">{}</div></li>\n", plan.steps[first].run,
                        side, zones);
  }
  return html + "</ol>\n";
}

std::string order_of_work(const Plan& plan) {
  if (!plan.ceiling) return "";
  std::string html = fmt::format("<p><strong>Order: {}.</strong> {}</p>\n", escaped(order_name(plan.order)),
                                 escaped(order_rule(plan.order)));
  const std::size_t n = plan.steps.size();
  for (int stage = 0; stage <= opened_by_reading(plan).value_or(*plan.ceiling); ++stage) {
    const std::string condition = stage_condition(plan, stage);
    html += fmt::format("<h3>{}</h3>\n", degrees_both(plan.the_case.stages.at(stage).temperature));
    if (!condition.empty()) html += paragraph(condition, "only-if");
    if (const std::string first = fastened_first(plan.the_case, stage); !first.empty())
      html += paragraph(first, "only-if");
    for (std::size_t i = 0; i < n;) {
      const Step& s = plan.steps[i];
      std::size_t end = i;
      while (end < n && plan.steps[end].stage == s.stage && plan.steps[end].pass == s.pass) ++end;
      if (s.stage == stage) {
        const auto left = std::find_if(plan.steps.begin() + static_cast<std::ptrdiff_t>(i),
                                       plan.steps.begin() + static_cast<std::ptrdiff_t>(end),
                                       [](const Step& t) { return !t.done; });
        const double dose = left == plan.steps.begin() + static_cast<std::ptrdiff_t>(end) ? s.dose : left->dose;
        html += fmt::format(
            "<details class=\"pass\"><summary>Pass {}: {} <span class=\"count\"></span></summary>\n{}</details>\n",
            s.pass, escaped(pass_words(plan, s.stage, s.pass, dose)), pass_list(plan, i, end));
      }
      i = end;
    }
    const StageWindow* window = window_after(plan, stage);
    html += stage < *plan.ceiling || window ? "<h4>Check before going hotter</h4>\n" : "<h4>Check, then stop</h4>\n";
    html += list_of_ticks(checks_after_stage(plan, stage), stage);
    if (window) html += readings(plan, *window);
  }
  return html;
}

std::string caution_list(const Plan& plan) {
  std::string html = "<ul>\n";
  for (const auto& p : preparations(plan)) html += "<li>" + escaped(p) + "</li>\n";
  for (const auto& c : cautions()) html += "<li>" + escaped(c) + "</li>\n";
  return html + "</ul>\n";
}

/// Ticks belong to one order of one case: another plan must not find them (FNV-1a, 64 bit).
std::string key_of(const Plan& plan) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  const auto mix = [&](const std::string& text) {
    for (unsigned char c : text) hash = (hash ^ c) * 0x100000001b3u;
  };
  mix(plan.the_case.title + fmt::format("|{}", plan.ceiling.value_or(-1)));
  for (const auto& s : plan.steps) mix(fmt::format("|{} {} {} {:.4f}", s.stage, s.pass, s.zone, s.dose));
  return fmt::format("{:016x}", hash);
}

}  // namespace

void write_page(const Plan& plan, const std::string& version, const std::string& path) {
  const PageData data = page_data(plan);
  std::string marks;
  for (const auto& m : plan_marks(plan)) marks += "<b>" + escaped(m) + "</b> ";
  write_whole(path, filled(page_plan_html, {{"title", escaped(plan.the_case.title)},
                                            {"style", page_plan_css},
                                            {"key", key_of(plan)},
                                            {"marks", marks},
                                            {"answer", answer(plan)},
                                            {"hidden_without_order", plan.ceiling ? "" : "hidden"},
                                            {"order", order_of_work(plan)},
                                            {"dwell", escaped(all_dwell_words(plan))},
                                            {"cautions", caution_list(plan)},
                                            {"airworthy", escaped(airworthy_sentence)},
                                            {"version", escaped(version)},
                                            {"about", data.about},
                                            {"fields", data.fields},
                                            {"script", std::string(page_unpack_js) + page_panel_inks_js +
                                                           page_panel_data_js + page_panel_view_js + page_ticks_js +
                                                           page_readings_js + page_log_file_js + page_plan_js}}));
}

}  // namespace evenpull
