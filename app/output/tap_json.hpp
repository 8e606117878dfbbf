// tap.json: what `tap --json` prints.
#pragma once

#include "viz/words/tap_words.hpp"

#include <string>

namespace evenpull {

std::string tap_document(const TapTold& told, const std::string& version);

}  // namespace evenpull
