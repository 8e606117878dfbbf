#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_draft(CLI::App& app, Request& r) {
  auto* draft = app.add_subcommand(
      "draft", "asks what a tape can measure in ten minutes and writes a complete case; on a terminal step by step");
  draft->add_option("CASE", r.case_file, "the case file to write; one that is there is never overwritten")
      ->type_name("");
  draft
      ->add_option("--kind", r.draft.kind,
                   "kind of structure: \"welded steel tube\", \"aluminium tube\", \"sheet metal\", \"wood\" or "
                   "\"wing bay\"; with it, --answer or --usual nothing is asked")
      ->type_name("WORD");
  draft
      ->add_option("--answer", r.draft.answers,
                   "an answer by its name, once for each: --answer \"span = 60 in\"; --questions lists the names")
      ->type_name("TEXT")
      ->allow_extra_args(false);
  draft->add_flag("--usual", r.draft.usual,
                  "take the usual answer to whatever was not given; each is marked in the case. Without it the missing "
                  "ones are named");
  draft->add_flag("--questions", r.draft.questions,
                  "print all that is asked, with names, ranges and usual answers, and write nothing; of one kind with "
                  "--kind, for a form with --json");
  draft->add_flag("--no-runs", r.draft.no_runs,
                  "do not look which answers matter most, which takes some ten to thirty seconds");
  add_threads(*draft, r);
  add_common(*draft, r);
}

}  // namespace evenpull
