#include "app/input/instead.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

namespace evenpull {
namespace {

enum class Where { anywhere, top, outline, profile, ribs, single_rib, brace, brace_end, tip_bow };

struct Likely {
  Where where;
  std::string_view words;  ///< each between bars
  const char* instead;
};

constexpr const char* on_false_ribs =
    "false ribs, which end behind the leading edge, cannot be stated: leave them out, and where they carry a nose of "
    "sheet "
    "or plywood state that nose (a member of shape \"closed nose\", or blanket.metal_nose_to and nose_sheet). They "
    "only hold "
    "the cloth up near the leading edge and bear little pull, so that what is computed errs to the safe side; the sag "
    "between ribs there will be less than told";
constexpr const char* on_slanted_ribs =
    "a rib stands square to the span here: state a slanted one at the station of its middle. The bays beside it come "
    "out as "
    "wide as they are in the mean, and off by half the slant at the edges; a rib slanted by more than a sixth of the "
    "bay "
    "beside it should be computed twice, at the station of its front and of its rear end, and the worse answer taken "
    "(judgement)";
constexpr const char* on_two_bows =
    "only the outboard end can be a bow ([tip_bow]): state the inboard end as a straight end rib of the bow's section, "
    "about "
    "two thirds of the bow's depth beyond its last rib, which leaves as much area; straight, it bends more than a bow "
    "would (judgement). If the panel is the same from both ends, its middle rib may stand for the inboard end: state "
    "the outer half, and "
    "outline.goes_on_beyond = [\"inboard end\"]";
constexpr const char* on_brace_ends =
    "a brace ends where a member along the span crosses a rib: { member = \"spar\", rib = 2 }, or in the middle of a "
    "bay: { member = \"spar\", mid_bay = 2 }. One that ends elsewhere between ribs: "
    "add a station there and write under [[ribs.single]] for its number a rib as light as anything that is there; but "
    "the "
    "cloth then bears on it. Or take the nearest crossing: with an end moved by less than a quarter of a bay its pull "
    "comes "
    "out within some 10 % (judgement)";
constexpr const char* on_heights =
    "heights are stated half by half: height (the same above and below), or top and bottom, from the chord line; total "
    "thickness is stated as thickness, with the bow of the mid line, where it has one, as mid_line";
constexpr const char* on_stays =
    "a wire is a [[brace]] with wire = true, diameter and, where it was drawn tight, tightness";

constexpr std::array<Likely, 15> likely{{
    {Where::anywhere, "|false_ribs|false_rib|nose_ribs|nose_rib|riblets|riblet|half_ribs|short_ribs|former|formers|",
     on_false_ribs},
    {Where::ribs, "|false|nose|short|half|", on_false_ribs},
    {Where::single_rib, "|ends_at|from|to|reaches|until|chord_from|chord_to|", on_false_ribs},
    {Where::ribs, "|angle|slant|slanted|sweep|swept|skew|diagonal|rear_stations|front_stations|", on_slanted_ribs},
    {Where::single_rib, "|angle|slant|slanted|sweep|swept|skew|rear_station|front_station|station_front|station_rear|",
     on_slanted_ribs},
    {Where::top, "|root_bow|inboard_bow|inner_bow|bows|bow|end_bow|end_bows|tip_bows|root_tip_bow|", on_two_bows},
    {Where::tip_bow, "|end|ends|at|both_ends|inboard|sides|", on_two_bows},
    {Where::brace_end, "|at|station|between|y|x|place|share|bay|offset|distance|", on_brace_ends},
    {Where::brace, "|from_station|to_station|from_at|to_at|station|stations|at|between|", on_brace_ends},
    {Where::profile, "|total|total_height|total_thickness|heights|thick|depth|", on_heights},
    {Where::profile, "|camber|bow|mean_line|rise|camber_line|midline|", on_heights},
    {Where::tip_bow, "|height|total_height|half_height|tip_bow_height|",
     "the height of a bow is its whole height from skin to skin and called thickness (profile.height counts half by "
     "half)"},
    {Where::top, "|wire|wires|drag_wire|drag_wires|anti_drag_wire|anti_drag_wires|bracing|braces|", on_stays},
    {Where::outline, "|goes_on|continues|longer_wing|inboard_end|outboard_end|beyond|mirror|mirrored|symmetry|",
     "a panel that is part of a longer wing: goes_on_beyond = [\"inboard end\"], or \"outboard end\", or both"},
    {Where::brace, "|tension|pretension|preload|pull|rigging|tight|", on_stays},
}};

bool starts_with(const std::string& text, std::string_view what) { return text.rfind(what, 0) == 0; }

bool is_at(Where w, const std::string& path) {
  const bool brace_end = starts_with(path, "brace[") &&
                         (path.find("].from") != std::string::npos || path.find("].to") != std::string::npos);
  switch (w) {
    case Where::anywhere: return true;
    case Where::top: return path.empty();
    case Where::outline: return path == "outline";
    case Where::profile: return path == "profile";
    case Where::ribs: return path == "ribs";
    case Where::single_rib: return starts_with(path, "ribs.single[");
    case Where::brace_end: return brace_end;
    case Where::brace: return starts_with(path, "brace[") && path.back() == ']';
    case Where::tip_bow: return path == "tip_bow";
  }
  return false;
}

std::string plain_key(std::string key) {
  for (char& letter : key)
    letter = letter == '-' || letter == ' ' ? '_' : static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  return key;
}

}  // namespace

std::string instead_of(const std::string& path, const std::string& key) {
  const std::string sought = "|" + plain_key(key) + "|";
  const auto found = std::find_if(likely.begin(), likely.end(), [&](const Likely& l) {
    return is_at(l.where, path) && l.words.find(sought) != std::string_view::npos;
  });
  return found == likely.end() ? "" : found->instead;
}

}  // namespace evenpull
