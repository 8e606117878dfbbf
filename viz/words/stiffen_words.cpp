#include "viz/words/stiffen_words.hpp"

#include "viz/words/limit_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/weigh_words.hpp"
#include "viz/words/wording.hpp"
#include "viz/words/zone_names.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {
namespace {

std::string rib_word(int rib) { return fmt::format("rib {}", rib + 1); }

std::string ribs_word(const Candidate& k) {
  std::string text;
  for (const Batten& b : k.battens) text += (text.empty() ? "" : " and ") + rib_word(b.rib);
  return text;
}

std::string bays_word(const Candidate& k) {
  if (k.braces.size() != 1) return "every bay";
  return fmt::format("bay {}", k.braces.front().from_rib + 1);
}

std::string use_or_way(const Standing& s) { return s.gave_way ? "gives way" : number_text(s.use, 2); }

std::string borne_text(const Case& c, const std::optional<int>& stage) {
  return stage ? "bears " + degrees_f(c.stages[static_cast<std::size_t>(*stage)].temperature) : "bears no stage";
}

bool any(const Stiffening& s, Help help) {
  return std::any_of(s.ranked.begin(), s.ranked.end(),
                     [&](const Trial& t) { return help_of(s.before, t, *s.stage) == help; });
}

bool comes_out_in_vain(const Stiffening& s) {
  return std::any_of(s.ranked.begin(), s.ranked.end(), [&](const Trial& t) {
    return t.candidate.comes_out && help_of(s.before, t, *s.stage) == Help::nothing;
  });
}

// Small ones in ounces, which a tenth of a pound would hide.
std::string added_mass(double kilograms) {
  constexpr double small = 0.1;
  return kilograms < small ? small_mass_both(kilograms) : weight_both(kilograms);
}

// What a mass does about the hinge line: its moment in the units of a balance.
std::string moment_text(const AddedMass& m) {
  constexpr double newton = 9.80665;                     // N, what a kilogram weighs
  constexpr double pound_by_inch = 0.45359237 * 0.0254;  // kg m
  const double moment = std::abs(*m.behind_hinge) * m.mass;
  return fmt::format("{:.2f} lb·in ({:.3f} N·m)", moment / pound_by_inch, moment * newton);
}

}  // namespace

std::string stiffen_headline(const Stiffening& s) {
  if (!s.stage)
    return "Nothing to stiffen: in a first look it bears the hottest stage, " +
           stage_both(s.the_case, static_cast<int>(s.the_case.stages.size()) - 1);
  return "To bear " + stage_both(s.the_case, *s.stage);
}

std::string stiffen_because(const Stiffening& s) {
  if (!s.stage) return "Whether a stage is safe is for a plan to say.";
  if (s.bar.gave_way) return "Now the frame gives way: it buckles under the pull of the cloth.";
  if (!s.bar.over || (s.bar.over->use <= 1 && !s.bar.loose_zones.empty()))
    return "Now the cloth stays loose in " + zones_text(s.panel, s.bar.loose_zones) +
           ". Stiffening does not make it tight: look at cloth, looseness and passes.";
  const LimitReading& l = *s.bar.over;
  return fmt::format("{} {} ({}, {}): use {} of its limit{}.",
                     l.use > 1 ? "Now what stops it is" : "In a first look it holds; closest is", limit_text(l),
                     place_text(s.panel, l.where), moment_text(l.when), number_text(l.use, 2),
                     l.judgement ? ", which is engineering judgement" : "");
}

std::vector<std::string> stiffen_warnings(const Stiffening& s) {
  std::vector<std::string> out;
  if (!s.stage) return out;
  const double wanted = s.the_case.stages[static_cast<std::size_t>(*s.stage)].temperature;
  constexpr double same = 0.5;  // K
  if (s.the_case.approved_last_stage && wanted > *s.the_case.approved_last_stage + same)
    out.push_back(fmt::format("The approved data end at {}: go no hotter, whatever the frame would bear.",
                              degrees_both(*s.the_case.approved_last_stage)));
  if (!s.ranked.empty())
    out.emplace_back(
        "Whatever stays in alters the aircraft, and so does lighter cloth: its approved data and a licensed mechanic "
        "come first. What hangs behind a hinge line may ask for balancing anew.");
  return out;
}

