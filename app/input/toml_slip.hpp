// Words for a slip in the TOML, where the parser's own speak to those who know TOML.
#pragma once

#include "app/input/document.hpp"

#include <string>
#include <string_view>

namespace evenpull {

/// What is wrong at `place` of `text` and what to do; `description` is what the parser says.
std::string words_for_slip(const std::string& text, FilePlace place, std::string_view description);

}  // namespace evenpull
