#include "app/output/tap_json.hpp"

#include "app/output/json_number.hpp"
#include "viz/words/print.hpp"

namespace evenpull {
namespace {

const char* behind_name(BehindTold b) {
  switch (b) {
    case BehindTold::open: return "open";
    case BehindTold::skin: return "skin";
    case BehindTold::held: return "held";
    case BehindTold::either: break;
  }
  return "not said: open and skin";
}

const char* beside_name(Beside b) {
  switch (b) {
    case Beside::lower: return "lower";
    case Beside::alike: return "alike";
    case Beside::higher: return "higher";
    case Beside::unknown: break;
  }
  return "not known";
}

const char* trouble_name(TapLine::Trouble t) {
  switch (t) {
    case TapLine::Trouble::no_field: return "no free tight cloth";
    case TapLine::Trouble::too_deep: return "too deep for the weight";
    case TapLine::Trouble::too_small_for_disc: return "bay too small for the lid";
    case TapLine::Trouble::too_low: return "lower than any pull sounds";
    case TapLine::Trouble::nothing: break;
  }
  return "";
}

Json number_or_null(const std::optional<double>& x, const char* name) {
  return x ? json_number(*x, name) : Json(nullptr);
}

Json line_json(const TapLine& l) {
  Json j;
  j["side"] = l.side == Side::top ? "top" : "bottom";
  j["bay"] = l.bay + 1;
  if (l.by_weight) {
    j["weight_g"] = json_number(l.weight * 1e3, "readings.weight");
    j["sag_mm"] = json_number(l.sag * 1e3, "readings.sag");
  } else {
    j["tone_Hz"] = json_number(l.tone, "readings.tone");
    j["tone_sigma"] = json_number(l.tone_off, "readings.tone_sigma");
    j["taps"] = l.taps;
    j["taps_passed_over"] = l.passed_over;
    j["chordwise_weight"] = json_number(l.chord_weight, "readings.chordwise_weight");
    j["air_over_cloth"] = json_number(l.air_over_cloth, "readings.air_over_cloth");
    j["shut_in_share"] = json_number(l.shut_in, "readings.shut_in");
    j["doubt_share_of_air"] = json_number(l.doubt_air, "readings.doubt");
    j["beside_the_others"] = beside_name(l.others);
    j["squared_tone_over_first"] = number_or_null(l.ratio, "readings.ratio");
    j["squared_tone_over_first_sigma"] = number_or_null(l.ratio_off, "readings.ratio_sigma");
  }
  j["pull_N_per_m"] = number_or_null(l.pull, "readings.pull");
  j["pull_95_N_per_m"] = nullptr;
  if (l.pull) j["pull_95_N_per_m"] = {json_number(*l.low, "readings.low"), json_number(*l.high, "readings.high")};
  j["expected_N_per_m"] = number_or_null(l.expected, "readings.expected");
  j["trouble"] = l.trouble == TapLine::Trouble::nothing ? Json(nullptr) : Json(trouble_name(l.trouble));
  return j;
}

}  // namespace

std::string tap_document(const TapTold& t, const std::string& version) {
  Json j;
  j["format"] = 1;
  j["program"] = "evenpull " + version;
  j["title"] = t.title;
  j["behind"] = behind_name(t.behind);
  j["stage_degF"] = t.stage ? json_number(to_degF(*t.stage), "stage") : Json(nullptr);
  j["expected_from"] = t.expected_from == ExpectedFrom::plan    ? Json("plan")
                       : t.expected_from == ExpectedFrom::stage ? Json("stage")
                                                                : Json(nullptr);
  j["areal_mass_g_per_m2"] = json_number(t.areal_mass * 1e3, "areal_mass");
  j["readings"] = Json::array();
  for (const TapLine& l : t.lines) j["readings"].push_back(line_json(l));
  j["measured"] = t.measured;
  j["warnings"] = viz::tap_warnings(t);
  j["notes"] = viz::tap_notes(t);
  return json_text(j);
}

}  // namespace evenpull
