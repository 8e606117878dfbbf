#include "sequencer/planner/plan_notes.hpp"

#include "sequencer/plan/temperature_text.hpp"


#include <sstream>

namespace evenpull {

std::string gave_way_elsewhere(double temperature) {
  return "On another mesh, or with smaller zones, the frame gives way at " + temperature_text(temperature) +
         ": that stage counts as not safe.";
}

std::string unsolved_elsewhere(double temperature) {
  return "On another mesh, or with smaller zones, no equilibrium was found up to the end of " + temperature_text(temperature) +
         ": nobody knows how far off its numbers are, so that stage counts as not safe. Another mesh (mesh.nodes in the "
         "case) may be solved.";
}

std::string left_out(const std::vector<std::string>& runs) {
  if (runs.empty()) return {};
  std::string s = "No equilibrium was found in ";
  for (std::size_t i = 0; i < runs.size(); ++i) s += (i == 0 ? "\"" : ", \"") + runs[i] + "\"";
  return s + (runs.size() == 1 ? ": it was left out." : ": they were left out.");
}

std::string too_few_turn_overs(int wanted, int fewest) {
  if (wanted < 1 && fewest == 1)
    return "A pass works both sides, so it has one turn-over at least: the orders with one in each pass were compared.";
  return "No order that was compared gets by with " + std::to_string(wanted) +
         (wanted == 1 ? " turn-over" : " turn-overs") + " in every pass still to come; those with " + std::to_string(fewest) +
         ", the fewest, were compared.";
}

std::string bars_decide(double without, AccuracyWish accuracy) {
  std::string s = "Without its error bars the chosen order would hold up to " + temperature_text(without) +
                  "; the bars are counted against it. \"Stages held\" compares orders without error bars.";
  if (accuracy == AccuracyWish::normal) s += " A run with --accuracy fine narrows the bars and may allow more.";
  return s;
}

std::string steady_against_jumping(const std::vector<Tried>& ranked, const Panel& p, int last) {
  const auto find = [&](Family family) -> const Tried* {
    for (const Tried& t : ranked)
      if (t.order.family == family) return &t;
    return nullptr;
  };
  const Tried *steady = find(Family::root_to_tip), *jumps = find(Family::jumping);
  if (!steady || !jumps) return {};
  const OrderResult a = summarise_up_to(*steady, p, last), b = summarise_up_to(*jumps, p, last);
  if (a.gave_way || b.gave_way || !a.pull_spread_along_span || !b.pull_spread_along_span) return {};
  std::ostringstream o;
  o.setf(std::ios::fixed);
  o.precision(2);
  o << "Working steadily from root to tip: worst use " << a.worst_use << ", pull spread along the span ";
  o.precision(0);
  o << *a.pull_spread_along_span << " N/m; jumping between the ends and the middle: ";
  o.precision(2);
  o << b.worst_use << " and ";
  o.precision(0);
  o << *b.pull_spread_along_span << " N/m (coarse mesh). ";
  const bool worse = a.worst_use >= b.worst_use && *a.pull_spread_along_span >= *b.pull_spread_along_span;
  o << (worse ? "As the handbook advises, steady is not better."
              : "On this panel steady working is not worse by both measures.");
  return o.str();
}

std::string steps_done_note(const RestFound& found) {
  if (!found.stands) return "By this calculation the frame gives way in the steps that are done already.";
  if (found.use_so_far <= 1) return {};
  std::ostringstream o;
  o.setf(std::ios::fixed);
  o.precision(2);
  o << "The steps that are done have loaded the frame beyond a limit already (use " << found.use_so_far
    << ", coarse mesh): inspect it before you go on.";
  return o.str();
}

}  // namespace evenpull
