#include "viz/words/note_words.hpp"

#include "viz/words/frame_kinds.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/search_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

namespace evenpull::viz {

namespace {

std::string gain_text(const note::PassGain& g) {
  using What = note::PassGain::What;
  switch (g.what) {
    case What::full_light_unsolved: return "full passes only; with light ones no equilibrium was found.";
    case What::full_light_unlike: return "full passes only; light ones would come out too unlike with this iron.";
    case What::full_gains_little: return "full passes only; light ones gain too little for their time.";
    case What::light: break;
  }
  const std::string light = fmt::format("{} light pass{} first; ", g.light, g.light == 1 ? "" : "es");
  if (!g.use_without) return light + "without, no equilibrium was found.";
  if (g.stage_less_without) return light + "without, a stage less would hold.";
  return light + fmt::format("worst use on the way {:.2f}, without {:.2f}.", g.use, *g.use_without);
}

std::string labels(const Panel& p, const std::vector<int>& zones) {
  std::string s;
  for (const int z : zones) s += (s.empty() ? "" : ", ") + p.zones[static_cast<std::size_t>(z)].label;
  return s;
}

struct NoteSentence {
  const Plan& plan;
  const Case& c = plan.the_case;

  std::string operator()(const note::GivesWay& n) const {
    return fmt::format("The frame gives way at {}; nothing beyond that was computed.", stage_both(c, n.stage));
  }
  std::string operator()(const note::LiftsOff& n) const {
    return fmt::format(
        "Somewhere the cloth pulls away from a rib or the nose it should bear on ({:.2f} N at one mesh point): the "
        "model holds it down there; look for cloth that lifts before lacing.",
        n.force);
  }
  std::string operator()(const note::FrameTurns& n) const {
    return fmt::format(
        "A joint of the frame turns by {:.2f} degrees where its members bend, more than the 0.5 degrees up to which "
        "the model's "
        "small rotations are good. That is no twist of the panel, which is read between its end ribs.",
        degrees_of_arc(n.angle));
  }
  std::string operator()(const note::TipFullness& n) const {
    return fmt::format(
        "The curved tip has {:.1f} % of fullness in its fullest line, which must be shrunk out there before it "
        "carries pull.",
        100 * n.share);
  }
  std::string operator()(const note::ThinnerBetweenRibs& n) const {
    const ThicknessLoss& l = n.loss;
    return fmt::format(
        "Pulled both ways, the fabric cannot follow the profile between the ribs: there it is thinner by up to {}, "
        "{:.0f} % of its thickness (bay {}, {:.0f} % of the chord; top {}, bottom {}).",
        small_length_both(l.loss), 100 * l.share(), l.bay + 1, 100 * l.chord_fraction, small_length_both(l.top),
        small_length_both(l.bottom));
  }

  std::string operator()(const note::WiresPull& n) const { return wires_told(c, n.wires); }
  std::string operator()(const note::WingGoesOn&) const { return neighbour_taken_for(c); }

  std::string operator()(const note::BarsDecide& n) const {
    std::string s = fmt::format(
        "Without its error bars the chosen order would hold up to {}; the bars are counted against it. "
        "\"Stages held\" compares orders without error bars.",
        stage_both(c, n.without));
    if (plan.accuracy == Accuracy::normal) s += " A run with --accuracy fine narrows the bars and may allow more.";
    return s;
  }
  std::string operator()(const note::GaveWayElsewhere& n) const {
    return fmt::format(
        "On another mesh, or with smaller zones, the frame gives way at {}: that stage counts as not safe.",
        stage_both(c, n.stage));
  }
  std::string operator()(const note::UnsolvedElsewhere& n) const {
    return fmt::format(
        "On another mesh, or with smaller zones, no equilibrium was found up to the end of {}: nobody knows how far "
        "off its numbers are, so that stage counts as not safe. Another mesh (mesh.nodes in the case) may be solved.",
        stage_both(c, n.stage));
  }
  std::string operator()(const note::LeftOut& n) const {
    std::string s = "No equilibrium was found in ";
    for (std::size_t i = 0; i < n.runs.size(); ++i)
      s += fmt::format("{}\"{}\"", i == 0 ? "" : ", ", run_text(c, n.runs[i]));
    return s + (n.runs.size() == 1 ? ": it was left out." : ": they were left out.");
  }
  std::string operator()(const note::ChancesUnsolved&) const {
    return "How sure the plan is was not computed: on the coarse mesh that would run through the ways the job may turn "
           "out no "
           "equilibrium was found for the order as planned.";
  }

