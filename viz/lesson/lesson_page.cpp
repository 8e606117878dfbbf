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
    Json curve{{"title", c.title}, {"decimals", c.decimals}, {"ways", Json::array()}};
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

std::string panels(const Lesson& lesson) {
  std::string html;
  for (std::size_t w = 0; w < lesson.ways.size(); ++w)
    html += fmt::format(
        "<section class=\"way\" aria-labelledby=\"way-{0}\"><h2 id=\"way-{0}\"><b class=\"pen pen-{0}\">{1}</b> "
        "{2}</h2>\n<p "
        "class=\"rule\">{3}</p>\n<canvas id=\"panel-{0}\" role=\"img\" aria-label=\"Both skins, way {1}; the numbers "
        "are "
        "below\"></canvas>\n<p class=\"numbers\" id=\"numbers-{0}\"></p></section>\n",
        w, way_letter(w), escaped(lesson.ways[w].name), escaped(lesson.ways[w].rule));
  return html;
}

std::string questions(const Lesson& lesson) {
  std::string html = "<ol class=\"questions\">\n";
  for (const auto& q : lesson_questions(lesson))
    html += fmt::format("<li><p>{}</p><details><summary>What the computation says</summary><p>{}</p></details></li>\n",
                        escaped(q.question), escaped(q.answer));
  return html + "</ol>\n";
}

}  // namespace

void write_lesson_page(const Lesson& lesson, const std::string& version, const std::string& path) {
  const Plan& plan = lesson.ways.back().plan;
  std::string marks, changed, data;
  for (const auto& m : plan_marks(plan)) marks += "<b>" + escaped(m) + "</b> ";
  for (const auto& c : lesson.changed) changed += " " + escaped(c);
  for (std::size_t w = 0; w < lesson.ways.size(); ++w) {
    const PageData d = page_data(lesson.ways[w].plan);
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
                      {"panels", panels(lesson)},
                      {"questions", questions(lesson)},
                      {"airworthy", escaped(airworthy_sentence)},
                      {"version", escaped(version)},
                      {"numbers", for_script(numbers(lesson).dump(-1, ' ', false, Json::error_handler_t::replace))},
                      {"data", data},
                      {"script", std::string(page_unpack_js) + page_panel_inks_js + page_panel_data_js +
                                     page_panel_view_js + page_lesson_js}}));
}

}  // namespace evenpull
