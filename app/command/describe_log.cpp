#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_log(CLI::App& app, Request& r) {
  auto* log = app.add_subcommand(
      "log", "while the work goes on: records what was ironed and read, says what comes next and when to stop");
  add_case(*log, r);
  add_each(*log, "--worked", r.log.worked,
           "what was ironed, once for each go: \"next\", \"next 5\", \"run\" (up to the next turn-over), \"stage\", "
           "zones "
           "as on the drawing (\"T3 T4\"), a side (\"top\") or a bay (\"bay 3\"); with a stage and pass in front where "
           "it was not the next one (\"300 degF, pass 1: top\")");
  log->add_option("--sole", r.log.sole,
                  "what the sole truly was while these were ironed, where it was not the stage: \"280 degF\"")
      ->type_name("TEMPERATURE");
  add_each(*log, "--read", r.log.read,
           "what was read, once for each: \"top, bay 2: 500 g = 3.4 mm\", \"top, bay 2 = 84 Hz\", \"trailing "
           "edge bow = 0.03 in\", "
           "\"twist = 2 mm\", "
           "\"slip = 1 mm\"; it is of the stage done last, else say which: \"250 degF: twist = 2 mm\"");
  log->add_option("--page", r.log.page, "takes over ticks and readings that the page of the plan saved")
      ->type_name("FILE");
  log->add_option("--jolted", r.log.jolted, "the panel was dropped, knocked or clamped anew: what happened")
      ->type_name("TEXT");
  log->add_option("--remark", r.log.remark, "words to keep: who, what iron, what was seen")->type_name("TEXT");
  log->add_option("--take-back", r.log.take_back, "an entry that was a mistake, by its number; it stays readable")
      ->type_name("N");
  log->add_option("--log", r.log.file, "the log; without it one named after the case, here")->type_name("FILE");
  log->add_option("--plan", r.log.plan,
                  "folder of the plan that is followed; without it the one that evenpull plan writes here")
      ->type_name("DIR");
  add_slip(*log, r);
}

}  // namespace evenpull
