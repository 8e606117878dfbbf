// A case as answers make it: plain values for whoever writes it out. Sizes are as somebody wrote them, or worked out
// from such; each knows the answers on which it rests.
#pragma once

#include "shop/draft/answers.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

struct DraftValue {
  GivenSize size;
  std::vector<Ask> from{};
};

/// What a size of a section is called in a case.
enum class SizeKey {
  outside_diameter,
  wall,
  width,
  height,
  sheet,
  flange,
  leg,
  opening,
  bend_radius,
  cap,
  web,
  stick,
  pitch
};

enum class DraftMaterial {
  steel,
  normalised_steel,
  annealed_steel,
  aluminium_tube,
  own_tube,
  aluminium_sheet,
  own_sheet,
  spruce,
  own_wood
};

struct DraftSection {
  SectionShape::Kind shape = SectionShape::Kind::tube;
  std::vector<std::pair<SizeKey, DraftValue>> sizes{};
  DraftMaterial material{};
  bool plywood_web = false;
};

enum class DraftPart {
  leading_edge_tube,
  trailing_edge_tube,
  nose,
  folded_edge,
  spar,
  front_spar,
  rear_spar,
  wooden_edge
};

struct DraftMember {
  DraftPart part{};
  SpanRole role = SpanRole::spar;
  std::optional<DraftValue> at{};  ///< behind the leading edge
  DraftSection section{};
};

struct DraftSupport {
  bool in_use = false;
  DraftPart part{};
  SupportKind as = SupportKind::clamp;
  std::vector<DraftValue> at{};  ///< empty: both ends
  std::optional<Ask> from{};     ///< none: follows from the kind of structure
};

struct DraftBow {
  DraftValue depth, thickness;
  DraftSection section;
};

struct DraftMaterialOwn {
  DraftMaterial material{};
  DraftValue strength;
  std::optional<DraftValue> stiffness{};  ///< of wood; metal is reckoned as aluminium
};

struct DraftedCase {
  DraftKind kind{};
  DraftValue span, chord;
  std::optional<DraftValue> tip_chord{};  ///< where it tapers
  bool trailing_edge_straight = false;
  bool goes_on_inboard = false, goes_on_outboard = false;
  std::optional<DraftBow> bow{};
  std::vector<DraftValue> profile_at{}, profile_height{};  ///< heights: half thicknesses, or whole ones with a mid line
  bool nose_rounded = false;                               ///< heights up to the end of a nose of sheet are a guess
  std::vector<DraftValue> mid_line{};                      ///< empty: the same above and below
  std::vector<DraftMember> members{};
  std::vector<DraftMaterialOwn> own{};
  int bays = 0;  ///< 0: by stations
  std::vector<DraftValue> stations{};
  JointMake front{}, rear{};  ///< unstated: not known
  DraftSection inner{};
  std::optional<DraftSection> end{};
  std::vector<DraftSupport> supports{};
  DraftCloth cloth = DraftCloth::medium;
  std::optional<DraftValue> cloth_mass{};
  BlanketKind blanket = BlanketKind::full_wrap;
  std::optional<DraftValue> seam{};
  bool round_edge = false;  ///< the cloth turns half way round a tube
  bool ribs_glued = false;
  DraftValue swing;
  DraftApproved approved = DraftApproved::not_known;
  int given = 0, usual = 0;  ///< answers
};

/// Of answers to all that is asked.
DraftedCase drafted_case(const DraftAnswers& answers);

}  // namespace evenpull
