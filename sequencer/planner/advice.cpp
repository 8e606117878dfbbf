#include "sequencer/planner/advice.hpp"

#include "sequencer/plan/temperature_text.hpp"
#include "sequencer/replay/loose_cloth.hpp"
#include "sequencer/sure/error_bars.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace evenpull {
namespace {

constexpr double degrees = 57.29577951308232;

// Beyond this a linear tie turns rotation into false pull (docs/model.md, section 5).
constexpr double small_turn = 0.5 / degrees;

// Cloth counts as lifting off a bearing above this nodal force [N]; below it is the whisper of loose cloth.
constexpr double lifting = 0.05;

// Below these a note would only be noise.
constexpr double worth_saying_fullness = 0.5e-3;
constexpr double worth_saying_sag = 0.25e-3;  // m

std::string fixed(double v, int digits) {
  std::ostringstream o;
  o.setf(std::ios::fixed);
  o.precision(digits);
  o << v;
  return o.str();
}

std::string small_length(double metres) {
  if (std::abs(metres) < 5e-5) metres = 0;  // no "-0.0"
  return fixed(metres / 0.0254, 2) + " in (" + fixed(metres * 1000, 1) + " mm)";
}

std::string use_text(const LimitReading& l, bool quick) {
  if (l.study.gave_way) return fixed(l.use, 2) + " with an error that is not known";
  return quick ? fixed(l.use, 2) : fixed(l.use, 2) + " \xC2\xB1 " + fixed(printed_bar(l.use, l.use_plus_minus), 2);
}

std::string closest(const StageVerdict& v, bool quick) {
  const LimitReading& l = governing(v.limits);
  std::string s = std::string(limit_text(l.limit)) + " (" + l.where + ", " + moment_text(l.when) + "): use " + use_text(l, quick) + " of its limit";
  if (l.judgement) s += ", which is engineering judgement";
  return s;
}

// Why a stage cannot be the last one; it starts with a space.
std::string what_stops(const Case& c, const Panel& p, const StageVerdict& v, bool quick) {
  const std::string at = " At " + temperature_text(c.stages[v.stage].temperature);
  if (v.buckled) return at + " the frame gives way: it buckles under the pull of the cloth.";
  if (v.limits.empty())
    return is_loose(v) ? at + " the work was done before this plan was made and is not judged; the cloth is not tight there." : "";
  std::string text = is_over(v) ? at + " what stops it is " + closest(v, quick) + "." : "";
  if (is_loose(v))
    text += text.empty() ? at + " the limits hold, but the cloth does not come tight: next to no pull in " +
                               zones_text(p, v.summary.loose_zones) + "."
                         : " The cloth is loose there, too.";
  return text;
}

// Where the job could have ended but for loose cloth that is the headline; loose cloth on the way is told where it comes
// tight.
void tell_loose(Advice& a, const Case& c, const Panel& p, const std::vector<StageVerdict>& stages,
                std::optional<int> ceiling) {
  const StageVerdict* loose = nullptr;
  bool could_end = false;
  for (const StageVerdict& v : stages) {
    if (ceiling && v.stage > *ceiling) break;
    const bool broken = breaks_history(v, true);
    const bool judged = !v.limits.empty();
    if (is_loose(v)) loose = &v, could_end = could_end || (judged && !broken);
    if (broken) break;
  }
  if (!loose) return;
  a.loose = loose_sentence(c, p, loose->summary);
  if (ceiling)
    a.loose += " Do not stop there: it is tight after " + temperature_text(c.stages[*ceiling].temperature) + ".";
  else if (could_end)
    a.loose_headline = "The cloth does not come tight";
}

}  // namespace

