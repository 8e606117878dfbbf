#include "app/output/draft_case.hpp"

#include "app/input/case_reader.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/draft_words.hpp"
#include "viz/words/joint_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

constexpr int mark_column = 52;
// Aluminium of any alloy, as cases/template.toml has it; softwood twists about a sixteenth as stiffly as it bends:
// estimate.
constexpr const char* aluminium_stiffness = "69 GPa";
constexpr const char* aluminium_shear = "26 GPa";
constexpr double softwood_shear_share = 1.0 / 16;
constexpr double pascals_of_gpa = 1e9;

const char* shape_word(SectionShape::Kind k) {
  using Shape = SectionShape::Kind;
  switch (k) {
    case Shape::tube: return "tube";
    case Shape::bar: return "bar";
    case Shape::sheet_rib: return "sheet rib";
    case Shape::folded_edge: return "folded edge";
    case Shape::closed_nose: return "closed nose";
    case Shape::triangle: return "triangular edge";
    case Shape::capstrip_rib: return "capstrip rib";
    case Shape::truss_rib: return "truss rib";
    default: return "";
  }
}

const char* support_word(SupportKind k) {
  switch (k) {
    case SupportKind::clamp: return "clamp";
    case SupportKind::hinge: return "hinge";
    case SupportKind::sliding_hinge: return "sliding hinge";
    case SupportKind::rest: return "rest";
    case SupportKind::horn: return "horn";
    case SupportKind::motions: break;
  }
  return "";
}

class DraftWriter {
 public:
  DraftWriter(const DraftedCase& d, const DraftAnswers& answers, std::string title)
      : d_(d), a_(answers), title_(std::move(title)) {}

  DraftText write() {
    head();
    outline();
    profile();
    members();
    ribs();
    supports();
    covering();
    rest();
    return std::move(out_);
  }

 private:
  using Froms = std::vector<Ask>;

  void line(const std::string& text, Froms from = {}) {
    out_.text += text + "\n";
    out_.asked.push_back(std::move(from));
  }
  void remark(viz::DraftRemark r) { line("# " + viz::draft_remark(r, d_)); }
  void begin(const std::string& table, const DraftSection& s) {
    line("");
    line(table, s.sizes.front().second.from);
  }

  std::string mark_of(const Froms& from) const {
    if (from.empty()) return "";
    const auto usual = [&](Ask ask) { return a_.at(ask).usual; };
    const auto n = std::count_if(from.begin(), from.end(), usual);
    const auto is_word = [&](Ask ask) {
      const AnswerKind k = question_of(ask, d_.kind)->answer;
      return k != AnswerKind::quantity && k != AnswerKind::lengths;
    };
    if (std::all_of(from.begin(), from.end(), is_word))
      return viz::draft_mark(n == 0 ? viz::DraftMark::said : viz::DraftMark::nobody_said);
    return viz::draft_mark(n == 0                                          ? viz::DraftMark::measured
                           : n == static_cast<std::ptrdiff_t>(from.size()) ? viz::DraftMark::usual
                                                                           : viz::DraftMark::partly);
  }
  void marked(const std::string& key, const std::string& value, const Froms& from) {
    const std::string text = key + " = " + value;
    if (from.empty()) return line(text);
    line(fmt::format("{:<{}}  # {}", text, mark_column, mark_of(from)), from);
  }
  void value(const std::string& key, const DraftValue& v) { marked(key, in_quotes(v.size.text), v.from); }

  static std::string list_of(const std::vector<DraftValue>& all, Froms& from) {
    std::string text;
    for (const DraftValue& v : all) {
      text += (text.empty() ? "" : ", ") + in_quotes(v.size.text);
      for (const Ask ask : v.from)
        if (std::find(from.begin(), from.end(), ask) == from.end()) from.push_back(ask);
    }
    return "[" + text + "]";
  }
  void values(const std::string& key, const std::vector<DraftValue>& all) {
    Froms from;
    const std::string text = list_of(all, from);
    marked(key, text, from);
  }

