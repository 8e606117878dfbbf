#include "app/input/push_words_in.hpp"

#include "app/input/typed.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "app/text/units.hpp"
#include "shop/push_choice.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>

namespace evenpull {
namespace {

constexpr Range push_weight_range{0.02, 50, "0.5 to 10 kg (1 to 20 lb) is usual on a light frame"};
constexpr Range moved_range{0, 0.1, "a few mm are usual"};
constexpr std::size_t most_readings_of_push = 12;
constexpr const char* push_form =
    "write \"2 kg at rib 4, trailing edge: 3.2 mm\": the weight, at, the place, a colon and how far it went down "
    "there; further "
    "places after a semicolon";
constexpr const char* place_forms =
    "a place is a member and a rib (\"trailing edge, rib 4\"), a member and how far from the inboard end (\"spar, 450 "
    "mm\"), or a "
    "rib and how far from its front (\"rib 3, 120 mm\")";

/// Takes an ending off, if the text has it.
bool take_end(std::string& text, const std::string& end) {
  if (text.size() <= end.size() || text.compare(text.size() - end.size(), end.size(), end) != 0) return false;
  text = trimmed(text.substr(0, text.size() - end.size()));
  return true;
}

class PushWords {
 public:
  PushWords(const std::string& text, const std::string& option, const Case& c, const PushFrame& frame)
      : typed_(option, text), c_(c), frame_(frame) {}

  TypedPush read() const {
    TypedPush out;
    out.text = typed_.text();
    const auto parts = parted_at(typed_.text(), ';');
    const auto colon = parts[0].find(':');
    if (colon == std::string::npos) refuse(std::string("does not say what moved; ") + push_form);
    const auto at = parts[0].find(" at ");
    if (at == std::string::npos || at > colon) refuse(std::string("does not say where the weight hung; ") + push_form);
    out.newtons = weight(trimmed(parts[0].substr(0, at)));
    out.place = place(trimmed(parts[0].substr(at + 4, colon - at - 4)));
    if (!frame_.moves(out.place))
      refuse("hangs the weight on a support, where nothing moves; hang it away from what holds the frame");
    const double down = movement(trimmed(parts[0].substr(colon + 1)));
    if (down <= 0)
      refuse(
          "says that the place under the weight did not go down; a weight lowers the place where it hangs: state how "
          "far, "
          "without a sign");
    out.readings.push_back({out.place, down});
    if (parts.size() > most_readings_of_push)
      refuse(fmt::format("has more than {} places, which is the most for one weight", most_readings_of_push));
    for (std::size_t i = 1; i < parts.size(); ++i) out.readings.push_back(reading(parts[i]));
    return out;
  }

 private:
  [[noreturn]] void refuse(const std::string& sentence) const { typed_.refuse(sentence); }

  TypedReading reading(std::string part) const {
    if (part.rfind("at ", 0) == 0) part = trimmed(part.substr(3));
    const auto colon = part.find(':');
    if (colon == std::string::npos)
      refuse(fmt::format("holds {}, which is no place with what it moved; {}", in_quotes(part), push_form));
    TypedReading r{place(trimmed(part.substr(0, colon))), movement(trimmed(part.substr(colon + 1)))};
    if (!frame_.moves(r.place))
      refuse(fmt::format(
          "reads at {}, where a support holds the frame; read where it is free. What a support gives is stated in "
          "the case (give)",
          in_quotes(trimmed(part.substr(0, colon)))));
    return r;
  }

  double weight(const std::string& words) const {
    return gravity * typed_.quantity(words, Quantity::mass, push_weight_range);
  }

  double movement(std::string words) const {
    bool up = take_end(words, " up");
    if (!up) take_end(words, " down");
    if (!words.empty() && words[0] == '-') {
      if (up) refuse(fmt::format("holds {} up: write \"0.4 mm up\" without a minus sign", in_quotes(words)));
      up = true, words = trimmed(words.substr(1));
    }
    const double value = typed_.quantity(words, Quantity::length, moved_range);
    return up ? -value : value;
  }

