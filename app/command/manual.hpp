// The manual page and what shells complete with, from the words of the command line.
#pragma once

#include "app/command/job_words.hpp"

#include <string>

namespace evenpull {

/// A page in the man macros, section 1.
std::string manual_page(const CommandWords& words, const std::string& version);

/// Completions of jobs, options, their words, case files and folders.
std::string bash_completion(const CommandWords& words);
std::string zsh_completion(const CommandWords& words);
std::string fish_completion(const CommandWords& words);

}  // namespace evenpull
