// Orders by name and rule, their steps, and what is wrong with one that somebody gave.
#pragma once

#include "sequencer/orders/order_trouble.hpp"
#include "sequencer/plan/pass_zone.hpp"
#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull::viz {

/// "centre-out halving, sides alternating".
std::string order_name(const OrderId& o);
/// One sentence that a person can follow.
std::string order_rule(const OrderId& o);
/// "coarse", "half" (the half mesh, docs/model.md, section 8), "full".
const char* model_text(OrderModel m);

/// "250 F, pass 1, T7".
std::string step_text(const Plan& plan, const Step& s);
/// The same of the step after which a snapshot was taken; "before ironing".
std::string snapshot_text(const Plan& plan, const Snapshot& s);
/// "250 °F, pass 1, T7".
std::string snapshot_words(const Plan& plan, const Snapshot& s);
/// Which solve found no equilibrium: "250 F, pass 1, T7, settling", "cloth as laid on".
std::string solve_text(const SolveName& n);
/// What an equilibrium follows: a step, "stage end", "released".
std::string certificate_text(const Plan& plan, const Certificate& c);

/// A node of the graph of the job, lines parted by "\\n".
std::string node_text(const Plan& plan, const PassZone& v);

/// "step 4: bay 9 does not exist; the panel has bays 1 to 5".
std::string order_trouble_text(const OrderTrouble& t);

}  // namespace evenpull::viz
