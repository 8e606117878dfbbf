// plan and replay: read, compute, write aside, publish, say.
#include "app/command/commands.hpp"
#include "app/command/parallel.hpp"
#include "app/command/progress.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/order_file.hpp"
#include "app/input/read_measured.hpp"
#include "app/input/work_file.hpp"
#include "app/output/json_number.hpp"
#include "app/output/kept_file.hpp"
#include "app/output/plan_json.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/terminal.hpp"
#include "app/text/version.hpp"
#include "sequencer/orders/job_graph.hpp"
#include "sequencer/orders/order_trouble.hpp"
#include "sequencer/planner/planner.hpp"
#include "solver/equilibrium/mechanism.hpp"
#include "solver/statement/errors.hpp"
#include "viz/fields/fields.hpp"
#include "viz/page/page.hpp"
#include "viz/pictures/pictures.hpp"
#include "viz/words/after_iron_words.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/part_words.hpp"
#include "viz/words/plan_summary.hpp"

#include <fmt/format.h>

#include <chrono>
#include <ctime>
#include <filesystem>
#include <optional>
#include <ostream>

namespace evenpull {
namespace {

class Stopwatch {
 public:
  double lap() {
    const auto now = Clock::now();
    const std::chrono::duration<double> d = now - last_;
    last_ = now;
    return d.count();
  }

