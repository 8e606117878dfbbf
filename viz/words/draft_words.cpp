#include "viz/words/draft_words.hpp"

#include "viz/words/joint_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {
namespace {

template <class Enum>
std::string one_of_words(int value, const std::vector<std::pair<Enum, const char*>>& all) {
  for (const auto& [choice, word] : all)
    if (static_cast<int>(choice) == value) return word;
  return "";
}

std::string stock_word(Ask ask, int value) {
  if (value == static_cast<int>(DraftStock::another)) return "another";
  return ask == Ask::tube_alloy ? "6061-T6" : ask == Ask::sheet_alloy ? "2024-T3" : "Sitka spruce";
}

std::string name_of(Ask ask, const DraftAnswers& a) { return ask_words(ask, a.kind()).name; }

std::string text_of_answer(Ask ask, const DraftAnswers& a) {
  const DraftQuestion* q = question_of(ask, a.kind());
  return q && a.find(ask) ? answer_text(*q, a.at(ask)) : "";
}

std::string with_capital(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

/// "1/8 in", "0.002 in", "1/64 in": as the tape has it.
std::string tape_text(double metres, bool metric) {
  if (metric) return print_millimetres(metres);
  const double inch = 0.0254;
  for (const int part : {8, 16, 32, 64, 128})
    if (std::abs(metres / inch * part - 1) < 1e-6) return fmt::format("1/{} in", part);
  return print_inches(metres);
}

// A smaller change than this is not worth a sentence of its own: judgement.
constexpr double least_told = 0.005;
constexpr std::size_t most_effects = 3;

std::string effect_size(const TapeEffect& e) {
  if (!e.change) return "lets the frame give way";
  return fmt::format("{} the load by {} %", *e.change < 0 ? "lowers" : "raises",
                     std::abs(*e.change) < 0.0095 ? fmt::format("{:.1f}", 100 * std::abs(*e.change))
                                                  : fmt::format("{:.0f}", 100 * std::abs(*e.change)));
}

std::string effect_text(const TapeEffect& e, const DraftAnswers& a) {
  if (e.ask == Ask::cloth)
    return fmt::format("pull of the cloth ({:.0f} % more, its usual uncertainty, {}): iron and pull a strip of it.",
                       100 * e.by, effect_size(e));
  const bool bay = e.ask == Ask::stations;
  const std::string what = bay ? fmt::format("distance of ribs {} and {}", e.rib, e.rib + 1) : name_of(e.ask, a);
  const bool metric = a.at(Ask::span).sizes.front().text.find('m') != std::string::npos;
  const DraftAnswer* given = a.find(bay && a.is(Ask::even, draft_yes) ? Ask::bays : e.ask);
  return fmt::format("{} ({} {} {}){}.", what, tape_text(std::abs(e.by), metric), e.by > 0 ? "more" : "less",
                     effect_size(e),
                     given && given->usual ? "; so far it is the usual answer and nobody measured it" : "");
}

}  // namespace

const char* draft_kind_word(DraftKind k) {
  switch (k) {
    case DraftKind::steel_tube: return "welded steel tube";
    case DraftKind::aluminium_tube: return "aluminium tube";
    case DraftKind::sheet_metal: return "sheet metal";
    case DraftKind::wood: return "wood";
    case DraftKind::wing_bay: return "wing bay";
  }
  return "";
}

std::string choice_word(Ask ask, int value) {
  switch (ask) {
    case Ask::kind: return draft_kind_word(static_cast<DraftKind>(value));
    case Ask::straight_edge:
      return one_of_words<DraftEdge>(value,
                                     {{DraftEdge::leading, "leading edge"}, {DraftEdge::trailing, "trailing edge"}});
    case Ask::goes_on:
      return one_of_words<DraftGoesOn>(value, {{DraftGoesOn::both, "both ends"},
                                               {DraftGoesOn::inboard, "inboard end"},
                                               {DraftGoesOn::outboard, "outboard end"}});
    case Ask::steel:
      return one_of_words<DraftSteel>(value, {{DraftSteel::not_known, "not known"},
                                              {DraftSteel::normalised, "normalised"},
                                              {DraftSteel::annealed, "annealed"}});
    case Ask::tube_alloy:
    case Ask::sheet_alloy:
    case Ask::wood: return stock_word(ask, value);
    case Ask::edge_shape:
      return one_of_words<DraftEdgeShape>(value,
                                          {{DraftEdgeShape::tapered, "tapered"}, {DraftEdgeShape::square, "square"}});
    case Ask::wooden_rib:
      return one_of_words<DraftRib>(value, {{DraftRib::capstrip, "capstrips on plywood"},
                                            {DraftRib::truss, "caps and sticks"},
                                            {DraftRib::solid, "solid"}});
    case Ask::joints:
    case Ask::rear_joints:
      return value == static_cast<int>(JointKind::unstated) ? "not known" : joint_word(static_cast<JointKind>(value));
    case Ask::held:
      return one_of_words<DraftHeld>(value, {{DraftHeld::ends, "clamped at both ends"},
                                             {DraftHeld::ends_and_rests, "clamped at both ends, blocks between"},
                                             {DraftHeld::hinges, "on its hinges"},
                                             {DraftHeld::front_spar, "front spar clamped, rear spar at rest"},
                                             {DraftHeld::both_spars, "both spars clamped"}});
    case Ask::cloth:
      return one_of_words<DraftCloth>(value, {{DraftCloth::light, "light"},
                                              {DraftCloth::medium, "medium"},
                                              {DraftCloth::heavy, "heavy"},
                                              {DraftCloth::weighed, "weighed"}});
    case Ask::blanket:
      return one_of_words<BlanketKind>(
          value, {{BlanketKind::full_wrap, "full wrap"}, {BlanketKind::two_sheets, "two sheets"}});
    case Ask::approved:
      return one_of_words<DraftApproved>(value, {{DraftApproved::not_known, "not known"},
                                                 {DraftApproved::at_250, "250 degF"},
                                                 {DraftApproved::at_300, "300 degF"},
                                                 {DraftApproved::at_350, "350 degF"}});
    default: return value == draft_yes ? "yes" : "no";
  }
}

const char* choice_remark(Ask ask, int value) {
  if (ask == Ask::kind && value == static_cast<int>(DraftKind::aluminium_tube)) return "riveted or bolted";
  if (ask == Ask::kind && value == static_cast<int>(DraftKind::sheet_metal)) return "nose, ribs and folded edge";
  if (ask == Ask::kind && value == static_cast<int>(DraftKind::wing_bay)) return "of a longer wooden wing";
  if (ask == Ask::steel && value == static_cast<int>(DraftSteel::not_known)) return "reckoned as weak as annealed";
  if (ask == Ask::held && value == static_cast<int>(DraftHeld::hinges))
    return "clamped at one, on trestles at the others";
  return "";
}

std::string answer_text(const DraftQuestion& q, const DraftAnswer& a) {
  switch (q.answer) {
    case AnswerKind::words:
    case AnswerKind::yes_no: return choice_word(q.ask, a.value);
    case AnswerKind::whole: return std::to_string(a.value);
    case AnswerKind::quantity: return a.sizes.front().text;
    case AnswerKind::lengths: break;
  }
  std::string text;
  for (const GivenSize& s : a.sizes) text += (text.empty() ? "" : ", ") + s.text;
  return text;
}

std::string clash_text(const DraftTrouble& t, const DraftAnswers& a) {
  const std::string what = with_capital(name_of(t.at_fault, a)), other = name_of(t.beside, a);
  const std::string mine = text_of_answer(t.at_fault, a), beside = text_of_answer(t.beside, a);
  const auto& sizes = a.at(t.at_fault).sizes;
  const std::string here = t.nth < sizes.size() ? sizes[t.nth].text : mine;
  const std::string before = t.nth > 0 && t.nth < sizes.size() ? sizes[t.nth - 1].text : "";
  switch (t.clash) {
    case DraftClash::tip_chord_far_off:
      return fmt::format("{} {} does not go with a {} of {}: check both.", what, mine, other, beside);
    case DraftClash::wall_over_half:
      return fmt::format("{} {} is more than half of the {}, {}: check the units.", what, mine, other, beside);
    case DraftClash::first_station_not_zero:
      return fmt::format("The first rib stands at {}; it is the inboard end rib, from which you measure: 0 in.", here);
    case DraftClash::stations_not_rising:
      return fmt::format("Rib {} at {} does not stand beyond the one before it, at {}: list them from the inboard end.",
                         t.nth + 1, here, before);
    case DraftClash::stations_too_close:
      return fmt::format(
          "Rib {} at {} stands closer than 20 mm to the one before it, at {}; ribs are usually 6 to 16 in "
          "apart.",
          t.nth + 1, here, before);
    case DraftClash::last_station_not_span:
      return fmt::format("The last rib stands at {}, but the {} is {}: the two must be the same.", sizes.back().text,
                         other, beside);
    case DraftClash::bays_too_narrow:
      return fmt::format("{} bays on a {} of {} are narrower than 20 mm; ribs are usually 6 to 16 in apart.", mine,
                         other, beside);
    case DraftClash::thinner_than_member:
      return fmt::format("{} {} is less than the {}, {}: the thickness is measured from skin to skin.", what, mine,
                         other, beside);
    case DraftClash::far_too_thick:
      return fmt::format("{} {} is more than a third of the {}, {}: check the units.", what, mine, other, beside);
    case DraftClash::beyond_chord:
      return fmt::format("{} {} reaches too far along the {}, {}: check both.", what, mine, other, beside);
    case DraftClash::nose_out_of_range:
      return fmt::format("{} {} does not go with a {} of {}: a nose reaches over 3 to 75 % of it.", what, mine, other,
                         beside);
    case DraftClash::not_behind:
      return fmt::format("{} {} is not behind the {}, {}: both are measured from the leading edge.", what, mine, other,
                         beside);
    case DraftClash::beyond_span: return fmt::format("{} lies beyond the last rib; the {} is {}.", here, other, beside);
    case DraftClash::twice_there:
      return fmt::format("{} does not lie beyond {}: list places from the inboard end, each once.", here, before);
    case DraftClash::at_the_end:
      return fmt::format("{} is an end, which is clamped already; blocks stand between the ends, and the {} is {}.",
                         here, other, beside);
    case DraftClash::seam_behind_nose:
      return fmt::format("{} {} is not on the nose, which ends {} behind the leading edge.", what, mine, beside);
    case DraftClash::bend_too_wide:
      return fmt::format("{} {} is wider than an {} of {} lets it be: it is the inside radius, a few times the sheet.",
                         what, mine, other, beside);
    case DraftClash::wider_than_caps:
      return fmt::format("{} {} is more than the {}, {}: check the units.", what, mine, other, beside);
    case DraftClash::opening_too_wide:
      return fmt::format("{} {} is wider than legs of {} can reach.", what, mine, beside);
  }
  return "";
}

std::string draft_welcome(const std::string& file) {
  return fmt::format(
      "This writes {}. Have a tape, a caliper and a pencil at hand: it takes about ten minutes.\n"
      "Enter takes the answer in [brackets], which is only the usual one. ? explains, back goes back, stop ends: your\n"
      "answers are kept, and the same command goes on from there. Quantities have a unit: 5/8 in, 0.035 in, 16 mm.",
      file);
}

std::string draft_taken_up(int kept) {
  return fmt::format("{} answer{} from last time: going on from there; back goes back to them.", kept,
                     kept == 1 ? "" : "s");
}

std::string draft_stopped(const std::string& kept_in, const std::string& command) {
  return fmt::format("Stopped: nothing is written yet. Your answers are kept in {}; go on with: {}", kept_in, command);
}

std::string draft_interrupted(const std::string& kept_in) {
  return kept_in.empty() ? "no case was written" : "no case was written; what was answered is kept in " + kept_in;
}

std::string draft_written(const std::string& file, const DraftedCase& d) {
  return fmt::format("Written: {}, of {} answers; {} are usual ones that nobody measured, and marked so.", file,
                     d.given + d.usual, d.usual);
}

std::string draft_next(const std::string& file) {
  return fmt::format("Look at the drawing, then: evenpull plan {}", file);
}

std::string draft_first_already() { return "This is the first question."; }

const char* part_word(DraftPart part) {
  switch (part) {
    case DraftPart::leading_edge_tube: return "leading edge tube";
    case DraftPart::trailing_edge_tube: return "trailing edge tube";
    case DraftPart::nose: return "nose";
    case DraftPart::folded_edge:
    case DraftPart::wooden_edge: return "trailing edge";
    case DraftPart::spar: return "spar";
    case DraftPart::front_spar: return "front spar";
    case DraftPart::rear_spar: return "rear spar";
  }
  return "";
}

const char* size_key(SizeKey key) {
  switch (key) {
    case SizeKey::outside_diameter: return "outside_diameter";
    case SizeKey::wall: return "wall";
    case SizeKey::width: return "width";
    case SizeKey::height: return "height";
    case SizeKey::sheet: return "sheet";
    case SizeKey::flange: return "flange";
    case SizeKey::leg: return "leg";
    case SizeKey::opening: return "opening";
    case SizeKey::bend_radius: return "bend_radius";
    case SizeKey::cap: return "cap";
    case SizeKey::web: return "web";
    case SizeKey::stick: return "stick";
    case SizeKey::pitch: return "pitch";
  }
  return "";
}

const char* draft_material_word(DraftMaterial m) {
  switch (m) {
    case DraftMaterial::steel: return "4130 tube";
    case DraftMaterial::normalised_steel: return "4130 tube, normalised";
    case DraftMaterial::annealed_steel: return "4130 tube, annealed";
    case DraftMaterial::aluminium_tube: return "6061-T6 tube";
    case DraftMaterial::own_tube: return "aluminium of the tubes";
    case DraftMaterial::aluminium_sheet: return "2024-T3 sheet";
    case DraftMaterial::own_sheet: return "aluminium of the sheet";
    case DraftMaterial::spruce: return "Sitka spruce";
    case DraftMaterial::own_wood: return "wood of this panel";
  }
  return "";
}

const char* draft_mark(DraftMark m) {
  switch (m) {
    case DraftMark::measured: return "measured";
    case DraftMark::usual: return "USUAL, not measured";
    case DraftMark::partly: return "measured in part, the rest USUAL";
    case DraftMark::said: return "as answered";
    case DraftMark::nobody_said: return "USUAL, nobody said";
    case DraftMark::worked_out: return "worked out";
  }
  return "";
}

std::vector<std::string> draft_head(const DraftedCase& d) {
  return {
      fmt::format("Drafted by `evenpull draft` as {} from {} answers: {} given, {} usual ones.",
                  draft_kind_word(d.kind), d.given + d.usual, d.given, d.usual),
      "What says USUAL nobody measured: measure it and change it here. Every key is explained by `evenpull template`.",
      "A drafted case shows nothing of the aircraft's approved data: those, local rules and a licensed mechanic go "
      "first."};
}

std::string draft_remark(DraftRemark r, const DraftedCase& d) {
  switch (r) {
    case DraftRemark::outline: return "Seen from above; the span runs from the inboard end rib to the last one.";
    case DraftRemark::profile:
      return std::string(d.mid_line.empty()
                             ? "Half thicknesses along the chord, at the inboard end; straight between them."
                             : "From skin to skin along the chord, laid half to each side of a middle line.") +
             (d.nose_rounded ? " The round of the nose is a guess: a quarter of an ellipse." : "");
    case DraftRemark::bow: return "A bent tube stands in the place of the last rib.";
    case DraftRemark::members: return "Members along the span.";
    case DraftRemark::own_material:
      return "Nobody named it: stiffness as of its kind, strength as answered. Look for its papers.";
    case DraftRemark::ribs:
      return d.end ? "The first and the last rib are the end ribs, which the cloth pulls from one side only."
                   : "All ribs are inner ones: the wing goes on beyond the first and the last.";
    case DraftRemark::joints_not_known:
      return "How the ribs are joined is not known: computed rigid, and the chances allow for anything.";
    case DraftRemark::while_ironed: return "What holds it while it is ironed.";
    case DraftRemark::in_use:
      return d.kind == DraftKind::wing_bay
                 ? "What holds it in use: the spars go on, and are taken as held at both ends."
                 : "What holds it in use: the hinges, and the horn that keeps it from turning.";
    case DraftRemark::cloth:
      return "Looseness and pull are not asked here: defaults step in, and the survey lists them.";
    case DraftRemark::blanket: return "How it is laid on.";
    case DraftRemark::iron: return "Temperatures are always those of the sole, by thermometer.";
    case DraftRemark::stages:
      return "Stages: 250, 300 and 350 degF, and passes as the plan finds them, unless you state [[stage]].";
    case DraftRemark::not_asked:
      return "Not asked: pockets for tabs, hinge gaps, braces, wires, ribs that differ. If it has any, add them.";
  }
  return "";
}

MeasureFirst no_first_look() {
  return {"In a first look no equilibrium was found: check the sizes; a very soft frame is the usual cause.", {}, ""};
}

MeasureFirst measure_first_words(const std::optional<FirstLook>& look, const std::vector<TapeEffect>& effects,
                                 const DraftAnswers& answers, const Case& c) {
  MeasureFirst out;
  if (!look) {
    out.look = "In a first look the frame gives way before a stage is done: no size can be weighed against another.";
    return out;
  }
  out.look = fmt::format(
      "In a first look (one plain order, coarse mesh) {} governs at {}, with {:.0f} % of its limit taken up.",
      limit_text(look->governs), stage_both(c, look->stage), 100 * look->governs.use);
  for (const TapeEffect& e : effects)
    if (out.answers.size() < most_effects && (!e.change || std::abs(*e.change) >= least_told))
      out.answers.push_back((out.answers.empty() ? "Measure again first: " : "Then: ") + effect_text(e, answers));
  if (out.answers.empty())
    out.answers.push_back("No size matters by more than half a percent as far as a tape is off.");
  out.caution = "That is one order and says nothing of safety; the plan does.";
  return out;
}

}  // namespace evenpull::viz
