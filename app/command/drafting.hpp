// From answers to a case that was read back, and to what is to be measured again first.
#pragma once

#include "app/input/case_reader.hpp"
#include "app/output/draft_case.hpp"
#include "sequencer/numbers/parallel_for.hpp"
#include "viz/words/draft_words.hpp"

#include <functional>
#include <stdexcept>
#include <string>

namespace evenpull {

/// The case drafted from these answers cannot be read or computed. what() is a sentence that names the answer.
struct DraftFault : std::runtime_error {
  Ask ask;
  DraftFault(Ask ask_, const std::string& sentence) : std::runtime_error(sentence), ask(ask_) {}
};

struct Drafted {
  DraftText text;
  Case value;
};
/// Of answers to all that is asked: written, read back by the reader of cases, its panel built. `file` is where it
/// will stand; its name becomes the title. `nodes`: of the mesh on which its panel is tried, if not those of a plan.
/// Throws DraftFault.
Drafted draft_from(const DraftAnswers& answers, const std::string& file, std::optional<int> nodes = {});

/// Runs a first look and takes it again for each answer as a tape may have it otherwise. `progress` gets the share
/// done.
viz::MeasureFirst what_to_measure_first(const DraftAnswers& answers, const Drafted& drafted, const std::string& file,
                                        const ParallelFor& parallel, const std::function<void(double)>& progress);

}  // namespace evenpull
