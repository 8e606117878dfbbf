// contrast: the same panel ironed three ways, for a lesson.
#include "app/command/commands.hpp"
#include "app/command/contrast_orders.hpp"
#include "app/command/parallel.hpp"
#include "app/command/progress.hpp"
#include "app/input/case_reader.hpp"
#include "app/output/json_number.hpp"
#include "app/output/json_units.hpp"
#include "app/output/result_folder.hpp"
#include "app/output/study_json.hpp"
#include "app/text/units.hpp"
#include "app/text/version.hpp"
#include "sequencer/planner/planner.hpp"
#include "solver/equilibrium/mechanism.hpp"
#include "solver/statement/errors.hpp"
#include "viz/lesson/lesson.hpp"
#include "viz/words/lesson_words.hpp"
#include "viz/words/part_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/terminal_text.hpp"

#include <fmt/format.h>

#include <ostream>

namespace evenpull {
namespace {

constexpr int contrast_format = 1;

std::string percent(double share) { return print_number(100 * share, 3) + " %"; }

/// Sets what the teacher asked for; gives the sentences that say so.
std::vector<std::string> change(Case& c, const Request& r) {
  std::vector<std::string> said;
  if (r.looseness) {
    said.push_back(fmt::format("Looseness set to {} each way; the case says {} along the warp, {} along the fill.",
                               percent(*r.looseness), percent(c.cloth.looseness.warp),
                               percent(c.cloth.looseness.fill)));
    c.cloth.looseness = {*r.looseness, *r.looseness};
  }
  if (r.friction) {
    said.push_back(fmt::format("Friction set to {}; the case says {} at the trailing edge, {} on ribs and spars.",
                               print_number(*r.friction, 3), print_number(c.blanket.edge_friction, 3),
                               print_number(c.blanket.rib_friction, 3)));
    c.blanket.edge_friction = c.blanket.rib_friction = *r.friction;
  }
  if (r.stiffness) {
    said.push_back(fmt::format("Every member {} times as stiff as the case says, and as strong as before.",
                               print_number(*r.stiffness, 3)));
    for (auto& m : c.materials) {
      m.youngs_modulus *= *r.stiffness;
      m.shear_modulus *= *r.stiffness;
    }
  }
  return said;
}

// The plan takes most of the time: about so much of it; two orders beside it the rest.
double share_of_plan(Accuracy a) { return a == Accuracy::quick ? 0.75 : 0.85; }

Lesson compute_lesson(const Request& r, CaseFile& file) {
  Progress bar(!r.quiet);
  const double planning = share_of_plan(r.accuracy);
  // As `plan` has them, so that the third way is its plan and nothing like it.
  PlanOptions options;
  options.accuracy = r.accuracy;
  const int threads = r.threads.value_or(usual_threads());
  options.parallel = [threads](int n, const std::function<void(int)>& work) { parallel_for(n, work, threads); };
  options.progress = [&bar, planning](double share, PlanPart part) {
    bar.show(planning * share, viz::part_text(part));
  };
  Lesson lesson;
  lesson.changed = change(file.value, r);
  try {
    check_stands(file.value);  // in the words of the survey
    Plan plan = make_plan(file.value, options);
    const int last = plan.ceiling.value_or(0);
    const Panel& panel = plan.panel;
    lesson.ways.push_back({"one side first", "All of the top from root to tip, then all of the bottom.", {}});
    lesson.ways.push_back({"root to tip", "Bay by bay, both sides of a bay before the next.", {}});
    lesson.ways.push_back({"the plan", viz::lesson_plan_rule(plan), {}});
    const Case& same = plan.the_case;  // all three with the passes of the plan, on its mesh
    const std::vector<OrderStep> orders[] = {one_side_first(same, panel, last), root_to_tip(same, panel, last)};
    PlanOptions quiet = options;
    quiet.progress = nullptr;
    bar.show(planning, viz::other_ways_text);
    const auto run = [&](int w) {
      lesson.ways[static_cast<size_t>(w)].plan = run_beside(same, orders[static_cast<size_t>(w)], quiet);
    };
    parallel_for(static_cast<int>(std::size(orders)), run, threads);
    lesson.ways.back().plan = up_to_stage(std::move(plan), last);
    bar.finish();
  } catch (const CaseError& e) {
    throw CaseFileError(r.case_file, file.place_of(e.key), e.key, e.what());
  }
  return lesson;
}

Json series_json(const std::vector<double>& values, double unit, const char* name) {
  auto list = Json::array();
  for (double v : values) list.push_back(json_number(v * unit, name));
  return list;
}

/// As the solver read it at the end of the last stage worked; null where the frame gave way before.
Json twist_at_end(const Plan& plan) {
  for (const auto& s : plan.stages)
    if (s.settled && !plan.steps.empty() && s.stage == plan.steps.back().stage)
      return json_number(s.twist * degrees_per_radian, "ways.twist_at_end_deg");
  return nullptr;
}

Json limits_json(const Case& c) {
  const Limits& l = c.limits;
  return {{"twist_deg", json_number(l.twist * degrees_per_radian, "limits.twist_deg")},
          {"slip_mm", json_number(l.slip * mm, "limits.slip_mm")},
          {"pull_difference_N_per_m",
           l.pull_difference ? json_number(*l.pull_difference, "limits.pull_difference") : Json(nullptr)}};
}

Json stage_json(const Plan& plan) {
  const auto degF = [&](std::optional<int> stage) {
    return stage ? json_number(stage_degF(plan, *stage), "stage_degF") : Json(nullptr);
  };
  return {{"shown_up_to_degF", degF(plan.ceiling.value_or(0))},
          {"hottest_safe_degF", plan.first_look() ? Json(nullptr) : degF(plan.ceiling)},
          {"first_look", plan.first_look()},
          {"in_words", viz::lesson_stage_text(plan)}};
}

Json way_json(const LessonWay& way, const viz::WayFigures& figures) {
  const LessonSeries s = lesson_series(way.plan);
  auto steps = Json::array();
  for (const auto& step : way.plan.steps) steps.push_back(way.plan.panel.zones[static_cast<size_t>(step.zone)].label);
  return {{"name", way.name},
          {"rule", way.rule},
          {"zones", steps},
          {"slip_mm", series_json(s.slip, mm, "ways.slip_mm")},
          {"twist_deg", series_json(s.twist, degrees_per_radian, "ways.twist_deg")},
          {"twist_at_end_deg", twist_at_end(way.plan)},
          {"difference_chord_N_per_m", series_json(s.difference_chord, 1, "ways.difference_chord")},
          {"difference_span_N_per_m", series_json(s.difference_span, 1, "ways.difference_span")},
          {"turn_overs", figures.turn_overs},
          {"gave_way", figures.gave_way},
          {"worst_use", json_number(figures.worst_use, "ways.worst_use")},
          {"worst_slip_of_tight_cloth_mm", json_number(figures.judged_slip * mm, "ways.worst_slip")}};
}

std::string lesson_document(const Lesson& lesson) {
  const Plan& plan = lesson.ways.back().plan;
  const OrderMatters matters = order_matters(lesson);
  Json j;
  j["format"] = contrast_format;
  j["evenpull"] = version();
  j["title"] = plan.the_case.title;
  j["invented"] = plan.the_case.invented;
  j["accuracy"] = accuracy_word(plan.accuracy);
  j["accuracy_quick"] = plan.quick();
  j["changed"] = lesson.changed;
  j["order_matters"] = {{"headline", matters.headline}, {"finding", matters.finding}};
  j["stage"] = stage_json(plan);
  j["limits"] = limits_json(plan.the_case);
  const auto figures = lesson_figures(lesson);
  for (size_t w = 0; w < lesson.ways.size(); ++w) j["ways"].push_back(way_json(lesson.ways[w], figures[w]));
  for (const auto& q : lesson_questions(lesson))
    j["questions"].push_back({{"question", q.question}, {"choices", q.choices}, {"answer", q.answer}});
  return json_text(j);
}

std::string lesson_text(const Lesson& lesson, const std::string& folder) {
  std::string text = lesson.ways.back().plan.the_case.title + ": the same panel ironed three ways\n";
  for (const auto& c : lesson.changed) text += "  " + wrap_text(c, 2) + "\n";
  const OrderMatters matters = order_matters(lesson);
  text += "\n  " + wrap_text(matters.headline + " " + matters.finding, 2) + "\n  " +
          wrap_text(viz::lesson_stage_text(lesson.ways.back().plan), 2) + "\n\n";
  for (size_t w = 0; w < lesson.ways.size(); ++w)
    text += fmt::format("  {}  {}\n", static_cast<char>('A' + w),
                        wrap_text(lesson.ways[w].name + ": " + lesson.ways[w].rule, 5));
  text += "\n";
  int n = 1;
  for (const auto& q : lesson_questions(lesson))
    text += fmt::format("  {}. {}\n     {}\n", n++, wrap_text(q.question, 5), wrap_text(q.answer, 5));
  return text +
         fmt::format(
             "\n  Results: {}/\n    lesson.pdf (two pages to print), lesson.html (opens in a browser), contrast.json\n",
             folder);
}

}  // namespace

void run_contrast(const Request& r, std::ostream& out) {
  auto file = read_case_file(r.case_file);
  ResultFolder folder(result_folder_of(r), say_on_errors);
  const Lesson lesson = compute_lesson(r, file);
  const auto document = lesson_document(lesson);
  const auto aside = folder.open();
  folder.write("contrast.json", document);
  folder.draw([&] {
    write_lesson_sheet(lesson, r.paper, version_and_commit(), (aside / "lesson.pdf").string());
    write_lesson_page(lesson, version_and_commit(), (aside / "lesson.html").string());
  });
  folder.publish();
  say(r, out, document, [&] { return lesson_text(lesson, shown_result_folder(r)); });
}

}  // namespace evenpull
