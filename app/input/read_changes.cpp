// A member that is made differently beyond a station: a tube drawn or telescoped to a thinner one, a bar planed down.
#include "app/input/section_sizes.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

namespace evenpull {
namespace {

const std::string along_example =
    "along = [{ from = \"900 mm\", section = { shape = \"tube\", outside_diameter = \"3/4 in\", wall = \"0.035 in\" } "
    "}]";

}  // namespace

void read_changes(const CaseTable& member, MemberMake& make, double span, MaterialShelf& shelf) {
  for (const auto& t : member.tables("along", {"from", "section"}, most::changes)) {
    if (!t.has("from")) t.missing("from", along_example);
    ShapeFrom change;
    change.station = t.quantity("from", Quantity::length, {1e-3, 8, "measured from the inboard end, as ribs are"});
    if (change.station >= span)
      t.fail("from",
             fmt::format("is not short of the end of the outline, {} from the inboard end", print_length(span)));
    if (!make.changes.empty() && change.station <= make.changes.back().station)
      t.fail("from", fmt::format("is not beyond {}, where the change before it begins; list them from the inboard end "
                                 "to the tip",
                                 print_length(make.changes.back().station)));
    const MemberMake beyond = read_section(t, shelf);
    change.shape = beyond.shape;
    for (const auto kind : {make.shape.kind, change.shape.kind})
      if (kind == SectionShape::Kind::closed_nose)
        t.fail("section", "cannot change where the member is a \"closed nose\": it has one sheet along the span");
    if (beyond.web_material != make.web_material)
      t.fail("section",
             "has a web of another material than the member's first section; leave web_material as it is there");
    make.changes.push_back(change);
  }
}

}  // namespace evenpull