std::vector<std::string> stiffen_notes(const Stiffening& s, const std::string& case_file) {
  std::vector<std::string> out;
  if (!s.stage) return out;
  if (s.setting)
    out.push_back(
        fmt::format("Without any stiffening a last stage of {} would hold as stated, where the approved data "
                    "allow it.",
                    degrees_both(*s.setting)));
  if (s.ranked.empty()) {
    if (s.bar.over && s.bar.over->use > 1)
      out.emplace_back("No stiffening is known here that lifts this limit: it hangs on order, friction and cloth.");
    return out;
  }
  if (!any(s, Help::bears))
    out.emplace_back(any(s, Help::helps) ? "None of these alone bears the stage; two together were not tried."
                                         : "None of these helps. Do not iron to that stage.");
  if (comes_out_in_vain(s))
    out.emplace_back(
        "What comes off before use helps mostly on the way: once it is off, the bare frame bears the pull that was "
        "ironed "
        "in. It was judged so.");
  const bool confirmed = std::any_of(s.ranked.begin(), s.ranked.end(), [](const Trial& t) { return t.confirmed; });
  out.push_back(confirmed
                    ? "The first lines were planned in full, error bars and chances counted; the others are first "
                      "looks, which are no verdict."
                    : "These are first looks, on a coarse mesh: no verdict. Plan the changed case before you "
                      "build anything.");
  out.push_back(
      fmt::format("To do so: evenpull stiffen {} --take N --into changed.toml, with the number from the list, "
                  "then evenpull plan changed.toml.",
                  case_file));
  const bool wood_stays = std::any_of(s.ranked.begin(), s.ranked.end(), [](const Trial& t) {
    return !t.candidate.comes_out && t.candidate.material && t.candidate.material->kind == Strength::rupture;
  });
  if (wood_stays)
    out.emplace_back(
        "Wood that stays gives more in time, about as much again; of battens and blocks that is not counted.");
  out.emplace_back(
      "Order of the list: what bears the stage first, then what helps; what comes out before what stays; then gain for "
      "cost. Sizes and costs are judgement. Battens are taken as clamped beside the member, blocks as pinned at both "
      "ends.");
  return out;
}

std::string candidate_text(const Case& c, const Candidate& k) {
  switch (k.kind) {
    case StiffenKind::bench_fixture: return "padded jaws on the bench, holding the trailing edge amid every bay";
    case StiffenKind::outside_batten: return "battens clamped along the outside of " + ribs_word(k);
    case StiffenKind::end_batten: return "battens along " + ribs_word(k) + " for good";
    case StiffenKind::outside_bridge:
    case StiffenKind::pocket_bridge:
      return fmt::format("a {}{}", k.braces.front().name, k.comes_out ? ", outside" : ", for good");
    case StiffenKind::bay_blocks: return "blocks from leading to trailing edge amid " + bays_word(k);
    case StiffenKind::edge_batten: return "a batten along the trailing edge, inside the cloth";
    case StiffenKind::rib_strip: return "a strip along the span through all ribs, near their middles";
    case StiffenKind::diagonals: return "diagonals from leading to trailing edge across the end bays";
    case StiffenKind::stiffer_rib: return rib_word(*k.rib) + " built anew in the next usual size";
    case StiffenKind::lighter_cloth:
      return fmt::format("lighter cloth, {:.1f} oz/yd² ({:.0f} g/m²) for {:.1f} oz/yd²",
                         ounces_per_square_yard(*k.areal_mass), 1000 * *k.areal_mass,
                         ounces_per_square_yard(c.cloth.areal_mass));
  }
  return "";
}

std::string candidate_size(const Case& c, const Candidate& k) {
  if (!k.material && !k.rib) return "";
  const SectionShape& s = k.section;
  const std::string material =
      k.material ? k.material->name
                 : c.materials[static_cast<std::size_t>(c.ribs[static_cast<std::size_t>(*k.rib)].make.material)].name;
  switch (s.kind) {
    case SectionShape::Kind::tube:
      return fmt::format("tube {} by {}, {}", print_length(s.outside_diameter), print_length(s.wall), material);
    case SectionShape::Kind::bar:
      return s.height > 0
                 ? fmt::format("{} across, {} upright, {}", print_length(s.width), print_length(s.height), material)
                 : fmt::format("{} across, {}", print_length(s.width), material);
    default: return fmt::format("sheet {}, {}", print_length(s.wall), material);
  }
}

std::string candidate_stay(const Candidate& k, const AddedMass& m) {
  if (k.comes_out) return "comes off before use";
  if (k.areal_mass) return "for good";
  std::string text = "stays: " + added_mass(m.mass) + (k.rib ? " more" : "");
  if (m.behind_hinge)
    text += fmt::format(", centred {} {} the hinge line: {}", length_both(std::abs(*m.behind_hinge)),
                        *m.behind_hinge < 0 ? "ahead of" : "behind", moment_text(m));
  return text;
}

std::string trial_text(const Stiffening& s, const Trial& t) {
  if (!t.after) return "could not be computed: no equilibrium was found";
  std::string text = fmt::format("use {} to {}, {}", use_or_way(s.before), use_or_way(*t.after),
                                 borne_text(s.the_case, t.after->bears));
  if (help_of(s.before, t, *s.stage) == Help::nothing) text += ": no help";
  if (t.confirmed)
    text += t.confirmed->bears
                ? "; planned in full: safe up to " +
                      degrees_f(s.the_case.stages[static_cast<std::size_t>(*t.confirmed->bears)].temperature)
                : "; planned in full: NO stage is safe";
  return text;
}

std::string worse_text(const Trial& t) {
  std::string text;
  for (const LimitUse& u : t.worse)
    text += fmt::format("{}{} (use {})", text.empty() ? "nearer by it: " : ", ", limit_text(u.limit),
                        number_text(u.use, 2));
  return text;
}

}  // namespace evenpull::viz
