// The questions from which a case is drafted, as data: what a terminal or a form may ask, of which kind of structure,
// and what is usual. The words are in viz/words/draft_words.hpp.
#pragma once

#include <optional>
#include <vector>

namespace evenpull {

enum class DraftKind { steel_tube, aluminium_tube, sheet_metal, wood, wing_bay };
inline constexpr DraftKind draft_kinds[] = {DraftKind::steel_tube, DraftKind::aluminium_tube, DraftKind::sheet_metal,
                                            DraftKind::wood, DraftKind::wing_bay};

/// A set of kinds, a bit for each.
using DraftKinds = unsigned;
constexpr DraftKinds only(DraftKind k) { return 1U << static_cast<unsigned>(k); }
inline constexpr DraftKinds every_kind = 0x1F;
inline constexpr DraftKinds of_tube = only(DraftKind::steel_tube) | only(DraftKind::aluminium_tube);
inline constexpr DraftKinds of_wood = only(DraftKind::wood) | only(DraftKind::wing_bay);
constexpr bool holds(DraftKinds kinds, DraftKind k) { return (kinds & only(k)) != 0; }

/// In the order in which they are asked.
enum class Ask {
  kind,
  span,
  chord,
  tip_chord,
  straight_edge,
  goes_on,
  steel,
  tube_alloy,
  tube_yield,
  leading_tube,
  leading_wall,
  trailing_tube,
  trailing_wall,
  rib_tube,
  rib_wall,
  end_tube,
  end_wall,
  bow,
  bow_depth,
  bow_tube,
  bow_wall,
  sheet_alloy,
  sheet_yield,
  nose_depth,
  nose_sheet,
  edge_sheet,
  edge_leg,
  edge_opening,
  edge_bend,
  rib_sheet,
  rib_flange,
  end_sheet,
  end_flange,
  wood,
  wood_stiffness,
  wood_rupture,
  spar_width,
  spar_depth,
  front_spar_at,
  front_spar_width,
  front_spar_depth,
  rear_spar_at,
  rear_spar_width,
  rear_spar_depth,
  edge_shape,
  edge_width,
  edge_depth,
  edge_thickness,
  wooden_rib,
  cap_width,
  cap_thickness,
  web_thickness,
  stick,
  pitch,
  rib_width,
  end_rib_width,
  nose_thickness,
  front_thickness,
  thickest,
  thickest_at,
  rear_thickness,
  mid_line,
  even,
  bays,
  stations,
  joints,
  rivets,
  rear_joints,
  held,
  rests,
  hinges,
  horn,
  cloth,
  cloth_mass,
  blanket,
  seam,
  ribs_glued,
  swing,
  approved
};

// What the answers in words decide, where no type of the case does.
enum class DraftEdge { leading, trailing };
enum class DraftGoesOn { both, inboard, outboard };
enum class DraftSteel { not_known, normalised, annealed };
enum class DraftStock { usual, another };  ///< the usual alloy or wood
enum class DraftEdgeShape { tapered, square };
enum class DraftRib { capstrip, truss, solid };
enum class DraftHeld { ends, ends_and_rests, hinges, front_spar, both_spars };
enum class DraftCloth { light, medium, heavy, weighed };
enum class DraftApproved { not_known, at_250, at_300, at_350 };
inline constexpr int draft_yes = 1, draft_no = 0;

enum class AnswerKind { words, quantity, lengths, whole, yes_no };
enum class Measure { none, length, area_mass, swing, stress };

/// A quantity as it is written and in SI.
struct DraftSize {
  double value = 0;
  const char* text = "";
};

/// Asked where the answer to an earlier question is one of these, or another than that to a second one.
struct DraftWhen {
  Ask ask;
  std::vector<int> is{};
  std::optional<Ask> differs_from{};
};

/// One usual answer, of the first entry that is for the kind of structure.
struct DraftUsual {
  DraftKinds kinds = every_kind;
  DraftSize size{};
  int value = 0;                 ///< of words, whole numbers, yes and no
  std::optional<Ask> as{};       ///< the same as that answer, times the shares below where there are some
  double every = 0;              ///< of a whole number: that answer [m] over this, rounded, 1 at least
  std::vector<double> shares{};  ///< of lengths and one length: so many times that answer
};

struct DraftChoice {
  int value = 0;
  DraftKinds kinds = every_kind;
};

struct DraftQuestion {
  Ask ask;
  DraftKinds kinds = every_kind;
  AnswerKind answer = AnswerKind::quantity;
  Measure measure = Measure::none;
  double least = 0, most = 0;  ///< SI, both allowed; of lengths: how many
  std::vector<DraftChoice> choices{};
  std::vector<DraftWhen> when{};
  std::vector<DraftUsual> usual{};
  double tape = 0;  ///< what is read off wrong at most in the hand of a mechanic [SI]; 0: not looked at
};

/// In the order in which they are asked; where kinds of structure are asked the same in another way, an entry for
/// each way.
const std::vector<DraftQuestion>& draft_questions();
/// The way in which that kind is asked; null: it is not.
const DraftQuestion* question_of(Ask ask, DraftKind kind);

}  // namespace evenpull
