// Words for frames that go beyond one panel of beams: a wing that goes on, wires that only pull.
#pragma once

#include "sequencer/plan/stage_summary.hpp"
#include "solver/statement/case.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// "rib 1", "ribs 1 and 7": beyond which the wing goes on; empty if it does not.
std::string ribs_it_goes_on_beyond(const Case& c);

/// What the plan takes the bays beyond for, and that it is told to reader and bench alike; empty if nothing goes on.
std::string neighbour_taken_for(const Case& c);
/// What is to be done at the bench because of it; empty if nothing goes on.
std::string neighbour_in_step(const Case& c);

/// What the wires pulled, one sentence a wire; slack ones are told as such.
std::string wires_told(const Case& c, const std::vector<WirePull>& wires);

}  // namespace evenpull::viz
