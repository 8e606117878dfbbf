// What the command line offers, as plain values: the help, the manual and the completions all say the same.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct OptionWords {
  std::vector<std::string> names;  ///< "--out"; for a positional its name, "CASE"
  bool positional = false;
  bool required = false;
  std::string value;                 ///< "DIR", "FILE", "WORD", ...; empty: a flag
  std::vector<std::string> choices;  ///< where only some words are understood
  std::string what;
};

struct JobWords {
  std::string name;  ///< "plan"
  std::string what;
  std::vector<OptionWords> options;
};

struct CommandWords {
  std::string what_it_is;            ///< paragraphs, parted by an empty line
  std::string how_to_begin;          ///< examples and exit codes, lines as they are printed
  std::vector<OptionWords> options;  ///< of the program itself
  std::vector<JobWords> jobs;
};

/// From the same parser that reads the command line.
CommandWords command_words();

}  // namespace evenpull
