#include "viz/words/push_words.hpp"

#include "sequencer/sure/frame_range.hpp"
#include "solver/frame/joint_turn.hpp"
#include "viz/words/joint_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace evenpull::viz {
namespace {

constexpr double of_95 = 1.959963984540054;  // sigmas
constexpr double hardly_told = 0.8;          // of a deviation before, above which the readings say next to nothing
constexpr double same_station = 1e-6;        // m
constexpr double coarse_reading = 0.1e-3;    // m: a dial gauge reads better
constexpr double pound = 0.45359237;         // kg

double position_of(double sigmas) { return 0.5 * std::erfc(-sigmas / std::sqrt(2.0)); }

// The rib at which a place of a span member lies; -1: none.
int rib_at(const Case& c, const FramePlace& p) {
  for (std::size_t r = 0; r < c.ribs.size(); ++r)
    if (!p.on_rib && std::abs(c.ribs[r].station - p.at) < same_station) return static_cast<int>(r);
  return -1;
}

std::string times_range(double spread, const PushKnown& k) {
  return fmt::format("× {:.2f} ({:.2f} to {:.2f})", std::exp(spread * k.mean), std::exp(spread * k.low),
                     std::exp(spread * k.high));
}

std::string group_word(MemberGroup g) {
  switch (g) {
    case MemberGroup::edges: return "edges";
    case MemberGroup::spars: return "spars";
    case MemberGroup::ribs: break;
  }
  return "ribs and braces";
}

// Share by which a support's give is off at so many sigmas: as the chances draw it.
double give_times(const Case& c, double sigmas) {
  for (const bool ironed : {true, false}) {
    const std::vector<Support>& stated = ironed ? c.while_ironed : c.in_use;
    for (std::size_t s = 0; s < stated.size(); ++s) {
      if (stated[s].give <= 0) continue;
      std::vector<double> z(static_cast<std::size_t>(numbers_of_frame(c)), 0);
      z.back() = sigmas;
      Case drawn = c;
      draw_frame(drawn, z.data());
      return (ironed ? drawn.while_ironed : drawn.in_use)[s].give / stated[s].give;
    }
  }
  return 1;
}

std::string ribs_text(const std::vector<int>& ribs, const Case& c) {
  if (ribs.size() == c.ribs.size()) return "ribs";
  std::string text = ribs.size() == 1 ? "rib " : "ribs ";
  for (std::size_t i = 0; i < ribs.size(); ++i) text += (i ? ", " : "") + std::to_string(ribs[i] + 1);
  return text;
}

std::string owner_text(const SectionOwner& o, const Case& c) {
  switch (o.what) {
    case SectionOwner::What::span_member: return c.span_members[static_cast<std::size_t>(o.which)].name;
    case SectionOwner::What::ribs: return ribs_text(o.ribs, c);
    case SectionOwner::What::tip_bow: return "tip bow";
    case SectionOwner::What::brace: break;
  }
  return c.braces[static_cast<std::size_t>(o.which)].name;
}

std::string size_word(PushSuspect::Size s) {
  switch (s) {
    case PushSuspect::Size::diameter: return "diameter";
    case PushSuspect::Size::wall: return "wall or sheet";
    case PushSuspect::Size::width: return "width";
    case PushSuspect::Size::height: break;
  }
  return "height";
}

std::string suspect_text(const PushSuspect& s, const Case& c, Held held) {
  if (!s.support)
    return fmt::format("{}: {} of {} instead of {} would", owner_text(s.owner, c), size_word(s.size),
                       print_length(s.instead), print_length(s.stated));
  const auto& set = held == Held::while_ironed ? c.while_ironed : c.in_use;
  const Support& support = set[static_cast<std::size_t>(s.which_support)];
  return fmt::format("the support of the {} {}: if it gave {} under 1 kg it would",
                     c.span_members[static_cast<std::size_t>(support.member)].name,
                     support.whole_length ? "along its length" : "at " + print_length(support.station),
                     small_length_both(gravity * s.give));
}

std::string joints_name(JointKind k) { return fmt::format("joints ({})", joint_word(k)); }

std::string factor_name(const PushFactor& f) {
  switch (f.what) {
    case PushFactor::What::all_members: return "stiffness of the members";
    case PushFactor::What::group: return "stiffness of " + group_word(f.group);
    case PushFactor::What::joints: return joints_name(f.joint);
    case PushFactor::What::supports: break;
  }
  return "give of the supports";
}

std::string act_word(JointsAct a) {
  switch (a) {
    case JointsAct::pinned: return "pinned";
    case JointsAct::between: return "between pinned and rigid";
    case JointsAct::rigid: return "rigid";
    case JointsAct::unclear: break;
  }
  return "not told";
}

JointsAct act_of(const Case& c, const Panel& p, JointKind k, double low, double high) {
  return joints_act(alpha_of_joints(c, p, k, low), alpha_of_joints(c, p, k, high));
}

std::string alpha_range(const Case& c, const Panel& p, JointKind k, double low, double high) {
  return fmt::format("{} to {}", print_number(alpha_of_joints(c, p, k, low), 2),
                     print_number(alpha_of_joints(c, p, k, high), 2));
}

std::string joints_sentence(const Case& c, const Panel& p, const PushFactor& f, const PushKnown& k) {
  const JointsAct before = act_of(c, p, f.joint, -of_95, of_95), now = act_of(c, p, f.joint, k.low, k.high);
  const std::string name = joints_name(f.joint);
  if (before != JointsAct::unclear)
    return fmt::format("The {} act {} by how they are made; the readings place them within that.", name,
                       act_word(before));
  if (now == JointsAct::unclear)
    return fmt::format(
        "The {}: the readings do not say whether they act pinned or rigid. Hang more weight, or read with a dial "
        "gauge.",
        name);
  return fmt::format("The {} act {}: so say the readings (95 %).", name, act_word(now));
}

}  // namespace

