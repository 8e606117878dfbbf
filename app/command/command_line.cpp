// What the command line offers and how it is read. The library's header is slow to compile: see option_parts.hpp.
#include "app/command/exit_codes.hpp"
#include "app/command/job_words.hpp"
#include "app/command/option_parts.hpp"
#include "app/command/request.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "app/text/units.hpp"
#include "app/text/version.hpp"
#include "viz/words/print.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cctype>
#include <iostream>

namespace evenpull {
namespace {

constexpr const char* what_it_is =
    "Plans how to tauten heat-shrink cloth on a light frame with an iron so that the frame stays true.\n\n"
    "You write down the panel, what holds it, the cloth and the iron (a case file). evenpull computes how the pull of "
    "the\n"
    "cloth builds up zone by zone and stage by stage, finds the hottest stage the frame bears, chooses the order of "
    "ironing,\n"
    "and writes a sheet to hang on the wall.\n\n"
    "It does not show that a part is airworthy. The aircraft's approved data, local rules and a licensed mechanic go "
    "first.\n";

constexpr const char* how_to_begin =
    "To begin:\n"
    "  evenpull draft my-aileron.toml         asks what a tape can measure and writes the case\n"
    "  evenpull template > my-aileron.toml    a case with every key explained: change it to your panel\n"
    "  evenpull survey my-aileron.toml        shows what was understood, with a drawing: check it\n"
    "  evenpull plan my-aileron.toml          the plan, in a folder of its own\n"
    "  evenpull contrast my-aileron.toml      for apprentices: the wrong way, the plain way and the plan, side by "
    "side\n"
    "  evenpull iron my-aileron.toml          a card for your iron, from thermometer readings\n"
    "  evenpull log my-aileron.toml           while the work goes on: what was done and read, what comes next\n"
    "  evenpull coupon                        how to measure the pull of your own cloth on a wooden square\n"
    "  evenpull tap my-aileron.toml --tone \"top, bay 2 = 84 Hz\"    the pull of that bay, from the tone of a tap\n"
    "  evenpull push my-aileron.toml          weights on the bare frame: how stiff it really is\n"
    "  evenpull stiffen my-aileron.toml       what would let it bear a hotter stage\n"
    "  evenpull glue my-aileron.toml          glue lines, how much adhesive, what heat it bears\n"
    "  evenpull clock my-aileron.toml         the whole job as a list to tick, with its waits\n"
    "  evenpull weigh my-aileron.toml         what the covering weighs, and its moment about the hinges\n"
    "  evenpull signoff my-aileron.toml       a page of what was planned, done and read, to be signed by hand\n"
    "  evenpull blanket my-aileron.toml       what to cut from the bolt, where to lap and glue\n\n"
    "Exit codes:\n"
    "  0  done (also when the answer is that no stage is safe)\n"
    "  1  a mistake in evenpull itself: please report it\n"
    "  2  the command line was not understood\n"
    "  3  the case or order file has a mistake, or the case cannot be computed as stated\n"
    "  4  no equilibrium was found, or none certain enough: there is no plan\n"
    "  5  the results could not be written, and an earlier result is as it was; or only what was to be printed\n"
    "  6  another run is at work on the same folder: nothing was touched\n"
    "  129, 130, 143  interrupted: nothing half-written is left";

constexpr std::size_t most_shown_of_error = 300;

const std::vector<std::pair<std::string, Request::Job>> jobs = {{"plan", Request::Job::plan},
                                                                {"survey", Request::Job::survey},
                                                                {"replay", Request::Job::replay},
                                                                {"contrast", Request::Job::contrast},
                                                                {"iron", Request::Job::iron},
                                                                {"log", Request::Job::log},
                                                                {"coupon", Request::Job::coupon},
                                                                {"tap", Request::Job::tap},
                                                                {"old", Request::Job::old},
                                                                {"push", Request::Job::push},
                                                                {"stiffen", Request::Job::stiffen},
                                                                {"glue", Request::Job::glue},
                                                                {"weigh", Request::Job::weigh},
                                                                {"clock", Request::Job::clock},
                                                                {"signoff", Request::Job::signoff},
                                                                {"draft", Request::Job::draft},
                                                                {"attach", Request::Job::attach},
                                                                {"blanket", Request::Job::blanket},
                                                                {"template", Request::Job::print_template}};

std::vector<std::string> names_of_jobs() {
  std::vector<std::string> names;
  for (const auto& job : jobs) names.push_back(job.first);
  return names;
}

/// A word with a stroke in front that is none of the options of this job, and the nearest that is.
std::string words_for_option(const CLI::App& job, int argc, const char* const* argv) {
  std::vector<std::string> known;
  for (const auto* option : job.get_options())
    for (const auto& name : option->get_lnames()) known.push_back("--" + name);
  for (int i = 2; i < argc; ++i) {
    const std::string word = argv[i];
    const auto name = word.substr(0, word.find('='));
    if (name.size() < 2 || name[0] != '-' || std::find(known.begin(), known.end(), name) != known.end()) continue;
    if (std::isdigit(static_cast<unsigned char>(name[1])) || name == "-h") continue;  // a value below zero, help
    const auto guess = nearest(name, known);
    return job.get_name() + " has no option " + in_quotes(name) +
           (guess.empty() ? "; its options are " + list_words(known) : "; did you mean " + in_quotes(guess) + "?");
  }
  return "";
}

/// Explains a command line that was not understood; the library's own words assume somebody who knows such libraries.
int explain(const CLI::App& app, const CLI::ParseError& error, int argc, const char* const* argv) {
  const std::string first = argc > 1 ? argv[1] : "";
  const auto names = names_of_jobs();
  const bool known = std::find(names.begin(), names.end(), first) != names.end();
  if (first.empty()) {
    std::cerr << app.help();
  } else if (first[0] != '-' && !known) {
    const auto guess = nearest(first, names);
    std::cerr << "evenpull: " << in_quotes(first) << " is no job of this program; the jobs are " << list_words(names)
              << (guess.empty() ? "" : "; did you mean \"" + guess + "\"?") << "\nFor help: evenpull --help\n";
  } else {
    const auto* job = known ? app.get_subcommand(first) : nullptr;
    const auto option = job ? words_for_option(*job, argc, argv) : std::string();
    std::cerr << "evenpull: " << (option.empty() ? escaped(error.what(), most_shown_of_error) : option)
              << "\nFor help: evenpull --help, or evenpull plan --help\n";
  }
  return static_cast<int>(ExitCode::bad_command);
}

/// What a teacher can change for a lesson. The ranges are wide, and ours: beyond them the model says nothing sensible.
void add_lesson(CLI::App& command, Request& r) {
  add_number(command, "--looseness", r.looseness, Quantity::fraction, 0, 0.06,
             "how loose the cloth lies before ironing, each way: \"2 %\"");
  add_number(command, "--friction", r.friction, Quantity::fraction, 0, 1.5,
             "friction of cloth on the trailing edge and on ribs and spars: 0.25");
  add_number(command, "--stiffness", r.stiffness, Quantity::fraction, 0.05, 20,
             "of the frame, times what the case says: 0.5 for half as stiff");
}

/// An empty word is a variable of a script that was not set, and would be taken for an option that was not given.
void refuse_empty_words(const CLI::App& app) {
  for (const auto* job : app.get_subcommands())
    for (const auto* option : job->get_options())
      for (const auto& word : option->results())
        if (word.empty())
          throw CLI::ValidationError(option->get_name(), "is empty; say what is meant, or leave it out");
}

void describe(CLI::App& app, Request& r) {
  app.footer(how_to_begin);
  app.set_version_flag("--version", std::string("evenpull ") + version_and_commit());
  app.require_subcommand(1);

  auto* plan =
      app.add_subcommand("plan", "the main job: hottest safe stage, order of ironing, sheet, pictures, fields");
  auto* survey = app.add_subcommand("survey", "reads a case, says what was understood, and draws it; no plan yet");
  auto* replay = app.add_subcommand("replay", "runs an order that you chose; same results as plan");
  auto* contrast = app.add_subcommand(
      "contrast", "a lesson: the wrong way, the plain way and the plan side by side; a hand-out and a page");
  for (auto* command : {plan, survey, replay, contrast}) {
    add_case(*command, r);
    add_common(*command, r);
  }
  describe_iron(app, r);
  describe_log(app, r);
  describe_coupon(app, r);
  describe_tap(app, r);
  describe_old(app, r);
  describe_push(app, r);
  describe_stiffen(app, r);
  describe_glue(app, r);
  describe_weigh(app, r);
  describe_clock(app, r);
  describe_signoff(app, r);
  describe_draft(app, r);
  describe_attach(app, r);
  describe_blanket(app, r);
  app.add_subcommand("template", "prints a case file with every key explained");
  add_run(*plan, r);
  add_run(*replay, r);
  for (auto* command : {plan, replay, contrast}) add_threads(*command, r);
  add_paper(*contrast, r, "paper of the hand-out: letter or a4; letter if not said");
  add_accuracy(*contrast, r,
               "short for --accuracy quick: the third way is then the order of a first look, and the lesson says so");
  add_lesson(*contrast, r);
  plan->add_option(
          "--turn-overs", r.turn_overs,
          "most turn-overs in a pass that you want to make: 1 is the least, from one side to the other; where no order "
          "has so few, those with the fewest are compared and the plan says so. With --from those still to come "
          "count. Without it the plan weighs them itself")
      ->check(CLI::Range(0, 10000))
      ->type_name("N");
  plan->add_flag(
          "--resume", r.resume,
          "go on where this plan was interrupted: of the same case, with the same options, what had been computed "
          "is taken from where it was kept, beside the folder. The results are the same")
      ->excludes("--quick");
  plan->add_option("--from", r.order_file,
                   "go on from work half done: an order file in which the steps worked are marked done = true "
                   "(order.toml of the plan you followed, changed to what was really worked, in that order)")
      ->type_name("FILE");
  replay
      ->add_option("--order", r.order_file,
                   "the order to run; order.toml of an earlier plan, copied and changed, is one")
      ->required()
      ->type_name("FILE");
}

std::vector<OptionWords> options_of(const CLI::App& app) {
  std::vector<OptionWords> out;
  for (const CLI::Option* option : app.get_options()) {
    OptionWords o;
    o.positional = option->get_positional();
    o.required = option->get_required();
    if (o.positional) {
      o.names = {option->get_name(true, false)};
    } else {
      for (const std::string& name : option->get_snames()) o.names.push_back("-" + name);
      for (const std::string& name : option->get_lnames()) o.names.push_back("--" + name);
      o.choices = choices_of(o.names.back());
    }
    if (option->get_expected_max() > 0) o.value = option->get_type_name();
    o.what = option->get_description();
    out.push_back(std::move(o));
  }
  return out;
}

}  // namespace

CommandWords command_words() {
  Request unused;
  CLI::App app(what_it_is, "evenpull");
  describe(app, unused);
  CommandWords out{what_it_is, how_to_begin, options_of(app), {}};
  for (const CLI::App* job : app.get_subcommands({}))
    out.jobs.push_back({job->get_name(), job->get_description(), options_of(*job)});
  return out;
}

ParsedCommand parse_command_line(int argc, const char* const* argv) {
  Request r;
  CLI::App app(what_it_is, "evenpull");
  describe(app, r);
  try {
    app.parse(argc, argv);
    refuse_empty_words(app);
    if (r.case_file == "-" && r.order_file == "-")
      throw CLI::ValidationError("-", "only one of the two, case or order, can come from standard input");
  } catch (const CLI::ParseError& e) {
    const bool asked_for = e.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success);  // help or version
    return {std::nullopt, asked_for ? app.exit(e) : explain(app, e, argc, argv)};
  }
  for (const auto& [name, job] : jobs)
    if (app.got_subcommand(name)) r.job = job;
  return {r, 0};
}

}  // namespace evenpull
