#include "app/output/stiffen_edits.hpp"

#include "app/text/quoted.hpp"

#include <fmt/format.h>

namespace evenpull {
namespace {

std::string size_text(double metres) { return fmt::format("\"{:.9g} mm\"", 1000 * metres); }

std::string optional_size(const char* key, double metres) {
  return metres > 0 ? fmt::format(", {} = {}", key, size_text(metres)) : "";
}

std::string section_line(const SectionShape& s) {
  using Kind = SectionShape::Kind;
  switch (s.kind) {
    case Kind::tube:
      return fmt::format("section = {{ shape = \"tube\", outside_diameter = {}, wall = {} }}\n",
                         size_text(s.outside_diameter), size_text(s.wall));
    case Kind::bar:
      return fmt::format("section = {{ shape = \"bar\", width = {}{} }}\n", size_text(s.width),
                         optional_size("height", s.height));
    case Kind::sheet_rib:
    case Kind::channel:
      return fmt::format("section = {{ shape = \"{}\", sheet = {}, flange = {}{}{}{}{}{} }}\n",
                         s.kind == Kind::channel ? "channel" : "sheet rib", size_text(s.wall), size_text(s.width),
                         optional_size("height", s.height), optional_size("bend_radius", s.fold_radius),
                         optional_size("lip", s.lip), optional_size("hole_diameter", s.hole),
                         optional_size("hole_spacing", s.hole_spacing));
    default: throw CannotEdit("asks for a section that this program does not write; put it into the case by hand");
  }
}

std::string material_line(const std::string& name) { return "material = " + in_quotes(name) + "\n"; }
std::string name_line(const std::string& name) { return "name = " + in_quotes(name) + "\n"; }
const char* comes_out_line(bool comes_out) { return comes_out ? "comes_out = true\n" : ""; }

std::string member_name(const Case& c, int member) {
  return in_quotes(c.span_members[static_cast<std::size_t>(member)].name);
}

std::string end_line(const Case& c, const char* key, int member, int rib, bool mid_bay) {
  return fmt::format("{} = {{ member = {}, {} = {} }}\n", key, member_name(c, member), mid_bay ? "mid_bay" : "rib",
                     rib + 1);
}

std::string batten_lines(const Case& c, const Candidate& k, const Batten& b) {
  return "[[batten]]\n" + name_line(b.name) +
         (b.rib >= 0 ? fmt::format("rib = {}\n", b.rib + 1)
                     : fmt::format("member = {}\n", member_name(c, b.span_member))) +
         section_line(k.section) + material_line(k.material->name) + comes_out_line(b.comes_out);
}

std::string brace_lines(const Case& c, const Candidate& k, const Brace& b) {
  return "[[brace]]\n" + name_line(b.name) + end_line(c, "from", b.from_member, b.from_rib, b.from_mid_bay) +
         end_line(c, "to", b.to_member, b.to_rib, b.to_mid_bay) + "joints = \"pinned\"\n" + section_line(k.section) +
         material_line(k.material->name) + comes_out_line(b.comes_out);
}

std::string support_lines(const Case& c, const Support& s) {
  return fmt::format("[[supports.while_ironed]]\nmember = {}\nat = {}\nholds = [\"x\", \"z\"]\n",
                     member_name(c, s.member), size_text(s.station));
}

std::string strip_lines(const Candidate& k) {
  return "[[member]]\n" + name_line(k.strip->name) + "role = \"spar\"\n" +
         fmt::format("at = \"{:.9g} %\"\n", 100 * k.strip->chord_fraction) + "touches_cloth = false\n" +
         section_line(k.section) + material_line(k.material->name);
}

std::string rib_lines(const Case& c, const Candidate& k) {
  const MemberMake& make = c.ribs[static_cast<std::size_t>(*k.rib)].make;
  return fmt::format("[[ribs.single]]\nnumber = {}\n", *k.rib + 1) + section_line(k.section) +
         material_line(c.materials[static_cast<std::size_t>(make.material)].name);
}

}  // namespace

std::vector<CaseEdit> edits_of(const Case& c, const Candidate& k) {
  std::vector<CaseEdit> out;
  const auto add = [&](const char* table, const std::string& lines) {
    out.push_back({CaseEdit::Kind::add_table, table, "", lines, ""});
  };
  for (const Batten& b : k.battens) add("batten", batten_lines(c, k, b));
  for (const Brace& b : k.braces) add("brace", brace_lines(c, k, b));
  for (const Support& s : k.supports) add("supports.while_ironed", support_lines(c, s));
  if (k.strip) add("member", strip_lines(k));
  if (k.rib) add("ribs.single", rib_lines(c, k));
  if (k.areal_mass)
    out.push_back({CaseEdit::Kind::set_key, "cloth", "areal_mass",
                   fmt::format("\"{:.9g} g/m^2\"", 1000 * *k.areal_mass), "lighter cloth: weigh a piece"});
  return out;
}

}  // namespace evenpull