std::string frame_place_text(const Case& c, const FramePlace& p) {
  if (p.on_rib) return fmt::format("rib {}, {}", p.which + 1, print_length(p.at));
  const std::string& name = c.span_members[static_cast<std::size_t>(p.which)].name;
  const int rib = rib_at(c, p);
  return rib >= 0 ? fmt::format("{}, rib {}", name, rib + 1) : fmt::format("{}, {}", name, print_length(p.at));
}

std::string typed_place_text(const Case& c, const FramePlace& p) {
  if (p.on_rib) return fmt::format("rib {}, {} mm", p.which + 1, print_number(1e3 * p.at));
  const std::string& name = c.span_members[static_cast<std::size_t>(p.which)].name;
  const int rib = rib_at(c, p);
  return rib >= 0 ? fmt::format("{}, rib {}", name, rib + 1) : fmt::format("{}, {} mm", name, print_number(1e3 * p.at));
}

std::string push_weight_text(double kilograms) {
  return kilograms < 1 ? weight_both(kilograms)
                       : fmt::format("{} lb ({} kg)", print_number(kilograms / pound, 2), print_number(kilograms, 3));
}

std::string push_movement_text(double down) {
  return down < 0 ? small_length_both(-down) + " up" : small_length_both(down);
}

std::string expected_movement_text(double down, double low, double high) {
  return fmt::format("{} in, {} mm ({} to {})", number_text(inches(down), 2), number_text(1e3 * down, 1),
                     number_text(1e3 * low, 1), number_text(1e3 * high, 1));
}

std::string push_held_text(Held held) { return held == Held::while_ironed ? "as for ironing" : "as in use"; }

JointsAct joints_act(double low, double high) {
  if (high <= pinned_alpha) return JointsAct::pinned;
  if (low >= rigid_alpha) return JointsAct::rigid;
  return low > pinned_alpha && high < rigid_alpha ? JointsAct::between : JointsAct::unclear;
}

double alpha_of_joints(const Case& c, const Panel& p, JointKind kind, double sigmas) {
  const double at = position_of(sigmas);
  const int ribs = static_cast<int>(c.ribs.size()) - (c.tip_bow ? 1 : 0);
  for (int r = 0; r < ribs; ++r)
    for (const bool front : {true, false}) {
      const Rib& rib = c.ribs[static_cast<std::size_t>(r)];
      const JointMake& j = front ? rib.front_joint : rib.rear_joint;
      if (j.kind == kind) return alpha_at(turn_of(j, joined_rib(c, p, r, front)).up, at);
    }
  for (int b = 0; b < static_cast<int>(c.braces.size()); ++b)
    for (const bool first : {true, false}) {
      const Brace& brace = c.braces[static_cast<std::size_t>(b)];
      const JointMake& j = first ? brace.from_joint : brace.to_joint;
      if (j.kind == kind) return alpha_at(turn_of(j, joined_brace(c, p, b, first)).up, at);
    }
  return 0;
}

