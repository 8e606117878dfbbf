#include "viz/words/tap_words.hpp"

#include "viz/words/print.hpp"
#include "viz/words/terminal_text.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {
namespace {

constexpr double sigmas = 1.96;
// Where this share of the doubt is one cause's, it is named.
constexpr double most_of_it = 0.5;
// Two tones of one bay further apart than both can be misread: twice 1 % each and what ribs with holes let through;
// judgement.
constexpr double sound_apart = 0.1;

std::string per_inch(double pull) { return fmt::format("{:.1f}", pounds_per_inch(pull)); }

bool any_of_lines(const TapTold& t, bool (*is)(const TapLine&)) {
  return std::any_of(t.lines.begin(), t.lines.end(), is);
}

std::string behind_sentence(BehindTold behind) {
  switch (behind) {
    case BehindTold::open: return "Reckoned with nothing behind the cloth: the frame is open on the other side.";
    case BehindTold::skin:
      return "Reckoned with the other skin behind, free to move. Both skins of a bay then sound as one: the tone tells "
             "the "
             "mean of the two, and whether the ribs let the air through is not known.";
    case BehindTold::held: return "Reckoned with the other skin held still, as on a bench.";
    case BehindTold::either: break;
  }
  return "What lies behind the cloth was not said, so both an open frame and a closed panel are allowed for: the wider "
         "of the "
         "two is told. Say --behind open or --behind skin to narrow it.";
}

std::string weights_sentence(const TapTold& t) {
  double low = 1, high = 0;
  for (const TapLine& l : t.lines)
    if (l.pull && !l.by_weight) low = std::min(low, l.chord_weight), high = std::max(high, l.chord_weight);
  if (high <= 0) return "";
  const auto share = [](double x) { return fmt::format("{:.0f}", 100 * x); };
  return fmt::format(
      "A tone hears {} % of the chordwise pull and the rest of the spanwise one. The pull told is the root of "
      "chordwise times spanwise, the two shared out as the cloth of the case shares them.",
      share(low) == share(high) ? share(low) : share(low) + " to " + share(high));
}

std::string ratios_sentence(const TapTold& t) {
  std::string ratios;
  for (const TapLine& l : t.lines)
    if (l.ratio)
      ratios += (ratios.empty() ? "" : "; ") +
                (*l.ratio_off > 0
                     ? fmt::format("{} {:.2f} (± {:.2f})", tap_place(l), *l.ratio, sigmas * *l.ratio_off * *l.ratio)
                     : fmt::format("{} 1", tap_place(l)));
  return ratios.empty() ? "" : "Tone squared beside the first, size of the bay allowed for (95 %): " + ratios + ".";
}

const char* cue_of(const TapLine& l) {
  return l.others == Beside::higher ? " ▲" : l.others == Beside::lower ? " ▼" : "";
}

const char* trouble_words(TapLine::Trouble t) {
  switch (t) {
    case TapLine::Trouble::no_field:
      return "the case has no free, tight cloth in the middle of this bay: nothing can be told";
    case TapLine::Trouble::too_deep:
      return "too deep for this weight: the cloth stretches. Take a tenth of the weight and read again";
    case TapLine::Trouble::too_small_for_disc: return "the bay is too small for a 4 in lid. Tap it instead";
    case TapLine::Trouble::too_low:
      return "lower than this bay can sound with any pull: another part rang, or the case is not this panel";
    case TapLine::Trouble::nothing: break;
  }
  return "";
}

}  // namespace

std::string tap_place(const TapLine& l) {
  return fmt::format("{}, bay {}", l.side == Side::top ? "top" : "bottom", l.bay + 1);
}

std::string tap_read(const TapLine& l) {
  if (!l.by_weight) return fmt::format("{:.1f} Hz", l.tone);
  return fmt::format("{:.2f} in ({:.1f} mm)", inches(l.sag), l.sag * 1e3);
}

std::string tap_pull(const TapLine& l) { return l.pull ? per_inch(*l.pull) + " lb/in" : "not told"; }

std::string tap_range(const TapLine& l) {
  if (!l.pull) return "-";
  return fmt::format("{} to {} lb/in ({:.0f} to {:.0f} N/m)", per_inch(*l.low), per_inch(*l.high), *l.low, *l.high);
}

std::string tap_expected(const TapLine& l) {
  if (!l.expected) return "-";
  if (!l.pull) return per_inch(*l.expected);
  return fmt::format("{}{}", per_inch(*l.expected),
                     *l.expected > *l.high  ? ", reads less"
                     : *l.expected < *l.low ? ", reads more"
                                            : ", within");
}

