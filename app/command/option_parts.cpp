#include "app/command/option_parts.hpp"

#include "app/input/case_table.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/print.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>

namespace evenpull {
namespace {

const std::vector<std::pair<std::string, Accuracy>> accuracies = {
    {"quick", Accuracy::quick}, {"normal", Accuracy::normal}, {"fine", Accuracy::fine}};

// More threads than any machine of today has processors are a slip of the hand.
constexpr int most_threads = 1024;

}  // namespace

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

void add_slip(CLI::App& command, Request& r) {
  add_paper(command, r, "paper of the slip, which takes half a sheet: letter or a4; letter if not said");
  add_common(command, r);
}

void add_each(CLI::App& command, const std::string& name, std::vector<std::string>& into, const std::string& help,
              const std::string& type) {
  command.add_option(name, into, help)->type_name(type)->allow_extra_args(false);
}

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

std::vector<std::string> choices_of(const std::string& option) {
  if (option == "--paper") return {"letter", "a4"};
  if (option == "--behind") return {"open", "skin", "held"};
  if (option == "--held") return {"ironed", "use"};
  std::vector<std::string> words;
  if (option == "--accuracy")
    for (const auto& accuracy : accuracies) words.push_back(accuracy.first);
  return words;
}

}  // namespace evenpull
