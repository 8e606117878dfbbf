// The bytes of a file, a pipe or standard input ("-"), read no further than a bound: a device may have no end.
#pragma once

#include <chrono>
#include <string>

namespace evenpull {

/// How long a pipe with a name may be silent before it is given up. Standard input may be as slow as a hand.
constexpr std::chrono::milliseconds pipe_patience{10000};

/// Throws CaseFileError for what cannot be read, is longer than most::file_bytes, or is a pipe into which nobody writes.
std::string read_raw(const std::string& path, std::chrono::milliseconds patience = pipe_patience);

}  // namespace evenpull
