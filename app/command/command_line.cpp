// The only file that knows the command-line library, whose header is slow to compile.
#include "app/command/exit_codes.hpp"
#include "app/command/job_words.hpp"
#include "app/command/request.hpp"
#include "app/input/case_table.hpp"
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
    "  evenpull template > my-aileron.toml    a case with every key explained: change it to your panel\n"
    "  evenpull survey my-aileron.toml        shows what was understood, with a drawing: check it\n"
    "  evenpull plan my-aileron.toml          the plan, in a folder of its own\n"
    "  evenpull contrast my-aileron.toml      for apprentices: the wrong way, the plain way and the plan, side by "
    "side\n"
    "  evenpull iron my-aileron.toml          a card for your iron, from thermometer readings\n\n"
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

const std::vector<std::string> jobs = {"plan", "survey", "replay", "contrast", "iron", "template"};

const std::vector<std::pair<std::string, Accuracy>> accuracies = {
    {"quick", Accuracy::quick}, {"normal", Accuracy::normal}, {"fine", Accuracy::fine}};

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
  if (first.empty()) {
    std::cerr << app.help();
  } else if (first[0] != '-' && std::find(jobs.begin(), jobs.end(), first) == jobs.end()) {
    const auto guess = nearest(first, jobs);
    std::cerr << "evenpull: " << in_quotes(first) << " is no job of this program; the jobs are " << list_words(jobs)
              << (guess.empty() ? "" : "; did you mean \"" + guess + "\"?") << "\nFor help: evenpull --help\n";
  } else {
    const auto* job = std::find(jobs.begin(), jobs.end(), first) == jobs.end() ? nullptr : app.get_subcommand(first);
    const auto option = job ? words_for_option(*job, argc, argv) : std::string();
    std::cerr << "evenpull: " << (option.empty() ? escaped(error.what(), most_shown_of_error) : option)
              << "\nFor help: evenpull --help, or evenpull plan --help\n";
  }
  return static_cast<int>(ExitCode::bad_command);
}

void add_case(CLI::App& command, Request& r) {
  command.add_option("CASE", r.case_file, "the case file (TOML); - reads standard input")->required()->type_name("");
}

void add_common(CLI::App& command, Request& r) {
  command
      .add_option(
          "--out", r.folder,
          "folder for the results; without it, one named after the case file, here (standard-input-plan after -)")
      ->type_name("DIR");
  command.add_flag("--json", r.json, "print the result as JSON instead of words; the folder is written as well");
  command.add_flag("--quiet", r.quiet, "print nothing but errors");
}

void add_paper(CLI::App& command, Request& r, const char* what) {
  const auto read = [&r](const std::string& word) {
    if (plain_word(word) != "letter" && plain_word(word) != "a4")
      throw CLI::ValidationError("--paper", in_quotes(word) + " is not known; say letter or a4");
    r.paper = plain_word(word) == "a4" ? Paper::a4 : Paper::letter;
  };
  command.add_option_function<std::string>("--paper", read, what)->type_name("PAPER");
}

void add_iron(CLI::App& command, Request& r) {
  command.add_option("CASE", r.case_file, "a case file with [[iron.reading]]; or leave it out and give --reading")
      ->type_name("");
  command
      .add_option("--reading", r.readings,
                  "readings at one mark of the dial, once a mark: --reading \"3 = 255 degF, 268 degF, 262 degF\"")
      ->type_name("TEXT")
      ->allow_extra_args(false);
  command.add_option("--swing", r.swing, "how far the thermostat swings to each side, like \"25 degF\"")
      ->type_name("TEXT");
  add_paper(command, r, "paper of the card, which takes half a sheet: letter or a4; letter if not said");
}

// More threads than any machine of today has processors are a slip of the hand.
constexpr int most_threads = 1024;

void add_threads(CLI::App& command, Request& r) {
  command
      .add_option(
          "--threads", r.threads,
          "how many processors to work on, from 1; without it all of them. The answer is the same, byte for byte")
      ->check(CLI::Range(1, most_threads))
      ->type_name("N");
}