 private:
  using Clock = std::chrono::steady_clock;
  Clock::time_point last_ = Clock::now();
};

// Drawing and writing take the rest of the time (bench/RECORD.md).
double share_of_computing(Accuracy a) { return a == Accuracy::quick ? 0.7 : 0.96; }

// All that the runs of a plan hang on.
std::string stated(const Request& r, const CaseFile& file, const OrderFile& order) {
  // Two builds of a tree that is being worked on have one commit.
  std::error_code unknown;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", unknown);
  const auto built = std::filesystem::last_write_time(program, unknown).time_since_epoch().count();
  return fmt::format("{}\n{}\n{}\n{}\n{}\n{}", version_and_commit(), built, static_cast<int>(r.accuracy),
                     r.turn_overs.value_or(-1), file.text, order.text);
}

// A quick plan is begun anew sooner than it is looked up.
void keep_runs(const Request& r, const CaseFile& file, const OrderFile& order, ResultFolder& folder,
               std::optional<KeptFile>& kept, PlanOptions& options) {
  if (r.job != Request::Job::plan || r.accuracy == Accuracy::quick) return;
  kept.emplace(kept_file_of(folder.target()), stated(r, file, order), r.resume);
  options.kept = &kept->runs();
  if (kept->keeps())
    folder.when_interrupted("what was computed is kept: the same command with --resume goes on from there");
  if (!r.resume || r.quiet) return;
  say_on_errors(kept->known_at_first() > 0 ? fmt::format("Going on: {} runs were kept.", kept->known_at_first())
                                           : "Nothing was kept of this plan: it begins anew.");
}

Plan compute_plan(const Request& r, CaseFile& file, ResultFolder& folder, std::optional<KeptFile>& kept,
                  Progress& bar) {
  PlanOptions options;
  options.accuracy = r.accuracy;
  const int threads = r.threads.value_or(usual_threads());
  options.parallel = [threads](int n, const std::function<void(int)>& work) { parallel_for(n, work, threads); };
  options.progress = [&](double share, PlanPart part) {
    bar.show(share_of_computing(r.accuracy) * share, viz::part_text(part));
  };
  OrderFile order;
  try {
    check_stands(file.value);  // in the words of the survey
    options.turn_overs = r.turn_overs;
    if (r.job == Request::Job::plan && r.order_file.empty()) {
      keep_runs(r, file, order, folder, kept, options);
      return make_plan(file.value, options);
    }
    if (r.job == Request::Job::plan) order = read_work_file(r.order_file, file.value);
    else order = read_order_file(r.order_file, file.value);
    take_passes(file.value, order, r.order_file);
    const auto panel = build_panel(file.value, {file.value.target_nodes});
    if (r.job == Request::Job::plan) {
      check_order(order, r.order_file, file.value, panel);  // for its refusals: half a job leaves out zones
      keep_runs(r, file, order, folder, kept, options);
      options.measured = order.measured;
      return make_plan_from(file.value, steps_done(order, r.order_file), options);
    }
    for (auto& doubt : check_order(order, r.order_file, file.value, panel))
      file.value.doubts.push_back(std::move(doubt));
    return replay_order(file.value, order.steps, options);
  } catch (const OrderError& e) {
    throw CaseFileError(r.order_file, order.places.of("steps"), e.key, viz::order_trouble_text(e.trouble));
  } catch (const CaseError& e) {
    // The solver knows the key; the line stands in the file.
    const bool of_order = e.key.rfind("order", 0) == 0 && !r.order_file.empty();
    throw CaseFileError(of_order ? r.order_file : r.case_file,
                        of_order ? order.places.of("steps") : file.place_of(e.key), e.key, e.what());
  }
}

// Fields beside drawings; each piece writes files of its own, and one thread alone draws text.
void write_drawings(const Plan& plan, const Request& r, ResultFolder& results, Progress& bar) {
  const auto folder = results.open();
  const auto fields = [&] { write_fields(plan, folder.string()); };
  const auto drawings = [&] {
    std::filesystem::create_directory(folder / "pictures");
    write_pictures(plan, (folder / "pictures").string());
    write_sheet(plan, r.paper, version_and_commit(), (folder / "plan.pdf").string());
    write_page(plan, version_and_commit(), (folder / "plan.html").string());
  };
  bar.show(share_of_computing(r.accuracy), viz::drawing_text);
  const auto write = [&](int i) { i == 0 ? results.draw(fields) : results.draw(drawings); };
  parallel_for(2, write, r.threads.value_or(usual_threads()));
}

// Where there is no plan nothing of it is kept; where it cannot be written it need not be computed again.
Plan plan_or_nothing_kept(const Request& r, CaseFile& file, ResultFolder& folder, std::optional<KeptFile>& kept,
                          Progress& bar) {
  try {
    return compute_plan(r, file, folder, kept, bar);
  } catch (...) {
    if (kept) kept->remove();
    throw;
  }
}

}  // namespace

void run_plan(const Request& r, std::ostream& out) {
  Stopwatch watch;
  auto file = read_case_file(r.case_file);
  ResultFolder folder(result_folder_of(r), say_on_errors);
  const double reading = watch.lap();
  Progress bar(!r.quiet);
  std::optional<KeptFile> kept;
  const auto plan = plan_or_nothing_kept(r, file, folder, kept, bar);
  const double computing = watch.lap();

  // The document first: it refuses a result that is no number before anything is drawn from it.
  const auto document = plan_document(plan, version());
  folder.write("plan.json", document);
  const double hottest_safe = plan.ceiling ? plan.the_case.stages[static_cast<size_t>(*plan.ceiling)].temperature : 0;
  const auto heading = (plan.ceiling                       ? "Order of ironing: "
                        : viz::coats_tauten(plan.the_case) ? "NO VERDICT, the coats tauten. Order computed: "
                                                           : "NOT TO BE IRONED, no stage is safe. Order computed: ") +
                       viz::order_name(plan.order);
  const std::optional<int> opens = opened_by_reading(plan);
  folder.write(
      "order.toml",
      order_text(order_of(plan), done_of(plan), heading, hottest_safe,
                 opens ? std::optional(plan.the_case.stages[static_cast<size_t>(*opens)].temperature) : std::nullopt,
                 measured_lines(plan)));
  folder.write("order.dot", order_graph(plan, [&](const PassZone& v) { return viz::node_text(plan, v); }));
  write_drawings(plan, r, folder, bar);
  const double processors = static_cast<double>(std::clock()) / CLOCKS_PER_SEC;  // of all threads
  const Json times = {{"reading_s", json_number(reading, "reading_s")},
                      {"computing_s", json_number(computing, "computing_s")},
                      {"processors_s", json_number(processors, "processors_s")},
                      {"writing_s", json_number(watch.lap(), "writing_s")}};
  folder.write("timing.json", json_text(times));
  folder.publish();
  if (kept) kept->remove();
  bar.finish();
  say(r, out, document, [&] { return plan_summary(plan, shown_result_folder(r), this_terminal()); });
}

}  // namespace evenpull
