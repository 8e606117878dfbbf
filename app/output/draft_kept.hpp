// Answers of a draft that was broken off, kept beside the file that is to be written: plain lines, one an answer.
#pragma once

#include "app/text/units.hpp"
#include "shop/draft/answers.hpp"

#include <filesystem>
#include <optional>
#include <string>

namespace evenpull {

/// ".my-aileron.toml.evenpull-draft"
std::filesystem::path kept_answers_file(const std::filesystem::path& file);

std::string kept_answers_text(const DraftAnswers& answers);
/// Of answers up to the first that is missing or no longer an answer; those that follow are asked again. Throws
/// CaseFileError for a file that is none of ours.
DraftAnswers kept_answers_of(const std::string& text, const std::string& path, const Units& units);

/// Nothing where no answers are kept.
std::optional<DraftAnswers> read_kept_answers(const std::filesystem::path& file, const Units& units);
void keep_answers(const std::filesystem::path& file, const DraftAnswers& answers);
void forget_answers(const std::filesystem::path& file);

}  // namespace evenpull
