#include "sequencer/plan/limit.hpp"

namespace evenpull {

const char* limit_text(Limit l) {
  switch (l) {
    case Limit::buckling: return "buckling";
    case Limit::end_rib_bow: return "end rib bow";
    case Limit::pull_difference: return "pull difference";
    case Limit::slip: return "slip";
    case Limit::stress: return "stress";
    case Limit::edge_bow: return "trailing edge bow";
    case Limit::twist: return "twist";
    case Limit::unevenness: return "unevenness";
  }
  return "";
}

const char* moment_text(Moment m) {
  switch (m) {
    case Moment::on_the_way: return "on the way";
    case Moment::stage_end: return "at stage end";
    case Moment::released: return "released";
  }
  return "";
}

}  // namespace evenpull