std::vector<std::string> tap_warnings(const TapTold& t) {
  std::vector<std::string> out;
  for (const TapLine& l : t.lines) {
    if (l.trouble != TapLine::Trouble::nothing)
      out.push_back(fmt::format("{}, {}: {}.", tap_place(l), tap_read(l), trouble_words(l.trouble)));
    if (l.taps > 0 && l.passed_over > l.taps)
      out.push_back(fmt::format("{}: {} of {} taps did not ring clearly. Record it again in a quieter place.",
                                tap_place(l), l.passed_over, l.passed_over + l.taps));
  }
  if (t.behind == BehindTold::skin)
    for (const TapLine& a : t.lines)
      for (const TapLine& b : t.lines)
        if (!a.by_weight && !b.by_weight && a.bay == b.bay && a.side == Side::top && b.side == Side::bottom &&
            std::abs(std::log(a.tone / b.tone)) > sound_apart)
          out.push_back(
              fmt::format("bay {}: top and bottom sound apart, {:.1f} and {:.1f} Hz. Two free skins with air shut in "
                          "between sound alike: see that neither was held, and tap both again amid the bay.",
                          a.bay + 1, a.tone, b.tone));
  if (any_of_lines(t, [](const TapLine& l) { return l.ratio.has_value(); })) {
    double share = 0;
    for (const TapLine& l : t.lines)
      if (l.ratio) share = std::max(share, l.shut_in);
    out.push_back(fmt::format(
        "Air shut in makes up to {:.0f} % of these tones: no pull is told, only how bays compare. Pulls differ "
        "by more than the numbers do. Hold the panel so that the other skin is free, and tap again.",
        100 * share));
  }
  if (any_of_lines(t, [](const TapLine& l) { return l.expected && l.high && *l.expected > *l.high; }))
    out.push_back(
        "Bays that read less than expected: work them again at the same stage and tap again before a hotter one.");
  if (any_of_lines(t, [](const TapLine& l) { return l.expected && l.low && *l.expected < *l.low; }))
    out.push_back(
        "Bays that read more than expected: stop. The frame bears more than was planned; weigh them before you go on.");
  return out;
}

std::vector<std::string> tap_notes(const TapTold& t) {
  std::vector<std::string> out;
  const bool tapped = any_of_lines(t, [](const TapLine& l) { return !l.by_weight; });
  if (any_of_lines(t, [](const TapLine& l) { return l.pull.has_value(); }))
    out.push_back(
        "The range holds the pull in 95 of 100 jobs. It is no window: whether to go on, the plan says by weight and "
        "sag.");
  if (const auto r = ratios_sentence(t); !r.empty()) out.push_back(r);
  if (tapped) out.push_back(behind_sentence(t.behind));
  double air = 0, share = 0;
  for (const TapLine& l : t.lines)
    if (l.pull && !l.by_weight) air = std::max(air, l.air_over_cloth), share = std::max(share, l.doubt_air);
  if (share > most_of_it)
    out.push_back(fmt::format(
        "The air that moves along weighs up to {:.1f} times the cloth and is {:.0f} % of the doubt. One bay "
        "weighed with a lid and a weight tells more than many tapped.",
        air, 100 * share));
  if (tapped)
    out.push_back(fmt::format(
        "Cloth as the case states it, {:.1f} oz/yd² ({:.0f} g/m²), dry. With coats on it state their mass too: "
        "heavier cloth sounds lower.",
        ounces_per_square_yard(t.areal_mass), 1e3 * t.areal_mass));
  if (const auto w = weights_sentence(t); !w.empty()) out.push_back(w);
  if (t.expected_from == ExpectedFrom::plan)
    out.push_back(
        fmt::format("Expected: what the plan says of that side after {}, in the mean.", degrees_both(*t.stage)));
  if (t.expected_from == ExpectedFrom::stage)
    out.push_back(
        fmt::format("Expected: what cloth as the case states it pulls there after {}, all of it shrunk in full.",
                    degrees_both(*t.stage)));
  if (any_of_lines(t, [](const TapLine& l) { return l.others == Beside::lower || l.others == Beside::higher; }))
    out.push_back(
        "▲ and ▼: a tone that stands above or below the middle one by more than tapping can be off by, size of the bay "
        "allowed for. Bays compare better than any is known.");
  return out;
}

std::string tap_text(const TapTold& t, const std::string& folder) {
  const bool expected = t.expected_from != ExpectedFrom::nothing;
  std::string text =
      fmt::format("Tap: {}\n\n    {:<14}{:<18}{:<12}{}\n", t.title, "bay", "read", "pull",
                  expected ? fmt::format("{:<38}expected, lb/in", "95 of 100 lie between") : "95 of 100 lie between");
  const auto pad = [](const std::string& s, std::size_t width) {
    return s + std::string(letters(s) < width ? width - letters(s) : 1, ' ');
  };
  for (const TapLine& l : t.lines) {
    std::string row = "    " + pad(tap_place(l), 14) + pad(tap_read(l) + cue_of(l), 18) + pad(tap_pull(l), 12) +
                      (expected ? pad(tap_range(l), 38) + tap_expected(l) : tap_range(l));
    row.erase(row.find_last_not_of(' ') + 1);
    text += row + "\n";
  }
  text += "\n";
  for (const auto& w : tap_warnings(t)) text += "  WARNING: " + wrap_text(w, 11) + "\n";
  for (const auto& n : tap_notes(t)) text += "  - " + wrap_text(n, 4) + "\n";
  if (!t.measured.empty()) {
    text += "\n  For the order file of `plan --from`:\n\n    measured = [\n";
    for (const auto& line : t.measured) text += "      " + line + ",\n";
    text += "    ]\n";
  }
  return text + "\n  To print: " + folder + "/tap.pdf\n";
}

}  // namespace evenpull::viz