  std::string operator()(const note::SteadyAgainstJumping& n) const {
    const std::string steady = number_text(n.steady_use, 2), jumping = number_text(n.jumping_use, 2);
    const std::string steady_spread = pull_both(n.steady_spread), jumping_spread = pull_both(n.jumping_spread);
    const bool alike = steady == jumping && steady_spread == jumping_spread;
    const bool worse = n.steady_use >= n.jumping_use && n.steady_spread >= n.jumping_spread;
    return fmt::format(
        "Working steadily from root to tip: worst use {}, pull spread along the span {}; jumping between "
        "the ends and the middle: {} and {} (coarse mesh). {}",
        steady, steady_spread, jumping, jumping_spread,
        alike   ? "On this panel it makes no difference."
        : worse ? "As the handbook advises, jumping is better."
                : "On this panel steady working is not worse by both measures.");
  }
  std::string operator()(const note::CoarseRankedOther& n) const {
    return fmt::format("The coarse mesh ranked \"{}\" first, a finer one did not; the plan follows the finer one.",
                       order_name(n.first));
  }
  std::string operator()(const note::KeepsShapeLess& n) const {
    return fmt::format(
        "\"{}\" would take {} turn-overs instead of {}, but in only {} of {} trials by these spreads did it keep "
        "within "
        "every limit of bow, twist and slip.",
        order_name(n.order), n.turn_overs, n.of_the_plan, n.kept, n.scenarios);
  }
  std::string operator()(const note::JointsNotStated& n) const {
    const std::string what =
        "The case does not say how all ribs and braces are joined. Where it does not they are computed rigid";
    if (!n.computed) return what + ". State `joints`.";
    const auto use = [](const std::optional<double>& u) {
      return u ? "use " + use_text(*u, 0) : "no balance, or the frame gives way,";
    };
    return fmt::format(
        "{}; the chances are drawn from joints that hardly hold to welded ones. At {}: {} with the softest, {} with "
        "the "
        "stiffest. State `joints`, and that doubt is gone.",
        what, stage_both(c, n.stage), use(n.softest), use(n.stiffest));
  }
  std::string operator()(const note::FewestTurnOvers& n) const {
    if (n.wanted < 1 && n.fewest == 1)
      return "A pass works both sides, so it has one turn-over at least: the orders with one in each pass were "
             "compared.";
    return fmt::format(
        "No order that was compared gets by with {} turn-over{} in every pass still to come; those with {}, the "
        "fewest, were compared.",
        n.wanted, n.wanted == 1 ? "" : "s", n.fewest);
  }
  std::string operator()(const note::TurnOversAgainstLoad&) const { return trade_sentence(plan.trade_offs); }
  std::string operator()(const note::HowGoodTheOrder&) const { return proof_sentence(plan); }
  std::string operator()(const note::PassesChosen& n) const {
    std::string text = "Passes chosen by trial on the coarse mesh.";
    for (const note::PassGain& g : n.stages) text += fmt::format(" {}: {}", stage_both(c, g.stage), gain_text(g));
    return text;
  }

  std::string operator()(const note::DoneGaveWay&) const {
    return "By this calculation the frame gives way in the steps that are done already.";
  }
  std::string operator()(const note::DoneOverLimit& n) const {
    return fmt::format(
        "The steps that are done have loaded the frame beyond a limit already (use {:.2f}, coarse mesh): inspect it "
        "before you go on.",
        n.use);
  }
  std::string operator()(const note::MustWait& n) const {
    return fmt::format("{} must not be ironed before {}: {}", plan.panel.zones[static_cast<std::size_t>(n.zone)].label,
                       labels(plan.panel, n.before),
                       n.unknown ? "no equilibrium was found for it any earlier, so nobody knows what it would do."
                                 : "it would load the frame too hard.");
  }
};

}  // namespace

std::string note_text(const Plan& plan, const Note& note) { return std::visit(NoteSentence{plan}, note); }

std::vector<std::string> note_sentences(const Plan& plan) {
  std::vector<std::string> list;
  for (const Note& n : plan.notes) list.push_back(note_text(plan, n));
  return list;
}

const char* bound_name(RibTie inner_ribs) {
  return inner_ribs == RibTie::free ? "inner ribs free" : "inner ribs glued";
}

const char* bound_name(JointEnd joints) {
  return joints == JointEnd::softest ? "joints at their softest" : "joints at their stiffest";
}

const char* bound_name(const BoundRun& run) {
  return run.joints ? bound_name(*run.joints) : bound_name(run.inner_ribs);
}

std::string run_text(const Case& c, const RunId& run) {
  using Kind = RunId::Kind;
  switch (run.kind) {
    case Kind::last_stage: return "the trial that says at which stage the job may end";
    case Kind::passes: {
      std::string doses;
      for (const double d : run.doses) doses += (doses.empty() ? " " : ", ") + fmt::format("{:.6g}", d);
      return fmt::format("passes at {} with doses{}", stage_both(c, run.stage), doses);
    }
    case Kind::search: return "the search for an order";
    case Kind::search_rest: return "the search for the rest of the pass";
    case Kind::coarse_order: return "coarse mesh: " + order_name(run.order);
    case Kind::between_order: return "half mesh: " + order_name(run.order);
    case Kind::full_order: return "full mesh: " + order_name(run.order);
    case Kind::error_bars: return fmt::format("error bars: mesh {}, zones in {}", run.fineness, run.zone_parts);
    case Kind::bound: return bound_name(run.inner_ribs);
    case Kind::joint_bound: return bound_name(run.joints);
    case Kind::setting: return "the hottest setting between the stages";
  }
  return "";
}

}  // namespace evenpull::viz
