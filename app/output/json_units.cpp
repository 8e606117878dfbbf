#include "app/output/json_units.hpp"

#include "viz/words/print.hpp"

namespace evenpull {

double stage_degF(const Plan& p, int stage) {
  return to_degF(p.the_case.stages[static_cast<size_t>(stage)].temperature);
}

const char* side_name(Side s) { return s == Side::top ? "top" : "bottom"; }

}  // namespace evenpull
