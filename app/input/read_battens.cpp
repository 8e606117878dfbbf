// Battens clamped along ribs and members.
#include "app/input/case_parts.hpp"
#include "app/text/quoted.hpp"

#include <fmt/format.h>

namespace evenpull {
namespace {

const std::vector<std::string> batten_keys = {"name", "rib", "member", "section", "material", "comes_out"};

void check_rib_of_batten(const CaseTable& t, const Case& c, int rib) {
  const int last = static_cast<int>(c.ribs.size()) - 1;
  if (c.tip_bow && rib == last)
    t.fail("rib", "is the rib at the end of the outline, and the tip bow stands in its place; clamp it to another rib");
  if ((rib == 0 && c.cloth_goes_on_inboard) || (rib == last && c.cloth_goes_on_outboard))
    t.fail("rib", "is where the wing goes on, and half of that rib belongs to the bay beyond; clamp it to another rib");
}

Batten read_batten(const CaseTable& t, const Case& c, MaterialShelf& shelf) {
  Batten b;
  b.name = t.text_or("name", fmt::format("batten {}", c.battens.size() + 1));
  if (t.has("rib") == t.has("member"))
    t.context().fail(t.has("rib") ? t.path("member") : t.own_path(),
                     "state what the batten lies along, rib = 1 or member = \"trailing edge\", one of the two");
  if (t.has("rib")) {
    b.rib = t.whole_number("rib", {1, static_cast<double>(c.ribs.size()), "ribs count from 1 at the inboard end"}) - 1;
    check_rib_of_batten(t, c, b.rib);
  } else {
    b.span_member = find_member(t, "member", c);
    if (!c.pockets.empty() && b.span_member + 1 == static_cast<int>(c.span_members.size()))
      t.fail("member", "is the trailing edge, which a pocket takes away in part; clamp the batten to a rib");
  }
  b.make = read_make(t, shelf);
  check_brace(t, b.make, "a batten");
  b.comes_out = t.has("comes_out") && t.flag("comes_out");
  return b;
}

}  // namespace

void read_battens(const CaseTable& top, Case& c) {
  MaterialShelf shelf(top, c);
  for (const auto& t : top.tables("batten", batten_keys, most::battens)) c.battens.push_back(read_batten(t, c, shelf));
}

}  // namespace evenpull