  void section(const DraftSection& s) {
    Froms from;
    std::string text = fmt::format("{{ shape = \"{}\"", shape_word(s.shape));
    for (const auto& [key, v] : s.sizes) {
      text += fmt::format(", {} = {}", viz::size_key(key), in_quotes(v.size.text));
      from.insert(from.end(), v.from.begin(), v.from.end());
      out_.keys[{static_cast<int>(out_.asked.size()) + 1, viz::size_key(key)}] = v.from.front();
    }
    if (s.plywood_web) text += ", web_material = \"birch plywood 0-90\"";
    marked("section", text + " }", from);
    marked("material", in_quotes(viz::draft_material_word(s.material)), material_asked(s.material));
  }
  static Froms material_asked(DraftMaterial m) {
    switch (m) {
      case DraftMaterial::steel:
      case DraftMaterial::normalised_steel:
      case DraftMaterial::annealed_steel: return {Ask::steel};
      case DraftMaterial::aluminium_tube:
      case DraftMaterial::own_tube: return {Ask::tube_alloy};
      case DraftMaterial::aluminium_sheet:
      case DraftMaterial::own_sheet: return {Ask::sheet_alloy};
      case DraftMaterial::spruce:
      case DraftMaterial::own_wood: break;
    }
    return {Ask::wood};
  }

  void head() {
    for (const std::string& words : viz::draft_head(d_)) line("# " + words);
    line(fmt::format("format = {}", case_format));
    line("title = " + in_quotes(title_, title_.size()));
  }

  void outline() {
    line("");
    remark(viz::DraftRemark::outline);
    line("[outline]");
    value("span", d_.span);
    value("chord", d_.chord);
    if (d_.tip_chord) {
      value("tip_chord", *d_.tip_chord);
      marked("straight_edge", d_.trailing_edge_straight ? "\"trailing edge\"" : "\"leading edge\"",
             {Ask::straight_edge});
    }
    if (d_.goes_on_inboard || d_.goes_on_outboard)
      marked("goes_on_beyond",
             fmt::format("[{}{}{}]", d_.goes_on_inboard ? "\"inboard end\"" : "",
                         d_.goes_on_inboard && d_.goes_on_outboard ? ", " : "",
                         d_.goes_on_outboard ? "\"outboard end\"" : ""),
             {Ask::goes_on});
    if (!d_.bow) return;
    line("");
    remark(viz::DraftRemark::bow);
    line("[tip_bow]");
    value("depth", d_.bow->depth);
    value("thickness", d_.bow->thickness);
    section(d_.bow->section);
  }

  void profile() {
    line("");
    remark(viz::DraftRemark::profile);
    line("[profile]");
    values("at", d_.profile_at);
    values(d_.mid_line.empty() ? "height" : "thickness", d_.profile_height);
    if (!d_.mid_line.empty()) values("mid_line", d_.mid_line);
  }

  void members() {
    line("");
    remark(viz::DraftRemark::members);
    for (const DraftMember& m : d_.members) {
      line("[[member]]", m.section.sizes.front().second.from);
      line(fmt::format("name = \"{}\"", viz::part_word(m.part)));
      line(fmt::format("role = \"{}\"", m.role == SpanRole::leading_edge    ? "leading edge"
                                        : m.role == SpanRole::trailing_edge ? "trailing edge"
                                                                            : "spar"));
      if (m.at) value("at", *m.at);
      if (m.role == SpanRole::spar) line("touches_cloth = false");
      section(m.section);
      line("");
    }
    for (const DraftMaterialOwn& m : d_.own) material(m);
  }

  void material(const DraftMaterialOwn& m) {
    remark(viz::DraftRemark::own_material);
    line(fmt::format("[materials.\"{}\"]", viz::draft_material_word(m.material)));
    if (m.stiffness) {
      value("youngs_modulus", *m.stiffness);
      line(fmt::format("shear_modulus = \"{:.4g} GPa\"  # {}",
                       m.stiffness->size.value * softwood_shear_share / pascals_of_gpa,
                       viz::draft_mark(viz::DraftMark::worked_out)),
           m.stiffness->from);
      value("rupture", m.strength);
    } else {
      line(fmt::format("youngs_modulus = \"{}\"", aluminium_stiffness));
      line(fmt::format("shear_modulus = \"{}\"", aluminium_shear));
      value("yield", m.strength);
    }
    line("");
  }

