// survey: read, build the panel, draw, say.
#include "app/command/commands.hpp"
#include "app/command/machine_speed.hpp"
#include "app/command/parallel.hpp"
#include "app/input/case_reader.hpp"
#include "app/output/result_folder.hpp"
#include "app/output/survey_json.hpp"
#include "app/text/version.hpp"
#include "sequencer/sure/run_estimate.hpp"
#include "solver/equilibrium/mechanism.hpp"
#include "solver/statement/errors.hpp"
#include "viz/pictures/survey_picture.hpp"
#include "viz/words/survey_text.hpp"

#include <ostream>

namespace evenpull {
namespace {

RunEstimate slower(RunEstimate e, double times) {
  e.processor_seconds *= times;
  return e;
}

}  // namespace

void run_survey(const Request& r, std::ostream& out) {
  const auto file = read_case_file(r.case_file);
  const auto& c = file.value;
  ResultFolder folder(result_folder_of(r), say_on_errors);
  Panel panel;
  RunEstimate estimate, fine;
  double times = 1;
  try {
    panel = build_panel(c, {c.target_nodes});
    check_stands(c);
    estimate = estimate_run(c, Accuracy::normal);
    fine = estimate_run(c, Accuracy::fine);
    times = times_as_slow(c);
  } catch (const CaseError& e) {
    throw CaseFileError(r.case_file, file.place_of(e.key), e.key, e.what());
  }
  const auto document = survey_document(c, panel, estimate, fine, version());
  const auto aside = folder.open();
  folder.write("survey.json", document);
  folder.draw([&] {
    write_survey_picture(c, panel, (aside / "survey.png").string());
    write_survey_picture(c, panel, (aside / "survey.pdf").string());
  });
  folder.publish();
  say(r, out, document, [&] {
    return survey_text(c, panel, slower(estimate, times), slower(fine, times), r.threads.value_or(usual_threads()),
                       shown_result_folder(r));
  });
}

}  // namespace evenpull
