// What holds the panel: while it is ironed, and in use. Both must be stated, because limits must hold when the fixture
// is off.
#include "app/input/case_parts.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <array>

namespace evenpull {
namespace {

struct Holding {
  SupportKind kind;
  std::array<bool, 6> hold;  ///< x y z, then turning about x y z
};

constexpr std::array<Holding, 5> holdings{{
    {SupportKind::clamp, {true, true, true, true, true, true}},
    {SupportKind::hinge, {true, true, true, false, false, false}},
    {SupportKind::sliding_hinge, {true, false, true, false, false, false}},
    {SupportKind::rest, {false, false, true, false, false, false}},
    {SupportKind::horn, {false, false, false, false, true, false}},
}};
const std::vector<std::string> holding_words = {"clamp", "hinge", "sliding hinge", "rest", "horn"};
const std::vector<std::string> motion_words = {"x", "y", "z", "turn x", "turn y", "turn z"};

std::array<bool, 6> read_holds(const CaseTable& t) {
  const std::string example = "holds = [\"x\", \"z\"] (x chordwise, y along the span, z up; \"turn y\" is twist)";
  const auto& list = t.list("holds", {1, most::motions, example});
  std::array<bool, 6> hold{};
  for (size_t i = 0; i < list.size(); ++i) {
    const auto word = plain_word(list[i].text);
    size_t which = 0;
    while (which < motion_words.size() && motion_words[which] != word) ++which;
    if (which == motion_words.size())
      t.context().fail(nth(t.path("holds"), i), fmt::format("= {} is not a motion; the motions are {}; for example {}",
                                                            list[i].shown(), list_words(motion_words), example));
    hold[which] = true;
  }
  return hold;
}

double read_place(const CaseTable& t, const Entry& e, const std::string& key, double span) {
  if (e.kind == Entry::Kind::text) {
    const auto word = plain_word(e.text);
    if (word == "inboard end") return 0;
    if (word == "outboard end" || word == "tip end") return span;
  }
  const double y = t.number_of(e, key, Quantity::length, {0, 100, "measured from the inboard end rib"});
  if (y > span)
    t.context().fail(key,
                     fmt::format("= {} lies beyond the last rib, which stands at {}", e.shown(), print_length(span)));
  return y;
}

/// What a support gives, as it was tried: pushed by so much it moves by so much [m/N].
double read_give(const CaseTable& t) {
  if (!t.has("give")) return 0;
  const auto g = t.table("give", {"force", "movement"}, "");
  const double force = g.quantity("force", Quantity::force, {1, 2000, "what it was pushed with, usually 50 to 200 N"});
  const double moved = g.quantity("movement", Quantity::length, {1e-6, 0.02, "how far it then moved, by a dial gauge"});
  return moved / force;
}

bool is_same(const Support& a, const Support& b) {
  return a.member == b.member && a.station == b.station && a.whole_length == b.whole_length && a.hold == b.hold;
}

std::vector<Support> read_list(const CaseTable& supports, const std::string& key, const Case& c) {
  const auto tables = supports.tables(key, {"member", "at", "as", "holds", "give"}, most::supports);
  if (tables.empty())
    supports.missing(
        key, fmt::format("[[supports.{}]] with member = \"{}\", at = \"inboard end\", as = \"clamp\"; state both "
                         "what holds the panel while it is ironed and what holds it in use",
                         key, c.span_members.front().name));
  std::vector<Support> out;
  std::vector<std::string> keys;
  for (const auto& t : tables) {
    Support s;
    const auto add = [&](const std::string& place) {
      for (size_t i = 0; i < out.size(); ++i)
        if (is_same(out[i], s))
          t.context().fail(
              place,
              fmt::format("{} is held here in the same way already ({}); one of the two is too many, or "
                          "another place is meant",
                          in_quotes(c.span_members[static_cast<size_t>(s.member)].name), t.context().line_of(keys[i])));
      out.push_back(s);
      keys.push_back(place);
    };
    s.member = find_member(t, "member", c);
    if (t.has("as") == t.has("holds"))
      t.context().fail(t.has("as") ? t.path("holds") : t.own_path(),
                       "state either as = \"clamp\" (or hinge, sliding hinge, rest, horn) or holds = [\"x\", \"z\"], "
                       "one of the two");
    if (t.has("holds")) {
      s.hold = read_holds(t);
    } else {
      const auto which = static_cast<size_t>(t.choice("as", holding_words));
      s.kind = holdings[which].kind;
      s.hold = holdings[which].hold;
    }
    s.give = read_give(t);
    if (s.give > 0 && !(s.hold[0] || s.hold[1] || s.hold[2]))
      t.context().fail(t.path("give"), "has no meaning for a support that holds against turning alone");
    const auto* at = t.find("at");
    if (!at)
      t.missing(
          "at",
          "at = \"inboard end\", \"outboard end\", \"whole length\", a distance like \"900 mm\", or a list of them");
    if (at->kind == Entry::Kind::text && plain_word(at->text) == "whole length") {
      s.whole_length = true;
      if (s.give > 0)
        t.context().fail(t.path("give"),
                         "was tried at one place; state the places of the supports instead of the whole "
                         "length");
      add(t.path("at"));
    } else if (at->kind == Entry::Kind::list) {
      const auto& list = t.list("at", {1, most::places_of_a_support, "at = [\"inboard end\", \"900 mm\"]"});
      for (size_t i = 0; i < list.size(); ++i) {
        s.station = read_place(t, list[i], nth(t.path("at"), i), c.outline.span());
        add(nth(t.path("at"), i));
      }
    } else {
      s.station = read_place(t, *at, t.path("at"), c.outline.span());
      add(t.path("at"));
    }
  }
  return out;
}

}  // namespace

void read_supports(const CaseTable& top, Case& c) {
  const auto supports =
      top.table("supports", {"while_ironed", "in_use"},
                "[[supports.while_ironed]] and [[supports.in_use]], each with member, at and as; both must be stated");
  c.while_ironed = read_list(supports, "while_ironed", c);
  c.in_use = read_list(supports, "in_use", c);
}

}  // namespace evenpull