  static std::string joint_value(const JointMake& j) {
    if (j.kind != JointKind::gusset) return fmt::format("\"{}\"", viz::joint_word(j.kind));
    return fmt::format("{{ as = \"{}\", rivets = {} }}", viz::joint_word(j.kind), j.fasteners);
  }

  void joints() {
    const bool apart = d_.kind == DraftKind::sheet_metal;
    if (d_.front.kind == JointKind::unstated) remark(viz::DraftRemark::joints_not_known);
    else {
      Froms from{Ask::joints};
      if (d_.front.kind == JointKind::gusset) from.push_back(Ask::rivets);
      marked("joints", joint_value(d_.front), from);
    }
    if (apart && d_.rear.kind != JointKind::unstated) marked("rear_joints", joint_value(d_.rear), {Ask::rear_joints});
  }

  void ribs() {
    remark(viz::DraftRemark::ribs);
    line("[ribs]", d_.inner.sizes.front().second.from);
    if (d_.bays > 0) marked("bays", std::to_string(d_.bays), {Ask::bays});
    else values("stations", d_.stations);
    joints();
    begin("[ribs.inner]", d_.inner);
    section(d_.inner);
    if (!d_.end) return;
    begin("[ribs.end]", *d_.end);
    section(*d_.end);
  }

  void supports() {
    line("");
    for (const bool in_use : {false, true}) {
      remark(in_use ? viz::DraftRemark::in_use : viz::DraftRemark::while_ironed);
      for (const DraftSupport& s : d_.supports)
        if (s.in_use == in_use) support(s);
    }
  }

  void support(const DraftSupport& s) {
    const Froms from = s.from ? Froms{*s.from} : Froms{};
    line(s.in_use ? "[[supports.in_use]]" : "[[supports.while_ironed]]", from);
    line(fmt::format("member = \"{}\"", viz::part_word(s.part)), from);
    if (s.at.empty()) marked("at", "[\"inboard end\", \"outboard end\"]", from);
    else values("at", s.at);
    line(fmt::format("as = \"{}\"", support_word(s.as)), from);
    line("");
  }

  void covering() {
    remark(viz::DraftRemark::cloth);
    line("[cloth]");
    if (d_.cloth_mass) value("areal_mass", *d_.cloth_mass);
    else marked("class", fmt::format("\"{}\"", viz::choice_word(Ask::cloth, static_cast<int>(d_.cloth))), {Ask::cloth});
    line("");
    remark(viz::DraftRemark::blanket);
    line("[blanket]");
    marked("kind", fmt::format("\"{}\"", viz::choice_word(Ask::blanket, static_cast<int>(d_.blanket))), {Ask::blanket});
    if (d_.seam) value("seam", *d_.seam);
    if (d_.round_edge) line("wrap_angle = \"180 deg\"  # half way round a tube");
    marked("inner_ribs", d_.ribs_glued ? "\"glued\"" : "\"bearing\"", {Ask::ribs_glued});
  }

  void rest() {
    line("");
    remark(viz::DraftRemark::iron);
    line("[iron]");
    value("swing", d_.swing);
    line("");
    remark(viz::DraftRemark::stages);
    if (d_.approved != DraftApproved::not_known) {
      line("[work]");
      marked("approved_last_stage",
             fmt::format("\"{}\"", viz::choice_word(Ask::approved, static_cast<int>(d_.approved))), {Ask::approved});
    }
    line("");
    remark(viz::DraftRemark::not_asked);
  }

  const DraftedCase& d_;
  const DraftAnswers& a_;
  std::string title_;
  DraftText out_;
};

}  // namespace

Ask DraftText::ask_of(int line, const std::string& key) const {
  if (const auto at = keys.find({line, key.substr(key.find_last_of('.') + 1)}); at != keys.end()) return at->second;
  for (int i = std::min(line, static_cast<int>(asked.size())); i > 0; --i)
    if (!asked[static_cast<std::size_t>(i) - 1].empty()) return asked[static_cast<std::size_t>(i) - 1].front();
  return Ask::kind;
}

DraftText draft_case_text(const DraftedCase& d, const DraftAnswers& answers, const std::string& title) {
  return DraftWriter(d, answers, title).write();
}

}  // namespace evenpull
