// The guided questions of a draft, over any two streams.
#pragma once

#include "app/text/units.hpp"
#include "shop/draft/answers.hpp"

#include <functional>
#include <iosfwd>

namespace evenpull {

enum class DialogueEnd { done, stopped };

/// Asks on `out` what `answers` lacks, reads from `in`, and calls `keep` after every answer. Goes back to what is
/// answered already where that is wished. The end of the input is a stop. Where it is done, `answers` are those that
/// are asked.
DialogueEnd hold_dialogue(DraftAnswers& answers, std::istream& in, std::ostream& out, const Units& units,
                          const std::function<void(const DraftAnswers&)>& keep);

}  // namespace evenpull
