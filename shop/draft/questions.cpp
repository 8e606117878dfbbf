// Ranges are those of the reader of a case (app/input), usual sizes invented ones of common stock, tape errors
// estimates (docs/data.md).
#include "shop/draft/question.hpp"
#include "solver/statement/case.hpp"

#include <algorithm>

namespace evenpull {
namespace {

constexpr double inch = 0.0254;
constexpr DraftKinds steel = only(DraftKind::steel_tube), aluminium = only(DraftKind::aluminium_tube);
constexpr DraftKinds sheet = only(DraftKind::sheet_metal), wood = only(DraftKind::wood);
constexpr DraftKinds wing = only(DraftKind::wing_bay);
constexpr DraftKinds surfaces = every_kind & ~wing;

// What a mechanic's tape, caliper and eye read off wrong: estimates.
constexpr double tape_measure = inch / 8, rule = inch / 64, caliper = 0.002 * inch, wooden = inch / 32;

// Ribs of such panels stand about so far apart: common practice, no source.
constexpr double usual_bay = 12 * inch, usual_close_bay = 8 * inch;

template <class Choice>
int as_int(Choice c) {
  return static_cast<int>(c);
}

DraftSize in(double inches, const char* text) { return {inches * inch, text}; }
DraftUsual usual(DraftSize size, DraftKinds kinds = every_kind) { return {kinds, size}; }
template <class Choice>
DraftUsual usual_word(Choice c, DraftKinds kinds = every_kind) {
  return {kinds, {}, as_int(c)};
}
DraftUsual same_as(Ask ask, DraftKinds kinds = every_kind) { return {kinds, {}, 0, ask}; }
DraftUsual at_shares(Ask ask, std::vector<double> shares, DraftKinds kinds = every_kind) {
  return {kinds, {}, 0, ask, 0, std::move(shares)};
}
DraftUsual one_every(Ask ask, double every, DraftKinds kinds = every_kind) { return {kinds, {}, 0, ask, every}; }

DraftQuestion length(Ask ask, DraftKinds kinds, double least, double most, std::vector<DraftUsual> usual,
                     double tape = 0, std::vector<DraftWhen> when = {}) {
  return {ask, kinds, AnswerKind::quantity, Measure::length, least, most, {}, std::move(when), std::move(usual), tape};
}
DraftQuestion diameter(Ask ask, std::vector<DraftUsual> usual, std::vector<DraftWhen> when = {}) {
  return length(ask, of_tube, 0.002, 0.2, std::move(usual), rule, std::move(when));
}
DraftQuestion wall(Ask ask, std::vector<DraftUsual> usual, std::vector<DraftWhen> when = {}) {
  return length(ask, of_tube, 0.0001, 0.02, std::move(usual), caliper, std::move(when));
}
DraftQuestion sheet_of(Ask ask, DraftKinds kinds, DraftSize size) {
  return length(ask, kinds, 0.0001, 0.03, {usual(size)}, caliper);
}
DraftQuestion width(Ask ask, DraftKinds kinds, std::vector<DraftUsual> usual, double tape,
                    std::vector<DraftWhen> when = {}) {
  return length(ask, kinds, 0.001, 0.5, std::move(usual), tape, std::move(when));
}
DraftQuestion stress(Ask ask, DraftKinds kinds, double least, double most, DraftSize size, Ask of) {
  return {ask,
          kinds,
          AnswerKind::quantity,
          Measure::stress,
          least,
          most,
          {},
          {{of, {as_int(DraftStock::another)}}},
          {usual(size)}};
}
DraftQuestion words(Ask ask, DraftKinds kinds, std::vector<DraftChoice> choices, std::vector<DraftUsual> usual,
                    std::vector<DraftWhen> when = {}) {
  return {ask, kinds, AnswerKind::words, Measure::none, 0, 0, std::move(choices), std::move(when), std::move(usual)};
}
DraftQuestion yes_no(Ask ask, DraftKinds kinds, bool yes) {
  return {ask, kinds, AnswerKind::yes_no, Measure::none, 0, 0, {}, {}, {{every_kind, {}, yes ? draft_yes : draft_no}}};
}
DraftQuestion whole(Ask ask, DraftKinds kinds, double least, double most, std::vector<DraftUsual> usual,
                    std::vector<DraftWhen> when) {
  return {ask, kinds, AnswerKind::whole, Measure::none, least, most, {}, std::move(when), std::move(usual)};
}
DraftQuestion places(Ask ask, DraftKinds kinds, double least, double most, std::vector<DraftUsual> usual,
                     std::vector<DraftWhen> when = {}) {
  return {ask, kinds, AnswerKind::lengths, Measure::length, least, most, {}, std::move(when), std::move(usual)};
}

using Questions = std::vector<DraftQuestion>;

Questions outline() {
  return {
      words(Ask::kind, every_kind,
            {{as_int(DraftKind::steel_tube)},
             {as_int(DraftKind::aluminium_tube)},
             {as_int(DraftKind::sheet_metal)},
             {as_int(DraftKind::wood)},
             {as_int(DraftKind::wing_bay)}},
            {usual_word(DraftKind::steel_tube)}),
      length(Ask::span, every_kind, 0.1, 8, {usual(in(26, "26 in"), wing), usual(in(60, "60 in"))}, tape_measure),
      length(Ask::chord, every_kind, 0.05, 3,
             {usual(in(48, "48 in"), wing), usual(in(20, "20 in"), steel), usual(in(14, "14 in"))}, tape_measure),
      length(Ask::tip_chord, surfaces, 0.05, 3, {same_as(Ask::chord)}, tape_measure),
      words(Ask::straight_edge, surfaces, {{as_int(DraftEdge::leading)}, {as_int(DraftEdge::trailing)}},
            {usual_word(DraftEdge::leading)}, {{Ask::tip_chord, {}, Ask::chord}}),
      words(Ask::goes_on, wing,
            {{as_int(DraftGoesOn::both)}, {as_int(DraftGoesOn::inboard)}, {as_int(DraftGoesOn::outboard)}},
            {usual_word(DraftGoesOn::both)}),
  };
}

Questions tubes() {
  const std::vector<DraftWhen> bow{{Ask::bow, {draft_yes}}};
  return {
      words(Ask::steel, steel,
            {{as_int(DraftSteel::not_known)}, {as_int(DraftSteel::normalised)}, {as_int(DraftSteel::annealed)}},
            {usual_word(DraftSteel::not_known)}),
      words(Ask::tube_alloy, aluminium, {{as_int(DraftStock::usual)}, {as_int(DraftStock::another)}},
            {usual_word(DraftStock::usual)}),
      stress(Ask::tube_yield, aluminium, 1e6, 3e9, {25 * 6.894757293168e6, "25 ksi"}, Ask::tube_alloy),
      diameter(Ask::leading_tube, {usual(in(1, "1 in"))}),
      wall(Ask::leading_wall, {usual(in(0.035, "0.035 in"))}),
      diameter(Ask::trailing_tube, {usual(in(0.5, "1/2 in"))}),
      wall(Ask::trailing_wall, {usual(in(0.035, "0.035 in"))}),
      diameter(Ask::rib_tube, {usual(in(0.5, "1/2 in"))}),
      wall(Ask::rib_wall, {usual(in(0.035, "0.035 in"))}),
      diameter(Ask::end_tube, {usual(in(0.625, "5/8 in"), steel), same_as(Ask::rib_tube)}),
      wall(Ask::end_wall, {usual(in(0.035, "0.035 in"), steel), same_as(Ask::rib_wall)}),
      yes_no(Ask::bow, of_tube, false),
      length(Ask::bow_depth, of_tube, 0.005, 2, {usual(in(6, "6 in"))}, tape_measure, bow),
      diameter(Ask::bow_tube, {same_as(Ask::end_tube)}, bow),
      wall(Ask::bow_wall, {same_as(Ask::end_wall)}, bow),
  };
}

Questions sheets() {
  return {
      words(Ask::sheet_alloy, sheet | wing, {{as_int(DraftStock::usual)}, {as_int(DraftStock::another)}},
            {usual_word(DraftStock::usual)}),
      stress(Ask::sheet_yield, sheet | wing, 1e6, 3e9, {28 * 6.894757293168e6, "28 ksi"}, Ask::sheet_alloy),
      length(Ask::nose_depth, sheet | wing, 0.01, 2, {usual(in(4.75, "4 3/4 in"), wing), usual(in(3.25, "3 1/4 in"))},
             tape_measure),
      sheet_of(Ask::nose_sheet, sheet | wing, in(0.020, "0.020 in")),
      sheet_of(Ask::edge_sheet, sheet, in(0.025, "0.025 in")),
      width(Ask::edge_leg, sheet, {usual(in(1, "1 in"))}, wooden),
      length(Ask::edge_opening, sheet, 0.0005, 0.5, {usual(in(0.25, "1/4 in"))}, rule),
      length(Ask::edge_bend, sheet, 0, 0.05, {usual(in(0.0625, "1/16 in"))}),
      sheet_of(Ask::rib_sheet, sheet, in(0.020, "0.020 in")),
      width(Ask::rib_flange, sheet, {usual(in(0.5, "1/2 in"))}, wooden),
      sheet_of(Ask::end_sheet, sheet, in(0.032, "0.032 in")),
      width(Ask::end_flange, sheet, {usual(in(0.625, "5/8 in"))}, wooden),
  };
}

Questions spars() {
  return {
      words(Ask::wood, of_wood, {{as_int(DraftStock::usual)}, {as_int(DraftStock::another)}},
            {usual_word(DraftStock::usual)}),
      stress(Ask::wood_stiffness, of_wood, 1e8, 5e11, {1.2e6 * 6894.757293168, "1200000 psi"}, Ask::wood),
      stress(Ask::wood_rupture, of_wood, 1e6, 3e9, {8000 * 6894.757293168, "8000 psi"}, Ask::wood),
      width(Ask::spar_width, wood, {usual(in(0.75, "3/4 in"))}, wooden),
      length(Ask::spar_depth, wood, 0.0005, 0.5, {usual(in(2, "2 in"))}, wooden),
      length(Ask::front_spar_at, wing, 0.005, 3, {usual(in(8, "8 in"))}, tape_measure),
      width(Ask::front_spar_width, wing, {usual(in(0.75, "3/4 in"))}, wooden),
      length(Ask::front_spar_depth, wing, 0.0005, 0.5, {usual(in(4.5, "4 1/2 in"))}, wooden),
      length(Ask::rear_spar_at, wing, 0.005, 3, {usual(in(32, "32 in"))}, tape_measure),
      width(Ask::rear_spar_width, wing, {usual(in(0.75, "3/4 in"))}, wooden),
      length(Ask::rear_spar_depth, wing, 0.0005, 0.5, {usual(in(3, "3 in"))}, wooden),
  };
}

Questions wooden_parts() {
  const std::vector<DraftWhen> caps{{Ask::wooden_rib, {as_int(DraftRib::capstrip), as_int(DraftRib::truss)}}};
  const std::vector<DraftWhen> truss{{Ask::wooden_rib, {as_int(DraftRib::truss)}}};
  const std::vector<DraftWhen> ends{{Ask::goes_on, {as_int(DraftGoesOn::inboard), as_int(DraftGoesOn::outboard)}}};
  return {
      words(Ask::edge_shape, of_wood, {{as_int(DraftEdgeShape::tapered)}, {as_int(DraftEdgeShape::square)}},
            {usual_word(DraftEdgeShape::square, wing), usual_word(DraftEdgeShape::tapered)}),
      width(Ask::edge_width, of_wood, {usual(in(1, "1 in"), wing), usual(in(1.25, "1 1/4 in"))}, wooden),
      length(Ask::edge_depth, of_wood, 0.0005, 0.5, {usual(in(0.5, "1/2 in"), wing), usual(in(0.375, "3/8 in"))},
             wooden),
      length(Ask::edge_thickness, of_wood, 0.0005, 0.5, {usual(in(0.5, "1/2 in"), wing), usual(in(0.3125, "5/16 in"))},
             wooden),
      words(Ask::wooden_rib, of_wood,
            {{as_int(DraftRib::capstrip)}, {as_int(DraftRib::truss)}, {as_int(DraftRib::solid)}},
            {usual_word(DraftRib::truss, wing), usual_word(DraftRib::capstrip)}),
      width(Ask::cap_width, of_wood, {usual(in(0.375, "3/8 in"), wing), usual(in(0.25, "1/4 in"))}, wooden, caps),
      length(Ask::cap_thickness, of_wood, 0.0003, 0.06, {usual(in(0.25, "1/4 in"))}, wooden, caps),
      length(Ask::web_thickness, of_wood, 0.0003, 0.06, {usual(in(0.0625, "1/16 in"))}, inch / 128,
             {{Ask::wooden_rib, {as_int(DraftRib::capstrip)}}}),
      length(Ask::stick, of_wood, 0.001, 0.05, {usual(in(0.25, "1/4 in"))}, wooden, truss),
      length(Ask::pitch, of_wood, 0.01, 0.6, {usual(in(5, "5 in"), wing), usual(in(3, "3 in"))}, tape_measure, truss),
      width(Ask::rib_width, of_wood, {usual(in(0.375, "3/8 in"))}, wooden,
            {{Ask::wooden_rib, {as_int(DraftRib::solid)}}}),
      width(Ask::end_rib_width, wood, {usual(in(0.75, "3/4 in"))}, wooden),
      width(Ask::end_rib_width, wing, {usual(in(0.75, "3/4 in"))}, wooden, ends),
  };
}

Questions thickness() {
  const double skin = inch / 16;
  return {
      length(Ask::nose_thickness, wing, 0.003, 1, {usual(in(4.5, "4 1/2 in"))}, skin),
      length(Ask::front_thickness, wing, 0.003, 1, {usual(in(5, "5 in"))}, skin),
      length(Ask::thickest, every_kind, 0.003, 1,
             {same_as(Ask::leading_tube, of_tube), usual(in(2.125, "2 1/8 in"), sheet), same_as(Ask::spar_depth, wood),
              usual(in(5.375, "5 3/8 in"), wing)},
             skin),
      length(Ask::thickest_at, of_tube, 0.005, 3, {at_shares(Ask::chord, {0.25})}, 0,
             {{Ask::thickest, {}, Ask::leading_tube}}),
      length(Ask::thickest_at, wing, 0.005, 3, {at_shares(Ask::chord, {0.3})}),
      length(Ask::rear_thickness, wing, 0.003, 1, {usual(in(3.5, "3 1/2 in"))}, skin),
      length(Ask::mid_line, wing, 0, 0.3, {usual(in(1, "1 in"))}),
  };
}

Questions ribs() {
  return {
      yes_no(Ask::even, every_kind, true),
      whole(Ask::bays, every_kind, 1, 60,
            {one_every(Ask::span, usual_bay * 13 / 12, wing), one_every(Ask::span, usual_close_bay, sheet | wood),
             one_every(Ask::span, usual_bay)},
            {{Ask::even, {draft_yes}}}),
      places(Ask::stations, every_kind, 2, 61, {at_shares(Ask::span, {0, 0.2, 0.4, 0.6, 0.8, 1})},
             {{Ask::even, {draft_no}}}),
      words(Ask::joints, every_kind,
            {{as_int(JointKind::welded), steel},
             {as_int(JointKind::welded_thin), steel},
             {as_int(JointKind::gusset), aluminium | sheet},
             {as_int(JointKind::single), aluminium | sheet},
             {as_int(JointKind::glued_gusset), of_wood},
             {as_int(JointKind::glued_block), of_wood},
             {as_int(JointKind::tied), of_wood},
             {as_int(JointKind::unstated)}},
            {usual_word(JointKind::welded, steel), usual_word(JointKind::glued_block, wing),
             usual_word(JointKind::glued_gusset, wood), usual_word(JointKind::gusset)}),
      whole(Ask::rivets, aluminium | sheet, 1, 20, {{every_kind, {}, 3}}, {{Ask::joints, {as_int(JointKind::gusset)}}}),
      words(Ask::rear_joints, sheet,
            {{as_int(JointKind::slid_in)}, {as_int(JointKind::single)}, {as_int(JointKind::unstated)}},
            {usual_word(JointKind::slid_in)}),
  };
}

Questions holding() {
  return {
      words(Ask::held, every_kind,
            {{as_int(DraftHeld::ends), surfaces},
             {as_int(DraftHeld::ends_and_rests), surfaces},
             {as_int(DraftHeld::hinges), surfaces},
             {as_int(DraftHeld::front_spar), wing},
             {as_int(DraftHeld::both_spars), wing}},
            {usual_word(DraftHeld::front_spar, wing), usual_word(DraftHeld::ends_and_rests, steel | wood),
             usual_word(DraftHeld::ends)}),
      places(Ask::rests, surfaces, 1, 12, {at_shares(Ask::span, {1.0 / 3, 2.0 / 3}, wood), at_shares(Ask::span, {0.5})},
             {{Ask::held, {as_int(DraftHeld::ends_and_rests)}}}),
      places(Ask::hinges, surfaces, 2, 12,
             {at_shares(Ask::span, {0.1, 0.5, 0.9}, sheet | wood), at_shares(Ask::span, {0.1, 0.9})}),
      length(Ask::horn, surfaces, 0, 8, {usual(in(0, "0 in"))}),
  };
}

Questions covering() {
  return {
      words(Ask::cloth, every_kind,
            {{as_int(DraftCloth::light)},
             {as_int(DraftCloth::medium)},
             {as_int(DraftCloth::heavy)},
             {as_int(DraftCloth::weighed)}},
            {usual_word(DraftCloth::medium)}),
      {Ask::cloth_mass,
       every_kind,
       AnswerKind::quantity,
       Measure::area_mass,
       0.02,
       0.4,
       {},
       {{Ask::cloth, {as_int(DraftCloth::weighed)}}},
       {usual({2.7 * 0.033905747, "2.7 oz/yd^2"})}},
      words(Ask::blanket, every_kind, {{as_int(BlanketKind::full_wrap)}, {as_int(BlanketKind::two_sheets)}},
            {usual_word(BlanketKind::full_wrap)}),
      length(Ask::seam, sheet | wing, 0, 1, {usual(in(0.5, "1/2 in"), wing), usual(in(0.75, "3/4 in"))}),
      yes_no(Ask::ribs_glued, every_kind, false),
      {Ask::swing, every_kind, AnswerKind::quantity, Measure::swing, 0, 60, {}, {}, {usual({25 / 1.8, "25 degF"})}},
      words(Ask::approved, every_kind,
            {{as_int(DraftApproved::not_known)},
             {as_int(DraftApproved::at_250)},
             {as_int(DraftApproved::at_300)},
             {as_int(DraftApproved::at_350)}},
            {usual_word(DraftApproved::not_known)}),
  };
}

Questions all_of_them() {
  Questions all;
  for (Questions part :
       {outline(), tubes(), sheets(), spars(), wooden_parts(), thickness(), ribs(), holding(), covering()})
    all.insert(all.end(), part.begin(), part.end());
  return all;
}

}  // namespace

const std::vector<DraftQuestion>& draft_questions() {
  static const Questions all = all_of_them();
  return all;
}

const DraftQuestion* question_of(Ask ask, DraftKind kind) {
  const auto& all = draft_questions();
  const auto at = std::find_if(all.begin(), all.end(),
                               [&](const DraftQuestion& q) { return q.ask == ask && holds(q.kinds, kind); });
  return at == all.end() ? nullptr : &*at;
}

}  // namespace evenpull