void add_accuracy(CLI::App& command, Request& r, const char* quick) {
  const auto read_accuracy = [&r](const std::string& word) {
    const auto known =
        std::find_if(accuracies.begin(), accuracies.end(), [&](const auto& a) { return a.first == plain_word(word); });
    if (known == accuracies.end())
      throw CLI::ValidationError("--accuracy", in_quotes(word) + " is not known; say quick, normal or fine");
    r.accuracy = known->second;
  };
  auto* accuracy = command
                       .add_option_function<std::string>(
                           "--accuracy", read_accuracy,
                           "quick: coarse mesh, no error bars, seconds. normal (if not said): error bars from three "
                           "meshes and halved zones, minutes. fine: narrower bars, from a mesh of half the element "
                           "edge; about twice as long as normal")
                       ->type_name("WORD");
  command
      .add_flag_callback(
          "--quick", [&r] { r.accuracy = Accuracy::quick; }, quick)
      ->excludes(accuracy);
}

void add_run(CLI::App& command, Request& r) {
  add_paper(command, r, "paper of the sheet: letter or a4; letter if not said");
  add_accuracy(command, r, "short for --accuracy quick: a first look, marked so on the sheet");
}

/// An option that takes a quantity of a kind between two bounds.
void add_number(CLI::App& command, const std::string& name, std::optional<double>& into, Quantity kind, double least,
                double most, const std::string& help) {
  const auto read = [&into, name, kind, least, most](const std::string& words) {
    double value = 0;
    try {
      value = Units().parse(words, kind);
    } catch (const UnitError& e) {
      throw CLI::ValidationError(name, in_quotes(words) + " " + e.what());
    }
    if (!(value >= least && value <= most)) {
      const bool may_be_percent = value > most && most < 1 && value / 100 <= most &&
                                  words.find('%') == std::string::npos;
      throw CLI::ValidationError(
          name, in_quotes(words) + " is out of range; it may be from " + print_number(least) + " to " +
                    print_number(most) +
                    (may_be_percent ? "; a plain number is a share: write \"" + print_number(value, 12) + " %\" or " +
                                          print_number(value / 100, 12)
                                    : ""));
    }
    into = value;
  };
  command.add_option_function<std::string>(name, read, help)->type_name("VALUE");
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

struct Jobs {
  CLI::App *plan, *survey, *replay, *contrast, *iron, *print_template;
};

Jobs describe(CLI::App& app, Request& r) {
  app.footer(how_to_begin);
  app.set_version_flag("--version", std::string("evenpull ") + version_and_commit());
  app.require_subcommand(1);

  auto* plan =
      app.add_subcommand("plan", "the main job: hottest safe stage, order of ironing, sheet, pictures, fields");
  auto* survey = app.add_subcommand("survey", "reads a case, says what was understood, and draws it; no plan yet");
  auto* replay = app.add_subcommand("replay", "runs an order that you chose; same results as plan");
  auto* contrast = app.add_subcommand(
      "contrast", "a lesson: the wrong way, the plain way and the plan side by side; a hand-out and a page");
  auto* print_template = app.add_subcommand("template", "prints a case file with every key explained");
  auto* iron =
      app.add_subcommand("iron", "thermometer readings to a card: which mark of the dial gives which true temperature");
  for (auto* command : {plan, survey, replay, contrast}) {
    add_case(*command, r);
    add_common(*command, r);
  }
  add_iron(*iron, r);
  add_common(*iron, r);
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
  return {plan, survey, replay, contrast, iron, print_template};
}

std::vector<std::string> choices_of(const std::string& name) {
  if (name == "--paper") return {"letter", "a4"};
  std::vector<std::string> words;
  if (name == "--accuracy")
    for (const auto& accuracy : accuracies) words.push_back(accuracy.first);
  return words;
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
  const Jobs jobs_of = describe(app, r);
  try {
    app.parse(argc, argv);
    refuse_empty_words(app);
    if (r.case_file == "-" && r.order_file == "-")
      throw CLI::ValidationError("-", "only one of the two, case or order, can come from standard input");
  } catch (const CLI::ParseError& e) {
    const bool asked_for = e.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success);  // help or version
    return {std::nullopt, asked_for ? app.exit(e) : explain(app, e, argc, argv)};
  }
  r.job = *jobs_of.survey           ? Request::Job::survey
          : *jobs_of.replay         ? Request::Job::replay
          : *jobs_of.contrast       ? Request::Job::contrast
          : *jobs_of.iron           ? Request::Job::iron
          : *jobs_of.print_template ? Request::Job::print_template
                                    : Request::Job::plan;
  return {r, 0};
}

}  // namespace evenpull
