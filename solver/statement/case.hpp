// What the user states about the job: the panel, the blanket, the iron, the stages and the limits.
// Plain values in SI units (m, N, Pa, K, rad, kg); fractions are plain numbers (1 % = 0.01).
// Nothing is checked here: app/ checks what a person typed, panel.cpp asserts what it needs.
#pragma once

#include "solver/statement/section.hpp"

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace evenpull::inline solver {

enum class Side { top = 0, bottom = 1 };

/// A value for each yarn direction.
struct Yarns {
  double warp = 0;
  double fill = 0;
};

/// Point of the outline in plan view [m]: x chordwise (LE to TE), y spanwise from the inboard end rib.
struct PlanPoint {
  double x = 0;
  double y = 0;
};

/// Plan outline. Both polylines run from y = 0 to y = span, y strictly rising, LE left of TE everywhere.
struct Outline {
  std::vector<PlanPoint> leading_edge;
  std::vector<PlanPoint> trailing_edge;
  double tip_bow_depth = 0;  ///< how far the curved tip bow bulges beyond the last station [m]; 0 = a straight end rib
  double span() const { return leading_edge.empty() ? 0 : leading_edge.back().y; }
};

/// Height of the covered surface above and below the chord line at a chord fraction, both as fractions of the chord
/// (bottom is positive downwards).
struct ProfilePoint {
  double chord_fraction = 0;
  double top = 0;
  double bottom = 0;
};

enum class Strength { yield, rupture };

/// How a solid takes up and carries heat. All zero: taken from what kind of material it is (solver/heat/thermal.hpp).
struct HeatSolid {
  double conductivity = 0;   ///< W/(m K); of wood across the grain
  double density = 0;        ///< kg/m^3
  double specific_heat = 0;  ///< J/(kg K)
};

/// A structural material. Allowable stress = strength x the limit's share (docs/model.md, section 7: yield/2, rupture/3).
struct Material {
  std::string name;
  double youngs_modulus = 0;  ///< E [Pa]
  double shear_modulus = 0;   ///< G [Pa]
  double strength = 0;        ///< yield stress (metal) or modulus of rupture (wood) [Pa]
  Strength kind = Strength::yield;
  double compression_strength = 0;  ///< where it is another in compression [Pa]; 0: as `strength`
  double welded_strength = 0;       ///< within `weld_reach` of a weld [Pa]; 0: the same, or it is not welded
  double weld_reach = 0.025;        ///< m
  double lasting_movement = 1;      ///< movement under lasting pull / at once (wood creeps)
  HeatSolid heat{};
};

/// Sizes of a section as the user wrote them ("5/8 in"), to be read back in the same words: nothing is computed from
/// them. Empty where nobody wrote one.
struct WrittenSizes {
  std::string outside_diameter, wall, width, height;
};

/// Another shape of the same member from a station on.
struct ShapeFrom {
  double station = 0;  ///< y of a span member [m]
  SectionShape shape;
};

/// What a member is made of.
struct MemberMake {
  SectionShape shape;
  int material = 0;  ///< index into Case::materials
  WrittenSizes written{};
  int web_material = -1;             ///< of the web of a capstrip, I section or closed nose; -1: as the rest
  std::vector<ShapeFrom> changes{};  ///< of a span member: stations rising, each beyond 0
};

/// How two members are joined: what the joint lets turn.
enum class JointKind {
  unstated,
  rigid,
  pinned,
  welded,        ///< tube to tube, wall like wall
  welded_thin,   ///< thin tube to the wall of a wide one, which bends
  gusset,        ///< riveted or bolted plate, `fasteners` on each side
  single,        ///< one rivet or bolt
  glued_gusset,  ///< wooden, both faces
  glued_block,   ///< corner block, or gusset on one face
  tied,          ///< butt joint, nailed, corded or taped
  slid_in        ///< sheet rib slid into a folded edge and riveted through both legs
};
/// Where in the range of its kind a joint turned out, in sigmas of the place: normal about `mean`, one sigma `spread`.
/// 0 and 1 are what nobody measured: even over the range.
struct JointTold {
  double mean = 0, spread = 1;
};
struct JointMake {
  JointKind kind = JointKind::unstated;
  int fasteners = 0;             ///< on each side of a gusset
  double fastener_diameter = 0;  ///< m
  double fastener_spacing = 0;   ///< between the two that stand furthest apart [m]
  /// Gusset or tab: it stands upright, in the plane of the rib (true), or lies in that of the panel; unset: upright on
  /// ribs that are no tubes, lying on tubes and braces.
  std::optional<bool> upright{};
  /// Where in the range of its kind its stiffness against turning is taken: 0 softest, 1 stiffest; unset: as usual.
  std::optional<double> at{};
  /// The same for bending up alone; unset: as `at`.
  std::optional<double> at_up{};
  /// What weights on the bare frame said of its bending up; unset: nothing.
  std::optional<JointTold> told_up{};
};

enum class SpanRole { leading_edge, spar, trailing_edge };

/// A member that runs along the span at a constant chord fraction (0 = LE, 1 = TE). Sorted by chord fraction; the last
/// one is the trailing edge at 1.
struct SpanMember {
  std::string name;
  SpanRole role = SpanRole::spar;
  double chord_fraction = 0;
  MemberMake make;
  bool touches_cloth = false;  ///< the cloth bears on its cap on both sides (spars only; LE and TE always do)
  bool hinge_line = false;     ///< the aircraft's hinges sit on it: its bow is judged as it will hang
};

/// A rib at a station; the first and the last are end ribs (the last one is replaced by the tip bow if there is one).
struct Rib {
  double station = 0;  ///< y [m]
  MemberMake make;
  JointMake front_joint{}, rear_joint{};  ///< to the leading and to the trailing edge
  bool touches_cloth = true;              ///< false: lower than the profile, the cloth passes over it free (inner ribs)
};

/// A straight brace between two points of span members, each at a rib or in the middle of the bay beyond it.
struct Brace {
  std::string name;
  MemberMake make;
  int from_member = 0, from_rib = 0, to_member = 0, to_rib = 0;
  JointMake from_joint{}, to_joint{};
  bool wire = false;                              ///< only pulls
  double tightness = 0;                           ///< what a wire pulls before the cloth is ironed [N]
  bool from_mid_bay = false, to_mid_bay = false;  ///< that end stands in the middle of the bay outboard of its rib
  bool comes_out = false;  ///< there while the panel is ironed, taken out when it is released; not of a wire
};

/// A batten clamped along the whole of a rib or of a span member: it bends with it and bears no pull along itself, since
/// clamps slip.
struct Batten {
  std::string name;
  MemberMake make;
  int rib = -1;            ///< index into Case::ribs; -1: along a span member
  int span_member = -1;    ///< index into Case::span_members; -1: along a rib
  bool comes_out = false;  ///< there while the panel is ironed, taken off when it is released
};

/// A piece of the trailing edge that stands back for a tab: the edge stops at its sides, the pocket's own member carries on,
/// and the cloth is glued round the pocket.
struct Pocket {
  std::string name;
  double from = 0, to = 0;           ///< y [m], each at a rib
  double depth = 0;                  ///< from the trailing edge forward [m]
  std::optional<MemberMake> make{};  ///< of the member along its front; none: the span member that stands there
  double gap = 0;                    ///< between tab and pocket at each side and at the front, that must not close [m]
};

/// A gap in a metal nose where a hinge reaches in: no cloth there, its edge glued round to the nose.
struct HingeGap {
  double from = 0, to = 0;  ///< y [m]
  double depth = 0;         ///< from the leading edge back [m]
};

/// What the case says of the coats that come after the iron.
enum class FinishKind { unstated, tautening, not_tautening };

/// How a support is stated; `motions`: by the motions it holds.
enum class SupportKind { clamp, hinge, sliding_hinge, rest, horn, motions };

/// Holds a span member at a station. hold = translations x, y, z then rotations about x, y, z.
struct Support {
  SupportKind kind = SupportKind::motions;
  int member = 0;             ///< index into Case::span_members
  double station = 0;         ///< y [m]; the joint nearest to it is held
  bool whole_length = false;  ///< every joint of the member is held
  std::array<bool, 6> hold{};
  double give = 0;  ///< movement / force of what it holds against moving [m/N]; 0: does not give
};

/// One measured or default point of the cloth's behaviour at a true temperature (docs/model.md, section 3).
struct ShrinkPoint {
  double temperature = 0;               ///< K
  Yarns free_shrink;                    ///< engineering fraction of length lost with no tension (10 % = 0.10)
  Yarns pull;                           ///< P: cold pull after a soak with the ends held at the natural length [N/m]
  std::optional<double> pull_common{};  ///< in place of Spreads::pull_common at this point; unset: that
};

struct Cloth {
  double areal_mass = 0;           ///< kg/m^2
  Yarns stiffness;                 ///< E_w, E_f: cold membrane stiffness [N/m]
  double poisson = 0;              ///< nu_wf: strain of the fill / strain of the warp, pull in the warp
  double shear = 0;                ///< G: shear stiffness [N/m]
  double warp_angle = 0;           ///< of the warp from the span, towards the TE, on the top side [rad]
  Yarns looseness;                 ///< engineering fraction (1 % = 0.01)
  double creep_share = 0;          ///< g of docs/model.md, section 3, 0..1
  double half_time = 0.5;          ///< s in which a stage's shrink at its own temperature has half come
  double activation = 30e3;        ///< apparent activation energy of the rate on the way there [J/mol]
  std::vector<ShrinkPoint> curve;  ///< temperature rising, from the onset (no shrink) to the hottest measured value
};

enum class BlanketKind { full_wrap, two_sheets };
enum class RibTie { bearing, free, glued };

struct Blanket {
  BlanketKind kind = BlanketKind::full_wrap;
  double seam_chord_fraction = 0;  ///< cloth is glued to the LE along this line on both sides; it starts there
  double nose_chord_fraction = 0;  ///< from the seam to here the cloth bears on the metal nose; <= seam: no metal nose
  double nose_sheet = 0;           ///< thickness of the sheet under the nose [m]; 0: the wall of the closed nose
  double wrap_angle = 0;           ///< theta at the TE [rad], full wrap only
  double edge_friction = 0;        ///< mu at the TE
  bool edge_glued = false;         ///< the TE of a full wrap was tacked down before ironing
  RibTie inner_ribs = RibTie::bearing;
  double rib_friction = 0;  ///< mu of cloth on rib caps, spar caps and metal nose
};

enum class AttachHow { left, glued, laced, riveted, screwed };

/// When the cloth is fastened to inner ribs, and how (docs/model.md, section 6). A rib that no entry names is held as
/// `Blanket::inner_ribs` says; one that is named bears the cloth until its moment has come.
struct Attachment {
  AttachHow how = AttachHow::left;
  std::vector<int> ribs;  ///< rising
  /// Hottest stage ironed before it [K]: cloth cold, and before any hotter one. 0: before ironing; infinite: after all of it.
  double after = 0;
  double spacing = 0;  ///< between fastenings along the rib [m]; 0: held all along

  bool is_along_line() const { return how == AttachHow::glued; }
};

/// Thermometer readings at one mark of the dial: true sole temperatures [K].
struct DialReading {
  double dial = 0;
  std::vector<double> sole;
};

/// The iron (docs/model.md, sections 1 and 4). Temperatures are true sole temperatures by thermometer. What follows the
/// swing has defaults of a household iron (docs/data.md).
struct Iron {
  double sole_length = 0;               ///< m
  double sole_width = 0;                ///< m
  double travel_speed = 0;              ///< m/s
  double cooling_time = 0;              ///< s that cloth stays hot after the iron has left
  double swing = 0;                     ///< +- of the thermostat [K]
  double heat_capacity = 1080;          ///< of sole and body that follows it [J/K]: 1.2 kg of aluminium
  double power = 1200;                  ///< W
  double conductance = 400;             ///< sole to cloth, and cloth to what lies under it, pressed [W/(m^2 K)]
  double fastest_stroke = 0.30;         ///< m/s that a hand still keeps even
  double longest_dwell = 20;            ///< s that anybody will wait on one spot
  double hand_scatter = 0.25;           ///< of the contact time, one sigma, as a share
  double overlap = 0.20;                ///< share of a stroke's width that the next one covers again
  double missed = 0.03;                 ///< share of the area that a pass leaves out
  double room = 293.15;                 ///< K
  std::vector<DialReading> readings{};  ///< dial rising
  double hot_area() const { return sole_length * sole_width + sole_width * travel_speed * cooling_time; }
};

/// All the passes at one true sole temperature; a dose 0 < phi <= 1 for each pass: the share of the stage's free shrink
/// that cloth over an open bay takes up if nothing pulls.
struct Stage {
  double temperature = 0;  ///< K
  std::vector<double> doses;
  std::vector<double> dwells{};  ///< s, as stated for each pass; 0 or no entry: found from the dose
  bool passes_open = false;      ///< the case leaves the passes to the plan; `doses` are the usual ones
};

/// What must not be exceeded (docs/model.md, section 7). Each is settable; the defaults are engineering judgement.
struct Limits {
  double yield_share = 0;                   ///< allowable / yield (metal)
  double rupture_share = 0;                 ///< allowable / modulus of rupture (wood)
  double bow_per_spacing = 0;               ///< bow of TE and end ribs / distance between their joints
  double twist = 0;                         ///< rad over the span
  double buckling_factor = 0;               ///< least
  double slip = 0;                          ///< m at the TE
  double unevenness = 0;                    ///< largest coefficient of variation over zone means after the last stage
  std::optional<double> pull_difference{};  ///< N/m; unset: informative only
  double least_bow = 0;                     ///< a bow up to here is no matter, however short the bay [m]
  double whole_edge_bow = 0;   ///< of the whole trailing edge / its length, as it hangs; 0: told, not limited
  double hinge_line_bow = 0;   ///< m, between the hinges, as it hangs; 0: told, not limited
  double crippling_share = 0;  ///< stress of a thin flat / that at which it cripples; 0: not judged
  double waves = 0;            ///< stress of a trailing edge's legs / that at which they wave (finish); 0: not told
};

/// How far off the inputs may be: one sigma as a share of the value, unless said otherwise (docs/data.md).
struct Spreads {
  double free_shrink = 0.10;
  // The pull is not known at all of a kind of cloth (common), differs with temperature in ways that its kin do not share (of
  // each stage's own) and between warp and fill (of each yarn's own): docs/data.md.
  double pull_common = 0.29, pull_of_stage = 0.10, pull_of_yarn = 0.08;
  double pull() const {
    return std::sqrt(pull_common * pull_common + pull_of_stage * pull_of_stage + pull_of_yarn * pull_of_yarn);
  }
  double common_at(const ShrinkPoint& p) const { return p.pull_common.value_or(pull_common); }
  double pull_at(const ShrinkPoint& p) const {
    return p.pull_common
               ? std::sqrt(common_at(p) * common_at(p) + pull_of_stage * pull_of_stage + pull_of_yarn * pull_of_yarn)
               : pull();
  }
  double cloth_stiffness = 0.25;
  double member_stiffness = 0.10;
  double friction = 0.30;
  double looseness = 0.50;
  double half_time = 0.50;       ///< of the shrink, with the conductance of the sole
  double metal_strength = 0.06;  ///< of yield: what is stated is mostly the least that is sold; judgement
  double wood_strength = 0.16;   ///< of rupture: Wood Handbook, from memory
  double crippling = 0.15;       ///< of the stress at which thin flats cripple
  double sole = 4;               ///< K: what the true sole temperature is off by, beside the swing
};

/// What the user wants to be sure of.
struct Wanted {
  double done_band = 0.10;        ///< a spot is done with this share less than full shrink
  double done_share = 0.90;       ///< share of the area that must be done
  double confidence = 0.90;       ///< that no limit of distortion is passed
  double damage_chance = 0.01;    ///< that anything is bent or broken for good
  double uneven_share = 0.20;     ///< a zone whose pull is off the mean by more pulls unevenly
  std::optional<double> slide{};  ///< cloth that slides by more at its station is told [m]; unset: the limit of slip
  double turn_over_time = 60;     ///< s to turn the panel over, with what has to be opened and closed
  double check_time = 600;        ///< s after a stage until the cloth is cold and was checked
  double sag_reading = 0.25e-3;   ///< m: what a sag under a weight is read off by, one sigma
  int scenarios = 128;            ///< 0: no study of chances
};

/// What orders are compared by beside the worst use of the limits, in use (docs/model.md, section 7). Judgement, ours.
struct Score {
  double unevenness = 0.2;          ///< per 1
  double pull_difference = 0.5e-3;  ///< per N/m: 0.05 for 100 N/m
  double turn_over = 1e-3;          ///< each
  double no_rule_turn_overs = 3;    ///< that an order without a rule in words is charged for each pass
};

/// A default that was used because the case did not say.
struct DefaultUsed {
  std::string key;    ///< where it would stand in the case file, e.g. "cloth.looseness"
  std::string value;  ///< as printed, with unit
  std::string why;    ///< source or "estimate"
};

struct Case {
  std::string file;  ///< as given on the command line
  std::string title;
  std::string description;
  bool invented = false;  ///< demo data
  Outline outline;
  std::vector<ProfilePoint> profile;  ///< chord fraction rising from 0 to 1
  double tip_thickness = 0;           ///< full height of the tip bow [m], only with a tip bow
  std::vector<Material> materials;
  std::vector<SpanMember> span_members;
  std::vector<Rib> ribs;
  std::optional<MemberMake> tip_bow;
  std::vector<Brace> braces;
  std::vector<Batten> battens{};
  std::vector<Pocket> pockets{};
  std::vector<HingeGap> hinge_gaps{};
  bool cloth_goes_on_inboard = false, cloth_goes_on_outboard = false;  ///< a bay of a longer wing
  FinishKind finish = FinishKind::unstated;
  std::vector<Support> while_ironed;
  std::vector<Support> in_use;
  Cloth cloth;
  Blanket blanket;
  std::vector<Attachment> attachments{};
  Iron iron;
  std::vector<Stage> stages;     ///< temperature rising
  double light_dose = 0.25;      ///< of a light pass
  bool light_dose_open = false;  ///< the case does not state it
  Limits limits;
  Spreads spreads{};
  Wanted wanted{};
  Score score{};
  std::optional<double> approved_last_stage;  ///< K: what the aircraft's approved data ask for, if the user said
  std::optional<double> adhesive_bears;       ///< K: hottest that the adhesive bears by its maker, if the user said
  std::vector<double> too_hot_for_adhesive;   ///< K: stages of the case that are hotter: left out of `stages`
  bool both_sides_reachable = false;          ///< a turn-over costs nothing
  int target_nodes = 2000;                    ///< cloth nodes of the normal mesh
  std::vector<DefaultUsed> defaults_used;
  std::vector<std::string> doubts;  ///< warnings found while reading, as sentences
};

}  // namespace evenpull::inline solver
