#include "viz/words/advice_words.hpp"

#include "sequencer/sure/error_bars.hpp"
#include "viz/words/glue_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/sure_words.hpp"
#include "viz/words/verdict_words.hpp"
#include "viz/words/wave_words.hpp"
#include "viz/words/wording.hpp"
#include "viz/words/zone_names.hpp"

#include <fmt/core.h>

namespace evenpull::viz {

namespace {

std::string use_of_its_limit(const LimitReading& l, bool quick) {
  const std::string use = number_text(l.use, 2);
  if (l.study.gave_way) return use + " with an error that is not known";
  if (joints_matter(l))
    return use + " ± " + number_text(printed_bar(l.use, l.use_plus_minus), 2) + ", " +
           number_text(l.use_of_worse_joints, 2) + " with the joints at the worse end of their range,";
  return quick ? use : use + " ± " + number_text(printed_bar(l.use, l.use_plus_minus), 2);
}

std::string reading_text(const Plan& plan, const LimitReading& l) {
  return fmt::format("{} ({}, {}): use {} of its limit{}", limit_text(l), place_text(plan.panel, l.where),
                     moment_text(l.when), use_of_its_limit(l, plan.quick()),
                     l.judgement ? ", which is engineering judgement" : "");
}

// It starts with a space.
std::string stop_text(const Plan& plan, const StageStop& s) {
  const std::string at = " At " + stage_both(plan.the_case, s.stage);
  const bool loose = !s.loose_zones.empty();
  if (const std::string lacking = lacking_text(plan, s.safety); !lacking.empty()) return " " + lacking;
  if (s.gave_way) return at + " the frame gives way: it buckles under the pull of the cloth.";
  if (!s.judged)
    return loose ? at + " the work was done before this plan was made and is not judged; the cloth is not tight there."
                 : "";
  std::string text = s.over ? at + " what stops it is " + reading_text(plan, *s.over) + "." : "";
  if (s.over && s.over->limit == Limit::crippling)
    text +=
        " A flat of thin sheet that kinks there stays kinked. Thicker sheet, shorter spacing of the ribs or a lower "
        "last "
        "stage keep it whole.";
  if (!loose) return text;
  return s.over ? text + " The cloth is loose there, too."
                : at + " the limits hold, but the cloth does not come tight: next to no pull in " +
                      zones_text(plan.panel, s.loose_zones) + ".";
}

// It starts with a space.
std::string finish_text(const Plan& plan) {
  for (const LimitReading& l : plan.limits)
    if (l.limit == Limit::unevenness && l.stage == plan.ceiling && l.use > 1)
      return fmt::format(" It ends less even than wanted: {} {}, {} wanted; that bars no stage.", limit_text(l.limit),
                         limit_value(l), limit_allowed(l));
  return "";
}

std::string up_to_text(const Plan& plan) {
  const Advice& a = plan.advice;
  switch (a.up_to) {
    case Advice::UpTo::holds:
      return fmt::format("Up to {} every limit of strength and shape holds. Closest is {}.{}",
                         stage_both(plan.the_case, plan.ceiling.value()), reading_text(plan, a.closest.value()),
                         finish_text(plan));
    case Advice::UpTo::done:
      return fmt::format("Up to {} the work was done before this plan was made; what is past is not judged.",
                         stage_both(plan.the_case, plan.ceiling.value()));
    case Advice::UpTo::none_is_sure: return "No stage is safe.";
    case Advice::UpTo::none_holds: return "No stage holds every limit of strength and shape.";
    case Advice::UpTo::none_can_be_last: return "No stage can be the last one.";
    case Advice::UpTo::coats_tauten:
      return "The case says that the coats to come tauten. They pull the cloth further after the iron, nobody has "
             "published by how much, and so nothing computed here says what the frame will bear.";
  }
  return "";
}

std::string way_there_text(const Plan& plan, const WayThere& w) {
  const std::string at = stage_both(plan.the_case, w.stage);
  std::string text =
      w.fails_on_the_way
          ? "At " + at + " the end would hold; what fails is passed through on the way, so the order matters."
          : "At " + at + " it is the end that is too much: no order helps there.";
  if (w.extra_stage)
    text += fmt::format(
        " Ironed once over at {} before, {} would hold (coarse mesh): add that stage to the case and plan again.",
        degrees_both(*w.extra_stage), at);
  return text;
}

struct AdviceSentence {
  const Plan& plan;

  std::string operator()(const advice::SettingBetween& a) const {
    return fmt::format(
        "Between the stages, {} by thermometer would still pass as stated; its chances were not studied. That is "
        "advice, not a step "
        "of this plan.",
        degrees_both(a.setting));
  }
  std::string operator()(const advice::StaysLoose&) const {
    return "Cloth that stays loose is no covering. Check the free shrink and the pull of your cloth, how loose it lies "
           "and the "
           "passes of the case; a hotter stage or more full passes may be used only where the frame bears them and the "
           "approved "
           "data allow it.";
  }
  std::string operator()(const advice::DoNotIron&) const {
    return "Do not iron this panel as it stands. A lighter cloth or a lower last stage may be used only where the "
           "aircraft's "
           "approved data allow it. The command evenpull stiffen tries what would let this frame bear a stage.";
  }
  std::string operator()(const advice::StopAndAsk&) const {
    return "Stop and ask the holder of the approved data and a licensed mechanic.";
  }
  std::string operator()(const advice::MeasureFirst& a) const {
    return fmt::format("What is lacking hangs most on the {}: measure that first, put it into the case and plan again.",
                       unsure_text(a.input));
  }
  std::string operator()(const advice::AskedTooHot& a) const {
    return fmt::format(
        "The approved data ask for {}, which is hotter than this panel bears by this calculation: stop and ask "
        "before you iron.",
        degrees_both(a.asked));
  }
  std::string operator()(const advice::AskedNotComputed& a) const {
    return fmt::format(
        "The approved data ask for {}, which was not computed here: it is no stage of this case. Add that stage "
        "and plan again; until then stop and ask before you iron.",
        degrees_both(a.asked));
  }
  std::string operator()(const advice::LookUpLastStage& a) const {
    return fmt::format(
        "Look up which last stage the aircraft's approved data ask for. If it is hotter than {}, stop and ask.",
        stage_both(plan.the_case, a.ceiling));
  }
  std::string operator()(const advice::BracingHelps&) const {
    return "Bracing the frame while it is ironed helps on the way; it does not change what the frame must bear when "
           "the "
           "bracing is off. The command evenpull stiffen tries what would help.";
  }
  std::string operator()(const advice::CoatsTauten&) const {
    return "With coats that tauten, public advice is not to iron to the hottest stage and to leave the rest to the "
           "coats (from memory): the holder of the approved data of cloth and coats says how far.";
  }
  std::string operator()(const advice::AdhesiveBearsLess& a) const {
    return adhesive_bears_sentence(a.bears, a.coolest);
  }
  std::string operator()(const advice::AddStage& a) const { return way_there_text(plan, a.way); }
};

}  // namespace

std::string because_text(const Plan& plan) {
  std::string text = up_to_text(plan);
  for (const StageStop& s : plan.advice.stops) text += stop_text(plan, s);
  if (plan.advice.way) text += " " + way_there_text(plan, *plan.advice.way);
  if (const std::string waves = waves_text(plan); !waves.empty()) text += " " + waves;
  return text;
}

std::vector<std::string> advice_sentences(const Plan& plan) {
  std::vector<std::string> list;
  for (const AdviceItem& item : plan.advice.items) list.push_back(std::visit(AdviceSentence{plan}, item));
  return list;
}

}  // namespace evenpull::viz
