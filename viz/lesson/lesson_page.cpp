#include "viz/kit/page_parts.hpp"
#include "viz/lesson/lesson_numbers.hpp"
#include "viz/page/page_data.hpp"
#include "viz/sheet/sheet_frame.hpp"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace evenpull {

namespace {

using namespace viz;
using Json = nlohmann::ordered_json;

/// Six digits are more than the model knows, and keep the page small.
Json rounded(const std::vector<double>& values) {
  Json list = Json::array();
  for (double v : values) list.push_back(v == 0 ? 0.0 : std::stod(fmt::format("{:.6g}", v)));
  return list;
}

Json numbers(const Lesson& lesson) {
  const auto series = all_series(lesson);
  const PullScale scale = lesson_scale(lesson);
  Json j{{"can_slip", can_slip(lesson)},
         {"telling", telling_moment(lesson, series)},
         {"scale", Json::parse(pull_scale_json(scale.bands, scale.open_end))}};
  for (const auto& c : lesson_curves(lesson, series)) {
    Json curve{{"title", c.title},
               {"decimals", c.decimals},
               {"limits", rounded(c.limits)},
               {"limit_words", c.limit_words},
               {"ways", Json::array()}};
    for (const auto& way : c.ways) curve["ways"].push_back(rounded(way));
    j["curves"].push_back(std::move(curve));
  }
  for (std::size_t w = 0; w < lesson.ways.size(); ++w)
    j["ways"].push_back({{"letter", way_letter(w)},
                         {"name", lesson.ways[w].name},
                         {"slip", rounded(series[w].slip)},
                         {"twist", rounded(series[w].twist)},
                         {"tip_turn", rounded(series[w].tip_turn)},
                         {"turn_overs", series[w].turn_overs}});
  return j;
}

std::string rules(const Lesson& lesson) {
  std::string html = "<dl class=\"rules\">\n";
  for (std::size_t w = 0; w < lesson.ways.size(); ++w)
    html += fmt::format("<div><dt><b class=\"pen pen-{}\">{}</b> {}</dt><dd>{}</dd></div>\n", w, way_letter(w),
                        escaped(lesson.ways[w].name), escaped(lesson.ways[w].rule));
  return html + "</dl>\n";
}

std::string panels(const Lesson& lesson) {
  std::string html;
  for (std::size_t w = 0; w < lesson.ways.size(); ++w)
    html += fmt::format(
        "<section class=\"way\" aria-labelledby=\"way-{0}\"><h3 id=\"way-{0}\"><b class=\"pen pen-{0}\">{1}</b> "
        "{2}</h3>\n<canvas id=\"panel-{0}\" role=\"img\" aria-label=\"Both skins, way {1}; the numbers are "
        "below\"></canvas>\n<p class=\"numbers\" id=\"numbers-{0}\"></p></section>\n",
        w, way_letter(w), escaped(lesson.ways[w].name));
  return html;
}

/// With something to choose from, which the answers come back to.
std::string questions(const std::vector<LessonQuestion>& list) {
  std::string html = "<ol class=\"questions\">\n";
  for (std::size_t q = 0; q < list.size(); ++q) {
    html += fmt::format("<li><fieldset><legend>{}. {}</legend><div class=\"guess\">", q + 1, escaped(list[q].question));
    for (const auto& choice : list[q].choices)
      html +=
          fmt::format("<label><input type=\"radio\" name=\"guess-{0}\" value=\"{1}\"> {1}</label>", q, escaped(choice));
    html += "</div></fieldset></li>\n";
  }
  return html + "</ol>\n";
}

std::string answers(const std::vector<LessonQuestion>& list) {
  std::string html = "<ol class=\"answers\">\n";
  for (std::size_t q = 0; q < list.size(); ++q)
    html += fmt::format(
        "<li><p>{}</p><p class=\"guessed\" id=\"guessed-{}\">You have not guessed.</p><details><summary>What the "
        "computation says</summary><p>{}</p></details></li>\n",
        escaped(list[q].question), q, escaped(list[q].answer));
  return html + "</ol>\n";
}

}  // namespace

void write_lesson_page(const Lesson& lesson, const std::string& version, const std::string& path) {
  const Plan& plan = lesson.ways.back().plan;
  std::string marks, changed, data;
  for (const auto& m : plan_marks(plan)) marks += "<b>" + escaped(m) + "</b> ";
  for (const auto& c : lesson.changed) changed += " " + escaped(c);
  const OrderMatters matters = order_matters(lesson);
  const auto asked = lesson_questions(lesson);
  for (std::size_t w = 0; w < lesson.ways.size(); ++w) {
    const PageData d = page_data(lesson.ways[w].plan, "", PageFields::flat_skins);
    data += fmt::format(
        "<script id=\"about-{0}\" type=\"application/json\">{1}</script>\n<script id=\"fields-{0}\" "
        "type=\"text/plain\">{2}</script>\n",
        w, d.about, d.fields);
  }
  write_whole(path,
              filled(page_lesson_html,
                     {{"title", escaped(plan.the_case.title)},
                      {"style", std::string(page_plan_css) + page_lesson_css},
                      {"marks", marks},
                      {"changed", changed},
                      {"headline", escaped(matters.headline)},
                      {"finding", escaped(matters.finding)},
                      {"stage", escaped(lesson_stage_text(plan))},
                      {"rules", rules(lesson)},
                      {"questions", questions(asked)},
                      {"panels", panels(lesson)},
                      {"answers", answers(asked)},
                      {"airworthy", escaped(airworthy_sentence)},
                      {"version", escaped(version)},
                      {"numbers", for_script(numbers(lesson).dump(-1, ' ', false, Json::error_handler_t::replace))},
                      {"data", data},
                      {"script", std::string(page_unpack_js) + page_panel_inks_js + page_panel_data_js +
                                     page_panel_view_js + page_lesson_js}}));
}

}  // namespace evenpull
