#include "viz/words/limit_words.hpp"

#include "sequencer/sure/error_bars.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <cmath>

namespace evenpull::viz {

namespace {

// A bow as a share of the spacing between joints or of a length, as a workshop says it.
std::string bow_text(double share, const char* of = "spacing") {
  constexpr double too_small_to_tell = 1e-4;
  if (share < too_small_to_tell) return "none";
  return fmt::format("1/{:.0f} of {}", 1 / share, of);
}

std::string along_span(double y) {
  return fmt::format("{:.1f} in ({} mm) from the root", inches(y), std::lround(y * 1000));
}

}  // namespace

const char* limit_text(Limit l) {
  switch (l) {
    case Limit::buckling: return "buckling";
    case Limit::end_rib_bow: return "end rib bow";
    case Limit::pull_difference: return "pull difference";
    case Limit::slip: return "slip";
    case Limit::stress: return "stress";
    case Limit::wood_stress: return "stress in wood";
    case Limit::edge_bow: return "trailing edge bow";
    case Limit::twist: return "twist";
    case Limit::unevenness: return "unevenness";
    case Limit::crippling: return "crippling of thin sheet";
    case Limit::hinge_line_bow: return "hinge line bow";
    case Limit::whole_edge_bow: return "bow of the whole edge";
    case Limit::pocket_room: return "room in the pocket";
    case Limit::waves: return "waves in the trailing edge";
  }
  return "";
}

std::string limit_text(const LimitReading& reading) {
  return std::string(limit_text(reading.limit)) + (reading.compression ? " in compression" : "") +
         (reading.at_weld ? " beside a weld" : "");
}

const char* moment_text(Moment m) {
  switch (m) {
    case Moment::on_the_way: return "on the way";
    case Moment::stage_end: return "at stage end";
    case Moment::released: return "released";
  }
  return "";
}

const char* limit_unit(Limit l) {
  switch (l) {
    case Limit::stress:
    case Limit::wood_stress: return "Pa";
    case Limit::slip:
    case Limit::hinge_line_bow:
    case Limit::pocket_room: return "m";
    case Limit::twist: return "rad";
    case Limit::pull_difference: return "N/m";
    case Limit::buckling:
    case Limit::edge_bow:
    case Limit::end_rib_bow:
    case Limit::whole_edge_bow:
    case Limit::crippling:
    case Limit::waves:
    case Limit::unevenness: break;
  }
  return "1";
}

std::string place_text(const Panel& p, const Place& at) {
  using Kind = Place::Kind;
  const auto member = [&] { return p.members.at(static_cast<std::size_t>(at.member)).name; };
  switch (at.kind) {
    case Kind::whole_panel: return "whole panel";
    case Kind::along_member: return member() + " at " + along_span(at.station);
    case Kind::across_member: return fmt::format("{}, {} % of its length aft", member(), std::lround(100 * at.aft));
    case Kind::trailing_edge: return "trailing edge at " + along_span(at.station);
    case Kind::bay: return "bay " + std::to_string(at.bay + 1);
  }
  return "";
}

std::string use_text(double use, double plus_minus) {
  return plus_minus > 0 ? number_text(use, 2) + " ± " + number_text(printed_bar(use, plus_minus), 2)
                        : number_text(use, 2);
}

std::string use_text(const LimitReading& reading) {
  if (reading.gave_way) return "over";
  if (reading.study.gave_way) return number_text(reading.use, 2) + ", error not known";
  const std::string use = use_text(reading.use, reading.use_plus_minus);
  return joints_matter(reading) ? use + "; joints " + number_text(reading.use_of_worse_joints, 2) : use;
}

bool joints_matter(const LimitReading& reading) {
  // Less is not to be seen in two digits.
  constexpr double seen = 0.005;
  return reading.use_of_worse_joints > reading.use + seen;
}

std::string limit_value(const LimitReading& reading) {
  if (reading.gave_way) return "gave way";
  const std::string value = limit_value(reading, reading.value);
  if (reading.lasting == 1) return value;
  return fmt::format("{} in time, {} at once", value, limit_value(reading, reading.value / reading.lasting));
}

std::string limit_value(const LimitReading& reading, double value) {
  if (!std::isfinite(value)) return number_text(value, 0);
  switch (reading.limit) {
    case Limit::stress:
    case Limit::wood_stress: return number_text(ksi(value), 1) + " ksi (" + number_text(value / 1e6, 0) + " MPa)";
    case Limit::slip:
    case Limit::hinge_line_bow:
    case Limit::pocket_room: return small_length_both(value);
    case Limit::twist: return angle_text(value);
    case Limit::pull_difference: return pull_both(value);
    case Limit::edge_bow:
    case Limit::end_rib_bow: return bow_text(value);
    case Limit::whole_edge_bow: return bow_text(value, "its length");
    case Limit::crippling:
    case Limit::waves:
    case Limit::unevenness: return percent_text(value);
    case Limit::buckling: return number_text(value, 1);
  }
  return number_text(value, 3);
}

std::string limit_allowed(const LimitReading& reading) {
  if (!(reading.allowed > 0)) return "none set";
  return (reading.limit == Limit::buckling ? "at least " : "") + limit_value(reading, reading.allowed);
}

}  // namespace evenpull::viz
