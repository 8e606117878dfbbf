// Finds between which sags the work may go on.
#pragma once

#include "sequencer/measured/given_readings.hpp"
#include "sequencer/plan/bench_check.hpp"
#include "sequencer/plan/window.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// What each reading of a bay is off by for where in the bay it was taken and how flat that is, one sigma in the logarithm
/// (judgement).
inline constexpr double place_of_reading = 0.03;

/// Of one check: where it stands in the model and what it may be off by; none where the model has no such bay.
std::optional<ReadingPlace> place_of(const OutcomeModel& m, const Wanted& wanted, int bays, int stage,
                                     const BenchCheck& c);
/// Half way between its ends, in the logarithm [m].
double expected_sag(const BenchCheck& c);

/// Readings open no stage hotter than the approved data ask for, where the case says what that is.
bool asked_for(const Case& c, int stage);

/// After each stage up to the one before `last`: `checks` by stage. Windows to the stages up to `safe` guard what is safe as
/// planned, that to the next one opens it. None where the approved data ask for no more.
std::vector<StageWindow> find_windows(const OutcomeModel& m, const Case& c, int bays, std::optional<int> safe,
                                      const std::vector<std::vector<BenchCheck>>& checks);

}  // namespace evenpull::inline sequencer
