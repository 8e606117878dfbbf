// When the cloth is fastened to inner ribs, and how.
#include "app/input/case_parts.hpp"
#include "app/input/read_measured.hpp"
#include "solver/equilibrium/attaching.hpp"
#include "viz/words/attach_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>

namespace evenpull {
namespace {

const std::vector<std::string> how_words = {"left", "glued", "laced", "riveted", "screwed"};
const std::vector<std::string> when_words = {"before ironing", "after ironing"};
constexpr Range spacing_range{0.01, 0.15, "from one stitch, rivet or screw to the next, usually 1 to 4 in"};
constexpr const char* ribs_example = "ribs = \"inner\", or ribs = [2, 3]";

std::string inner_ribs_text(const Case& c) {
  std::vector<int> ribs;
  for (int rib = 0; rib < static_cast<int>(c.ribs.size()); ++rib)
    if (can_be_fastened(c, rib)) ribs.push_back(rib);
  return ribs.empty() ? "there are none here" : viz::named_ribs(ribs);
}

// One number of the list.
int read_rib(const CaseTable& t, const Case& c, const Entry& e, const std::string& key) {
  const auto refuse = [&](const std::string& why) { t.context().fail(key, fmt::format("= {} {}", e.shown(), why)); };
  const auto count = static_cast<double>(c.ribs.size());
  if (e.kind != Entry::Kind::integer || e.number < 1 || e.number > count)
    refuse(fmt::format("is no rib of this panel: ribs count from 1 at the inboard end to {}", c.ribs.size()));
  const int rib = static_cast<int>(e.number) - 1;
  if (!c.ribs[static_cast<std::size_t>(rib)].touches_cloth)
    refuse(
        fmt::format("does not touch the cloth (touches_cloth = false), so it cannot be fastened to it; list ones that "
                    "do: {}",
                    inner_ribs_text(c)));
  if (!can_be_fastened(c, rib))
    refuse(
        fmt::format("is an end rib, to which the cloth is glued by itself; list inner ones: {}", inner_ribs_text(c)));
  return rib;
}

std::vector<int> read_named_ribs(const CaseTable& t, const Case& c) {
  const Entry* stated = t.find("ribs");
  if (!stated) t.missing("ribs", ribs_example);
  std::vector<int> ribs;
  if (stated->kind == Entry::Kind::text) {
    if (plain_word(stated->text) != "inner") t.fail("ribs", fmt::format("names no ribs; write {}", ribs_example));
    for (int rib = 0; rib < static_cast<int>(c.ribs.size()); ++rib)
      if (can_be_fastened(c, rib)) ribs.push_back(rib);
    if (ribs.empty())
      t.fail("ribs", "names no rib: this panel has no inner rib that touches the cloth; leave out [[attach]]");
    return ribs;
  }
  const auto& list = t.list("ribs", {1, most::ribs, ribs_example});
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string key = nth(t.path("ribs"), i);
    const int rib = read_rib(t, c, list[i], key);
    if (std::find(ribs.begin(), ribs.end(), rib) != ribs.end())
      t.context().fail(key, fmt::format("= {} stands in this list already; name each rib once", rib + 1));
    ribs.push_back(rib);
  }
  std::sort(ribs.begin(), ribs.end());
  return ribs;
}

double read_moment(const CaseTable& t, const Case& c) {
  if (t.has("when") == t.has("after"))
    t.context().fail(
        t.has("when") ? t.path("when") : t.own_path(),
        "states its moment once: when = \"before ironing\", when = \"after ironing\", or a stage of the case, "
        "like after = \"250 degF\"");
  if (t.has("after")) return c.stages[static_cast<std::size_t>(stage_index(t, c, "after"))].temperature;
  return t.choice("when", when_words) == 0 ? 0 : std::numeric_limits<double>::infinity();
}

double read_spacing(const CaseTable& t, AttachHow how) {
  if (how != AttachHow::left && how != AttachHow::glued)
    return t.quantity_or("spacing", Quantity::length, spacing_range, {usual_spacing, "2.5 in", default_from_practice});
  if (t.has("spacing"))
    t.fail("spacing", "has a meaning only with how = \"laced\", \"riveted\" or \"screwed\"; leave it out");
  return 0;
}

Attachment read_one_attachment(const CaseTable& t, const Case& c) {
  Attachment a;
  a.ribs = read_named_ribs(t, c);
  a.how = static_cast<AttachHow>(t.choice("how", how_words));
  a.spacing = read_spacing(t, a.how);
  if (a.how != AttachHow::left) {
    a.after = read_moment(t, c);
    return a;
  }
  for (const char* key : {"when", "after"})
    if (t.has(key)) t.fail(key, "has no meaning with how = \"left\", which fastens nothing; leave it out");
  return a;
}

// What a rib is named by so far: the place of each entry.
using Seen = std::multimap<int, std::size_t>;

void check_not_twice(const CaseTable& t, const std::vector<Attachment>& all, const Seen& seen) {
  const Attachment& a = all.back();
  for (int rib : a.ribs)
    for (auto [it, end] = seen.equal_range(rib); it != end; ++it) {
      const Attachment& b = all[it->second];
      const std::string there = t.context().line_of(nth("attach", it->second) + ".ribs");
      if (a.how == AttachHow::left || b.how == AttachHow::left)
        t.fail("ribs", fmt::format("names rib {}, which {} names as well, and one of the two leaves it: decide for one",
                                   rib + 1, there));
      if (a.after == b.after)
        t.fail("ribs", fmt::format("names rib {}, which {} fastens at the same moment; take it out of one of the two",
                                   rib + 1, there));
    }
}

}  // namespace

void read_attach(const CaseTable& top, Case& c) {
  Seen seen;
  for (const CaseTable& t : top.tables("attach", {"ribs", "how", "when", "after", "spacing"}, most::attachments)) {
    c.attachments.push_back(read_one_attachment(t, c));
    check_not_twice(t, c.attachments, seen);
    for (int rib : c.attachments.back().ribs) seen.emplace(rib, c.attachments.size() - 1);
  }
}

}  // namespace evenpull