PushFactorRow push_factor_row(const Case& c, const Panel& p, const PushFactor& f, const PushKnown& k) {
  const PushKnown before{0, 1, -of_95, of_95};
  if (f.what == PushFactor::What::joints)
    return {factor_name(f), alpha_range(c, p, f.joint, before.low, before.high),
            alpha_range(c, p, f.joint, k.low, k.high)};
  if (f.what == PushFactor::What::supports) {
    const auto text = [&](const PushKnown& of) {
      return fmt::format("× {:.2f} ({:.2f} to {:.2f})", give_times(c, of.mean), give_times(c, of.low),
                         give_times(c, of.high));
    };
    return {factor_name(f), text(before), text(k)};
  }
  return {factor_name(f), times_range(c.spreads.member_stiffness, before), times_range(c.spreads.member_stiffness, k)};
}

std::vector<std::string> push_factor_sentences(const Case& c, const Panel& p, const std::vector<PushFactor>& factors,
                                               const PushAnswer& a) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < factors.size(); ++i) {
    if (factors[i].what == PushFactor::What::joints) out.push_back(joints_sentence(c, p, factors[i], a.factors[i]));
    else if (a.factors[i].deviation > hardly_told)
      out.push_back(fmt::format("The readings say next to nothing of the {}.", factor_name(factors[i])));
  }
  out.push_back(
      "Stiffness of joints is given over that of the member that ends in them (E I/L), up and down: up to 0.5 "
      "counts as pinned, from 8 as rigid. All ranges: 95 of 100.");
  return out;
}

std::vector<std::string> push_misfit_sentences(const Case& c, const Panel& p, Held held, const PushAnswer& a,
                                               const std::vector<PushSuspect>& suspects, int most_telling) {
  if (a.agrees()) return {};
  std::vector<std::string> out;
  out.push_back(
      "The readings do not go with the case, whatever members and joints are within their spreads: something is read "
      "or stated wrongly, or a support gives. Nothing is written into a case from them.");
  out.push_back(
      fmt::format("Read again, with another weight, before anything else. The readings answer most to the {}: measure "
                  "its section first.",
                  p.members[static_cast<std::size_t>(most_telling)].name));
  if (suspects.empty())
    out.push_back(
        "No single size that is sold near the stated one, and no single support that gives, would explain them.");
  for (const PushSuspect& s : suspects)
    out.push_back("A hint, no finding. " + suspect_text(s, c, held) + " explain them.");
  return out;
}

std::vector<std::string> push_choice_sentences(const Case& c, const PushChoice& choice, double reading_off) {
  std::vector<std::string> out;
  std::string little;
  for (std::size_t i = 0; i < choice.factors.size(); ++i) {
    const PushFactor& f = choice.factors[i];
    const double left = choice.deviation_after[i];
    if (left > hardly_told) little += (little.empty() ? "the " : ", the ") + factor_name(f);
    else if (f.what == PushFactor::What::all_members || f.what == PushFactor::What::group)
      out.push_back(fmt::format("The {} will be known to ± {:.0f} % (now ± {:.0f} %; 95 of 100).", factor_name(f),
                                100 * of_95 * left * c.spreads.member_stiffness,
                                100 * of_95 * c.spreads.member_stiffness));
    else
      out.push_back(
          fmt::format("The {} will be known to {:.0f} % of the range that they have now.", factor_name(f), 100 * left));
  }
  if (!little.empty()) out.push_back(fmt::format("These weights tell little of {}.", little));
  const bool small = std::any_of(choice.pushes.begin(), choice.pushes.end(),
                                 [](const ChosenPush& push) { return push.reads.front().down < least_push_movement; });
  const std::string say_so = reading_off > coarse_reading ? " and say what it is good to: --gauge \"0.03 mm\"" : "";
  if (small) out.push_back("Under 0.08 in (2 mm) read with a dial gauge" + say_so + ".");
  else if (!little.empty() && !say_so.empty()) out.push_back("A dial gauge tells more: take one" + say_so + ".");
  return out;
}

std::vector<std::string> push_how_to_sentences(Held held, double reading_off) {
  return {fmt::format("No cloth; held {}, top up. Counted from the inboard end, on a rib from its front.",
                      push_held_text(held)),
          "Soft strap. Gauge on the bench, zero without the weight; it must go back to zero. Mean of three.",
          fmt::format("A reading counts as good to {}.", print_length(reading_off)),
          "If it creaks or creeps, stop: by this model no member bears more than a tenth of what it may."};
}

}  // namespace evenpull::viz