Advice advise(const Case& c, const Panel& p, const std::vector<StageVerdict>& stages, std::optional<int> ceiling,
              std::optional<double> setting, bool quick) {
  Advice a;
  const int last = static_cast<int>(c.stages.size()) - 1;
  const int next = ceiling ? *ceiling + 1 : 0;
  tell_loose(a, c, p, stages, ceiling);
  if (ceiling && stages[*ceiling].limits.empty())
    a.because = "Up to " + temperature_text(c.stages[*ceiling].temperature) +
                 " the work was done before this plan was made; what is past is not judged.";
  else if (ceiling)
    a.because = "Up to " + temperature_text(c.stages[*ceiling].temperature) +
                " every limit holds. Closest is " + closest(stages[*ceiling], quick) + ".";
  else
    a.because = a.loose_headline.empty() ? "No stage holds every limit." : "No stage can be the last one.";
  // Each stage beyond, up to the first that no hotter one can make good.
  for (int s = next; s < static_cast<int>(stages.size()); ++s) {
    a.because += what_stops(c, p, stages[s], quick);
    if (breaks_history(stages[s], true) || is_over(stages[s])) break;
  }
  if (setting)
    a.advice.push_back("Between the stages, " + temperature_text(*setting) +
                       " by thermometer would still pass. That is advice, not a step of this plan.");
  if (!a.loose_headline.empty())
    a.advice.push_back("Cloth that stays loose is no covering. Check the free shrink and the pull of your cloth, how loose it "
                       "lies and the passes of the case; a hotter stage or more full passes may be used only where the frame "
                       "bears them and the approved data allow it.");
  else if (!ceiling)
    a.advice.push_back("Do not iron this panel as it stands. A lighter cloth or a lower last stage may be used only where "
                       "the aircraft's approved data allow it.");
  if (!ceiling) {
    a.advice.push_back("Stop and ask the holder of the approved data and a licensed mechanic.");
  } else if (c.approved_last_stage && *c.approved_last_stage > c.stages[*ceiling].temperature + 0.5) {
    const std::string asked = "The approved data ask for " + temperature_text(*c.approved_last_stage);
    const bool computed = next < static_cast<int>(stages.size()) && c.stages[next].temperature <= *c.approved_last_stage + 0.5;
    a.advice.push_back(computed ? asked + ", which is hotter than this panel bears by this calculation: stop and ask before "
                                          "you iron."
                                : asked + ", which was not computed here: it is no stage of this case. Add that stage "
                                          "and plan again; until then stop and ask before you iron.");
  } else if (*ceiling < last && !c.approved_last_stage) {
    a.advice.push_back("Look up which last stage the aircraft's approved data ask for. If it is hotter than " +
                       temperature_text(c.stages[*ceiling].temperature) + ", stop and ask.");
  }
  if (next <= last && ceiling)
    a.advice.push_back("Bracing the frame while it is ironed helps on the way; it does not change what the frame must "
                       "bear when the bracing is off.");
  return a;
}

std::vector<std::string> notes_on(const Case& c, const Panel& p, const std::vector<StageVerdict>& stages,
                                  std::optional<int> ceiling) {
  std::vector<std::string> notes;
  const int last = ceiling.value_or(0);
  double lift = 0, turn = 0;
  ThicknessLoss sag;
  for (const StageVerdict& v : stages) {
    if (v.buckled)
      notes.push_back("The frame gives way at " + temperature_text(c.stages[v.stage].temperature) +
                      "; nothing beyond that was computed.");
    if (v.stage > last) continue;
    lift = std::max(lift, v.lift), turn = std::max(turn, v.frame_turn);
    if (v.summary.thickness_loss.loss > sag.loss) sag = v.summary.thickness_loss;
  }
  if (lift > lifting)
    notes.push_back("Somewhere the cloth pulls away from a rib or the nose it should bear on (" + fixed(lift, 2) +
                    " N at one mesh point): the model holds it down there; look for cloth that lifts before lacing.");
  if (turn > small_turn)
    notes.push_back("Part of the frame turns by " + fixed(turn * degrees, 2) +
                    " degrees, more than the 0.5 degrees up to which the model's small rotations are good.");
  if (p.fullness > worth_saying_fullness)
    notes.push_back("The curved tip has " + fixed(100 * p.fullness, 1) +
                    " % of fullness in its fullest line, which must be shrunk out there before it carries pull.");
  if (sag.loss > worth_saying_sag)
    notes.push_back("Pulled both ways, the fabric cannot follow the profile between the ribs: there it is thinner by up "
                    "to " + small_length(sag.loss) + ", " + fixed(100 * sag.share(), 0) + " % of its thickness (bay " +
                    std::to_string(sag.bay + 1) + ", " + fixed(100 * sag.chord_fraction, 0) + " % of the chord; top " +
                    small_length(sag.top) + ", bottom " + small_length(sag.bottom) + ").");
  return notes;
}

}  // namespace evenpull
