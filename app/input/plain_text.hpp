// Whether a file is plain text at all: people save a case from a word processor, in a code of their own, or zipped.
#pragma once

#include <string>

namespace evenpull {

/// The text without its byte order mark. Throws CaseFileError that says what the file is instead and how to save it.
std::string plain_text(std::string bytes, const std::string& file);

}  // namespace evenpull
