#include "viz/words/weigh_words.hpp"

#include "viz/words/glue_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

namespace evenpull::viz {
namespace {

constexpr double ounce = 0.028349523125;    // kg, exactly
constexpr double gravity = 9.80665;         // m/s^2, exactly
constexpr double pound_inch = 0.112984829;  // N m
constexpr double sigmas_95 = 1.96;
// Cloth for covering light aircraft lies between these [kg/m^2]; from memory of what is sold.
constexpr double lightest_cloth = 0.045, heaviest_cloth = 0.15;

const char* part_name(WeighedPart p) {
  switch (p) {
    case WeighedPart::cloth: return "cloth, both sides";
    case WeighedPart::turned_cloth: return "laps and tucks";
    case WeighedPart::adhesive: return "adhesive, dry";
    case WeighedPart::tapes: return "tapes";
    case WeighedPart::coats: return "coats, dry";
  }
  return "";
}

bool states_loads(const Finish& f) { return f.tapes.has_value() && f.coats.has_value(); }

}  // namespace

std::string small_mass_both(double kg) { return fmt::format("{:.1f} oz ({:.0f} g)", kg / ounce, 1e3 * kg); }

std::string moment_both(double kg_m) {
  return fmt::format("{:+.2f} lb·in ({:+.3f} N·m)", kg_m * gravity / pound_inch, kg_m * gravity);
}

std::string mass_with_range(const Weighed& w) {
  return fmt::format("{:.1f} oz ({:.0f} ± {:.0f} g)", w.mass / ounce, 1e3 * w.mass, 1e3 * sigmas_95 * w.mass_off);
}

std::string moment_with_range(const Weighed& w) {
  if (!w.has_moment) return "not known";
  return fmt::format("{:+.2f} lb·in ({:+.3f} ± {:.3f} N·m)", w.moment * gravity / pound_inch, w.moment * gravity,
                     sigmas_95 * w.moment_off * gravity);
}

std::vector<WeighRow> weigh_rows(const CoveringWeight& now, const std::optional<Weighed>& old) {
  std::vector<WeighRow> out;
  const auto add = [&](const std::string& what, const Weighed& w) {
    out.push_back({what, mass_with_range(w), moment_with_range(w)});
  };
  for (const WeighedItem& i : now.items) add(part_name(i.part), i.weighed);
  add("ALL THAT IS NEW", now.all);
  if (!old) return out;
  add("old covering, weighed", *old);
  add("NEW LESS OLD", difference(now.all, *old));
  return out;
}

std::string weigh_headline(const CoveringWeight& now) { return "The new covering weighs " + mass_with_range(now.all); }

std::string hinge_line_sentence(const Case& c, const std::optional<HingeLine>& h) {
  if (!h)
    return "The case has no hinge line, so no moment is told: say hinge_line = true at a member, state two hinges in "
           "use on one, "
           "or name a member with --about.";
  const std::string& name = c.span_members[static_cast<std::size_t>(h->member)].name;
  return fmt::format(
      "Moments are about {} of {}; plus: it makes the trailing edge heavier.",
      h->between_hinges ? "the line through the outermost hinges" : "the line of the member from end to end", name);
}

std::vector<std::string> weigh_warnings(const Case& c, const Finish& f, const std::optional<Weighed>& old) {
  std::vector<std::string> out{
      "Balance of a control surface is flutter-critical. It belongs to the approved data and to a licensed mechanic, "
      "who weighs "
      "and balances the finished part. Nothing here shows that it is balanced."};
  if (c.cloth.areal_mass < lightest_cloth || c.cloth.areal_mass > heaviest_cloth)
    out.push_back(
        fmt::format("{:.0f} g/m² ({:.1f} oz/yd²) is no weight that cloth for this has, usually 55 to 130 g/m² (1.6 to "
                    "3.8 oz/yd²): weigh a piece again, and look at the unit.",
                    1e3 * c.cloth.areal_mass, ounces_per_square_yard(c.cloth.areal_mass)));
  if (!f.tapes) out.push_back("Tapes are not stated (table [tapes]) and not counted.");
  if (!f.coats)
    out.push_back(
        "Coats are not stated (table [coats], dry mass per area) and not counted: they often weigh more than the "
        "cloth.");
  if (old && !states_loads(f))
    out.push_back("So the new covering is not whole, and to set it beside the old one says little.");
  if (old && !old->has_moment)
    out.push_back(
        "Where the old covering's centre lay was not said (--old-at), so the change of the moment is not known.");
  return out;
}

std::vector<std::string> weigh_notes(const Adhesive& a, const Finish& f) {
  std::vector<std::string> out{
      "Of 100 such coverings 95 weigh within the ±. Not counted: lacing, rivets, rings, drain eyelets, paint on tapes "
      "beyond the "
      "coats. Put the finished part on scales.",
      "Where the centre of the old covering lay: lay it out flat as it sat, one side over the other, on a stiff sheet "
      "across a knife edge along the span."};
  std::vector<DefaultUsed> taken;
  for (const auto* list : {&a.taken, &f.taken})
    for (const DefaultUsed& d : *list)
      if (d.key.rfind("times.", 0) != 0) taken.push_back(d);
  if (const std::string text = taken_sentence(taken); !text.empty()) out.push_back(text);
  return out;
}

}  // namespace evenpull::viz