  std::optional<int> rib_in(const std::string& part) const {
    if (part.rfind("rib", 0) != 0 || part.size() < 4 ||
        !(part[3] == ' ' || std::isdigit(static_cast<unsigned char>(part[3]))))
      return {};
    const std::string number = trimmed(part.substr(3));
    const auto rib = whole_number_in(number);
    if (!rib) return {};
    if (*rib < 1 || *rib > static_cast<int>(c_.ribs.size()))
      refuse(
          fmt::format("names rib {}; this panel has ribs 1 to {}, counted from the inboard end", *rib, c_.ribs.size()));
    return *rib - 1;
  }

  int member_in(const std::string& part) const {
    std::vector<std::string> names;
    std::vector<int> within;
    for (std::size_t i = 0; i < c_.span_members.size(); ++i) {
      const SpanMember& m = c_.span_members[i];
      const std::string name = plain_word(m.name);
      if (name == part) return static_cast<int>(i);
      names.push_back(m.name);
      const bool by_role = (part == "leading edge" && m.role == SpanRole::leading_edge) ||
                           (part == "trailing edge" && m.role == SpanRole::trailing_edge);
      if (by_role || name.find(part) != std::string::npos) within.push_back(static_cast<int>(i));
    }
    if (within.size() == 1) return within[0];
    const auto guess = nearest(part, names);
    refuse(fmt::format("names {}, which is {}; the members are {}{}. {}", in_quotes(part),
                       within.empty() ? "no member" : "more than one member", list_words(names),
                       guess.empty() ? "" : "; did you mean " + in_quotes(guess) + "?", place_forms));
  }

  /// A length or a share of `whole`.
  double distance(std::string part, double whole, const std::string& of) const {
    for (const char* end : {" from the inboard end", " from the root", " from its front", " from the front"})
      take_end(part, end);
    const bool share = part.find('%') != std::string::npos;
    double value = 0;
    try {
      value = share ? whole * units_.parse(part, Quantity::fraction) : units_.parse(part, Quantity::length);
    } catch (const UnitError& e) {
      refuse(fmt::format("holds {}, which {}. {}", in_quotes(part), e.what(), place_forms));
    }
    if (!(value >= 0 && value <= whole * (1 + 1e-9)))
      refuse(fmt::format("holds {}, but {} goes from 0 to {}", in_quotes(part), of, print_length(whole)));
    return value;
  }

  FramePlace place(const std::string& words) const {
    const auto parts = parted_at(words, ',');
    if (parts.size() != 2 || parts[0].empty() || parts[1].empty())
      refuse(fmt::format("holds {}, which is no place; {}", in_quotes(words), place_forms));
    const std::string a = plain_word(parts[0]), b = plain_word(parts[1]);
    const auto rib_a = rib_in(a), rib_b = rib_in(b);
    if (rib_a && rib_b) refuse(fmt::format("holds {}, which are two ribs; {}", in_quotes(words), place_forms));
    FramePlace out;
    const auto is_number = [](const std::string& s) {
      return std::isdigit(static_cast<unsigned char>(s[0])) || s[0] == '.';
    };
    if (rib_b || (rib_a && !is_number(b))) {
      const int rib = rib_a ? *rib_a : *rib_b;
      out = {false, member_in(rib_a ? b : a), c_.ribs[static_cast<std::size_t>(rib)].station};
    } else if (rib_a) {
      out = {true, *rib_a, distance(parts[1], frame_.rib_length(*rib_a), fmt::format("rib {}", *rib_a + 1))};
    } else {
      const int member = member_in(a);
      out = {false, member,
             distance(parts[1], c_.outline.span(), c_.span_members[static_cast<std::size_t>(member)].name)};
    }
    if (!frame_.has(out))
      refuse(fmt::format("names {}, where that member does not go: a pocket stands there, or it ends before",
                         in_quotes(words)));
    return out;
  }

  const Typed typed_;
  const Case& c_;
  const PushFrame& frame_;
  Units units_;
};

}  // namespace

TypedPush push_of_words(const std::string& text, const std::string& option, const Case& c, const PushFrame& frame) {
  return PushWords(text, option, c, frame).read();
}

}  // namespace evenpull
