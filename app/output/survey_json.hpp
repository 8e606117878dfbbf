// What a survey understood, as JSON.
#pragma once

#include "sequencer/sure/run_estimate.hpp"
#include "solver/geometry/panel.hpp"

#include <string>

namespace evenpull {

constexpr int survey_json_format = 1;

/// `fine` is the estimate of a plan with --accuracy fine.
std::string survey_document(const Case& c, const Panel& panel, const RunEstimate& estimate, const RunEstimate& fine,
                            const std::string& version);

}  // namespace evenpull
