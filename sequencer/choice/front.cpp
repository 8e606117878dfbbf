#include "sequencer/choice/front.hpp"

#include "sequencer/plan/temperature_text.hpp"


#include <algorithm>
#include <cmath>
#include <sstream>

namespace evenpull {
namespace {

// Differences below these are no reason to call an order better.
constexpr double same_use = 0.002;
constexpr double same_difference = 1;  // N/m
// A gap above this tells a reader nothing.
constexpr double no_use = 0.5;

double difference_of(const OrderResult& o) {
  return std::max(o.worst_pull_difference_chordwise, o.worst_pull_difference_spanwise);
}

bool beats(const FrontPoint& a, const FrontPoint& b) {
  return a.turn_overs_a_pass <= b.turn_overs_a_pass && a.use <= b.use + same_use &&
         a.difference <= b.difference + same_difference;
}

std::string fixed(double v, int digits) {
  std::ostringstream o;
  o.setf(std::ios::fixed);
  o.precision(digits);
  o << v;
  return o.str();
}

std::string turn_overs_text(int n) { return std::to_string(n) + (n == 1 ? " turn-over" : " turn-overs"); }

}  // namespace

std::vector<FrontPoint> front_of(const std::vector<OrderResult>& orders) {
  std::vector<FrontPoint> points;
  for (const OrderResult& o : orders)
    if (!o.gave_way) points.push_back({o.name, o.turn_overs_a_pass, o.worst_use, difference_of(o), o.chosen});
  std::vector<FrontPoint> front;
  for (std::size_t i = 0; i < points.size(); ++i) {
    bool beaten = false;
    for (std::size_t k = 0; k < points.size() && !beaten; ++k)
      beaten = k != i && beats(points[k], points[i]) && (k < i || !beats(points[i], points[k]));
    if (!beaten || points[i].chosen) front.push_back(points[i]);
  }
  std::stable_sort(front.begin(), front.end(), [](const FrontPoint& a, const FrontPoint& b) {
    return a.turn_overs_a_pass > b.turn_overs_a_pass;
  });
  return front;
}

std::string front_sentence(const std::vector<FrontPoint>& front) {
  if (front.size() < 2) return "";
  const FrontPoint &many = front.front(), &few = front.back();
  if (many.turn_overs_a_pass == few.turn_overs_a_pass) return "";
  std::string s = turn_overs_text(many.turn_overs_a_pass) + " a pass keep the worst pull difference at " +
                  fixed(many.difference, 0) + " N/m and the use at " + fixed(many.use, 2) + "; " +
                  turn_overs_text(few.turn_overs_a_pass) + (few.turn_overs_a_pass == 1 ? " makes" : " make") + " them " +
                  fixed(few.difference, 0) + " N/m and " + fixed(few.use, 2) + " (coarse mesh).";
  return s;
}

std::string gap_sentence(const Case& c, const std::vector<StageSearch>& searched, std::optional<int> ceiling) {
  if (searched.empty()) return "";
  const std::size_t s = std::min<std::size_t>(static_cast<std::size_t>(ceiling.value_or(0)), searched.size() - 1);
  const StageSearch& r = searched[s];
  const std::string at = temperature_text(c.stages[r.stage].temperature);
  if (r.unsolved > 0 && !r.exact && r.least_cost <= 0)
    return "How good is the order? At " + at + " nothing is proven about other orders: in " + std::to_string(r.unsolved) +
           " of " + std::to_string(r.steps) + " steps that were tried no equilibrium was found, and the orders with these were " +
           "left out; the best of the rest has a worst use of " + fixed(r.use, 2) + " (in the quick model that searched: " +
           r.model + ").";
  if (r.exact)
    return "How good is the order? At " + at + " no order of the " + std::to_string(r.things) +
           " pieces costs less than the best that was found: worst use " + fixed(r.use, 2) + " (in the quick model that " +
           "searched: " + r.model + ").";
  if (r.gap() > no_use)
    return "How good is the order? At " + at + " nothing useful is proven about other orders; the best of " +
           std::to_string(r.steps) + " steps tried has a worst use of " + fixed(r.use, 2) +
           " (in the quick model that searched: " + r.model + ").";
  return "How good is the order? At " + at + " no order of the " + std::to_string(r.things) +
         " pieces can bring the worst use below " + fixed(r.least_use, 2) + "; the best found has " + fixed(r.use, 2) +
         ", and all in all it costs at most " + fixed(100 * r.gap(), 0) +
         " % more than the best there can be (in the quick model that searched: " + r.model + ").";
}

}  // namespace evenpull
