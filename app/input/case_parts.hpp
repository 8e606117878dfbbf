// The parts of a case file, each read by its own function. They throw CaseFileError.
#pragma once

#include "app/input/case_table.hpp"
#include "shop/adhesive.hpp"
#include "shop/finish.hpp"
#include "shop/trimming.hpp"
#include "solver/statement/case.hpp"

namespace evenpull {

void read_outline(const CaseTable& top, Case& c);    ///< outline, tip bow's size
void read_profile(const CaseTable& top, Case& c);    ///< needs the outline
void read_structure(const CaseTable& top, Case& c);  ///< members, ribs, tip bow, braces; needs the outline
void read_supports(const CaseTable& top, Case& c);   ///< needs the structure
void read_cloth(const CaseTable& top, Case& c);
void read_blanket(const CaseTable& top, Case& c);   ///< needs the structure
void read_cut_outs(const CaseTable& top, Case& c);  ///< pockets and hinge gaps; needs structure, supports and blanket
void read_battens(const CaseTable& top, Case& c);   ///< needs structure and pockets
Trimming read_trimming(const CaseTable& top, const Case& c);  ///< needs outline and structure; changes no plan
void read_iron(const CaseTable& top, Case& c);
void read_stages(const CaseTable& top, Case& c);  ///< needs the cloth
/// Which ribs are fastened when; needs structure and stages.
void read_attach(const CaseTable& top, Case& c);
/// What it leaves out is told by itself (Adhesive::taken): a plan hangs on none of it.
Adhesive read_adhesive(const CaseTable& top, const SeamStatement& seam);
/// Stages hotter than the adhesive bears are not planned; refuses a case of which none is left. Needs the stages.
void leave_out_stages(const CaseTable& top, Adhesive& a, Case& c);
/// Tapes, coats and hours; needs the cloth.
Finish read_finish(const CaseTable& top, const Case& c, const Adhesive& a, const SeamStatement& seam);
void read_limits(const CaseTable& top, Case& c);
void read_score(const CaseTable& top, Case& c);
void read_spreads(const CaseTable& top, Case& c);
/// Needs the structure and the spreads. `counts`: what was measured is put into the case; else it is only checked.
void read_measured_frame(const CaseTable& top, Case& c, bool counts);
/// Of the stiffness of members that was measured, one sigma: sections and places are not known better. Judgement.
constexpr double least_measured_spread = 0.03;
void read_wanted(const CaseTable& work, Case& c);  ///< of the table [work]
/// Fills in what follows from the whole case by computing: how long cloth stays hot, doses of stated dwells, and
/// whether the usual passes begin with light ones. No other reader computes heat.
void complete_case(CaseContext& context, Case& c);
/// Adds a sentence for what is possible but unusual; needs the whole case.
void find_doubts(Case& c);
void find_depth_doubts(Case& c);    ///< of them: members against the depth of the panel at their place
void find_section_doubts(Case& c);  ///< of them: sections and materials against each other

/// A section written as { shape = "tube", outside_diameter = "12.7 mm", wall = "0.9 mm" } and the material beside it.
class MaterialShelf;
MemberMake read_make(const CaseTable& owner, MaterialShelf& shelf);

/// How a rib or brace is joined to what it ends on: a word, or a table with `as`. None where the key is absent.
std::optional<JointMake> read_joint_if(const CaseTable& t, const std::string& key);

/// Refuse a section that cannot be what the place asks for; a depth is looked at between two chord fractions.
void check_depth(const CaseTable& owner, const MemberMake& make, const Case& c, double from, double to);
void check_rib(const CaseTable& owner, const MemberMake& make, const Case& c);
void check_tip_bow(const CaseTable& owner, const MemberMake& make);
void check_brace(const CaseTable& owner, const MemberMake& make, const char* what = "a brace");
void check_pocket_front(const CaseTable& owner, const MemberMake& make, const Case& c, double chord_fraction);
/// One that is to lie below the cloth and is as deep as the panel.
void check_low_rib(const CaseTable& owner, const MemberMake& make);

/// Materials of the case: its own and the known ones that it names, in order of first use.
class MaterialShelf {
 public:
  MaterialShelf(const CaseTable& top, Case& c);
  /// Index into Case::materials of the material that `owner` names under `key`, for a member with this wall [m]
  /// (0: none).
  int take(const CaseTable& owner, const std::string& key, double wall);

 private:
  Case* case_;
  CaseContext* context_;
  std::vector<Material> own_;
  void check_name(const std::string& name) const;
  Material read_own(const CaseTable& table, const std::string& name);
};

/// Strength beside welds of welded members whose material does not say it; needs the structure.
void fill_welds(CaseContext& context, Case& c);

/// Index of the span member called `name` under `key` of `owner`.
int find_member(const CaseTable& owner, const std::string& key, const Case& c);

// Above these true sole temperatures polyester loses tension and comes near melting (250 to 260 degC).
constexpr double polyester_doubt_degF = 375;
constexpr double polyester_refuse_degF = 400;

/// Stages of a case lie at least this far apart [degF]: an order file names them by temperature, and no thermometer on a sole
/// tells closer ones apart. Judgement.
constexpr double closest_stages_degF = 2;

/// What a thermometer on a sole can read, and what can stand on a dial.
constexpr Range reading_range{293.15, 620, "a true sole temperature by thermometer, like \"262 degF\""};
constexpr double highest_mark = 1000;
constexpr Range swing_range{0, 60, "household irons swing by 8 to 20 K (15 to 35 degF)"};

/// A pass that gives less is none.
constexpr double least_dose = 0.01;

constexpr const char* default_from_practice = "common practice, no source";
constexpr const char* default_estimate = "estimate";
constexpr const char* default_judgement = "engineering judgement of this program; set your own";

}  // namespace evenpull
