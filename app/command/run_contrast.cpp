// contrast: the same panel ironed three ways, for a lesson.
#include "app/command/commands.hpp"
#include "app/command/contrast_orders.hpp"
#include "app/command/parallel.hpp"
#include "app/command/progress.hpp"
#include "app/input/case_reader.hpp"
#include "app/output/json_number.hpp"
#include "app/output/json_units.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/units.hpp"
#include "app/text/version.hpp"
#include "sequencer/planner/planner.hpp"
#include "solver/equilibrium/mechanism.hpp"
#include "solver/statement/errors.hpp"
#include "viz/lesson/lesson.hpp"
#include "viz/words/order_words.hpp"
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

Lesson compute_lesson(const Request& r, CaseFile& file) {
  Progress bar(!r.quiet);
  PlanOptions options;
  // A lesson compares; it is to be had in seconds, and nobody irons by it.
  options.accuracy = Accuracy::quick;
  // What an apprentice is to learn is a rule, not a list of numbers.
  options.only_rules = true;
  const int threads = r.threads.value_or(usual_threads());
  options.parallel = [threads](int n, const std::function<void(int)>& work) { parallel_for(n, work, threads); };
  // Looking for the plan takes most of the time.
  constexpr double share_of_plan = 0.7;
  options.progress = [&bar](double share, PlanPart part) { bar.show(share_of_plan * share, viz::part_text(part)); };
  Lesson lesson;
  lesson.changed = change(file.value, r);
  try {
    check_stands(file.value);  // in the words of the survey
    Plan plan = make_plan(file.value, options);
    const int last = plan.ceiling.value_or(0);
    const Panel& panel = plan.panel;
    lesson.ways.push_back({"one side first", "All of the top from root to tip, then all of the bottom.", {}});
    lesson.ways.push_back({"root to tip", "Bay by bay, both sides of a bay before the next.", {}});
    lesson.ways.push_back({"the plan", "The best rule for this panel: " + viz::order_name(plan.order) + ".", {}});
    const Case& same = plan.the_case;  // all three with the passes of the plan
    const std::vector<OrderStep> orders[] = {one_side_first(same, panel, last), root_to_tip(same, panel, last)};
    PlanOptions quiet = options;
    quiet.progress = nullptr;
    for (size_t w = 0; w < std::size(orders); ++w) {
      lesson.ways[w].plan = up_to_stage(replay_order(same, orders[w], quiet), last);
      bar.show(share_of_plan + (1 - share_of_plan) * static_cast<double>(w + 1) / 2, viz::other_ways_text);
    }
    lesson.ways.back().plan = up_to_stage(std::move(plan), last);
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

std::string lesson_document(const Lesson& lesson) {
  const Plan& plan = lesson.ways.back().plan;
  Json j;
  j["format"] = contrast_format;
  j["evenpull"] = version();
  j["title"] = plan.the_case.title;
  j["invented"] = plan.the_case.invented;
  j["accuracy_quick"] = plan.quick();
  j["changed"] = lesson.changed;
  for (const auto& way : lesson.ways) {
    const LessonSeries s = lesson_series(way.plan);
    auto steps = Json::array();
    for (const auto& step : way.plan.steps) steps.push_back(way.plan.panel.zones[static_cast<size_t>(step.zone)].label);
    j["ways"].push_back({{"name", way.name},
                         {"rule", way.rule},
                         {"zones", steps},
                         {"slip_mm", series_json(s.slip, mm, "ways.slip_mm")},
                         {"twist_deg", series_json(s.twist, degrees_per_radian, "ways.twist_deg")},
                         {"twist_at_end_deg", twist_at_end(way.plan)},
                         {"difference_chord_N_per_m", series_json(s.difference_chord, 1, "ways.difference_chord")},
                         {"difference_span_N_per_m", series_json(s.difference_span, 1, "ways.difference_span")},
                         {"turn_overs", s.turn_overs.empty() ? 0 : s.turn_overs.back()}});
  }
  for (const auto& q : lesson_questions(lesson))
    j["questions"].push_back({{"question", q.question}, {"answer", q.answer}});
  return json_text(j);
}

std::string lesson_text(const Lesson& lesson, const std::string& folder) {
  std::string text = lesson.ways.back().plan.the_case.title + ": the same panel ironed three ways\n";
  for (const auto& c : lesson.changed) text += "  " + wrap_text(c, 2) + "\n";
  for (size_t w = 0; w < lesson.ways.size(); ++w)
    text += fmt::format("  {}  {}\n", static_cast<char>('A' + w), wrap_text(lesson.ways[w].name, 5));
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
