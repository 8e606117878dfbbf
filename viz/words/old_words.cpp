#include "viz/words/old_words.hpp"

#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {
namespace {

constexpr double step_of_patch = 10;  // °F, from one try to the next

std::string band_text(const PullBand& p) {
  return fmt::format("{:.1f} to {:.1f} lb/in ({:.0f} to {:.0f} N/m)", pounds_per_inch(p.low), pounds_per_inch(p.high),
                     p.low, p.high);
}

}  // namespace

std::vector<std::string> coated_sentences(bool known) {
  return {known ? "Coats are on the cloth: do not iron it."
                : "Nobody knows what is on the cloth: do not iron it before that is known.",
          "Heat softens and blisters coats, may set them on fire, and what such cloth pulls afterwards nobody has "
          "measured. Ask the "
          "holder of the approved data and a licensed mechanic; cloth that is too slack under its coats is replaced."};
}

std::string pull_now_text(const OldCloth& old) { return "about " + pull_both(old.pull); }

MoreRow more_row(const MoreToCome& m) {
  return {degrees_f(m.temperature), (m.perhaps_nothing ? "perhaps " : "") + pull_both(m.pull.median),
          band_text(m.pull)};
}

std::vector<std::string> more_notes(const OldCloth& old, const std::vector<MoreToCome>& more) {
  std::vector<std::string> out{
      "Of 100 such cloths 95 end in the range. It counts what is not known of the cloth, its history and the "
      "reading; the frame may give way where cloth comes tight unevenly: plan it as new cloth first, and go "
      "no hotter than that plan allows."};
  if (!old.hottest) out.push_back("Nobody knows how hot it has been: at any stage perhaps nothing more comes.");
  else if (std::any_of(more.begin(), more.end(), [](const MoreToCome& m) { return m.perhaps_nothing; }))
    out.push_back(
        fmt::format("Cloth gives its shrink once: up to {} perhaps nothing more comes. Hotter it comes to what new "
                    "cloth pulls there, less "
                    "up to a tenth.",
                    degrees_f(*old.hottest)));
  out.push_back(
      "Punch-test old cloth by its approved data first: cloth that has lost its strength is not tautened but "
      "replaced.");
  return out;
}

std::vector<std::string> patch_steps(const PatchIron& p, const OldCloth& surroundings) {
  std::vector<std::string> out{
      fmt::format("Cement the piece as the approved data say, flat and just not loose; let it dry."),
      fmt::format("Iron it first at {} (true sole temperature): there 39 of 40 such pieces pull no more than the cloth "
                  "round it, {}.",
                  degrees_f(p.begin), pull_both(surroundings.pull)),
      fmt::format("Let it cool, weigh it and its neighbours with the same lid and weight. While it sags more than they "
                  "do, go up by {:.0f} °F and "
                  "weigh again. Stop as soon as it sags as they do.",
                  step_of_patch)};
  out.push_back(
      p.reached ? fmt::format("That is likely near {}; there such pieces pull {}.", degrees_f(p.likely),
                              band_text(p.at_likely))
                : fmt::format("Never go above {}: there half of such pieces still pull less than the cloth round them.",
                              degrees_f(p.likely)));
  out.push_back("Keep the sole off the cloth round it: that has had its heat, and coats on it must not be ironed.");
  return out;
}

}  // namespace evenpull::viz
