#include "viz/words/clock_words.hpp"

#include "viz/words/attach_words.hpp"
#include "viz/words/glue_words.hpp"
#include "viz/words/time_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <cmath>

namespace evenpull::viz {
namespace {

constexpr long minutes_of_hour = 60, minutes_of_day = 24 * 60;
constexpr double seconds_of_minute = 60;

std::string coat_text(const ClockItem& i) {
  return fmt::format("coat {}, {} of glue line", i.count, area_both(i.amount));
}

std::string stage_of(const ClockItem& i) { return i.stage ? degrees_both(*i.stage) : ""; }

std::string wait_sentence(const ClockItem& i, const char* until) {
  return i.seconds
             ? fmt::format("Wait {} its maker's time has passed", until)
             : fmt::format("Wait {}: no time is stated, ask the adhesive's maker and write it here: ______", until);
}

std::string what_text(const Case& c, const ClockItem& i) {
  switch (i.part) {
    case JobPart::frame_check:
      return "Frame: straight, joints, corrosion, nothing sharp under cloth. Read bow and twist and write them down";
    case JobPart::cut:
      return c.blanket.kind == BlanketKind::full_wrap ? "Cut the cloth, one full wrap with its laps"
                                                      : "Cut the cloth, two sheets with their laps";
    case JobPart::pre_coat: return "Pre-coat the bare frame, " + coat_text(i);
    case JobPart::lay_in: return "Lay the cloth on and into the adhesive, " + coat_text(i);
    case JobPart::brush_through: return "Brush adhesive through the cloth, " + coat_text(i);
    case JobPart::wait_between: return wait_sentence(i, "before the next coat or the cloth until");
    case JobPart::wait_before_iron: return wait_sentence(i, "before the iron until");
    case JobPart::iron:
      return fmt::format("Thermometer on the sole. Iron at {} true sole temperature, by the sheet of the plan",
                         stage_of(i));
    case JobPart::turn_over:
      return fmt::format("Turn over on the way, {} at {}; fix it the same way, unstrained", times_text(i.count),
                         stage_of(i));
    case JobPart::cool_and_check:
      return fmt::format("Let it cool after {}. Read sags, bow, twist as the sheet asks. Go on only within its windows",
                         stage_of(i));
    case JobPart::ironing_not_planned: return "Ironing: not planned yet. Make the plan, then this list again";
    case JobPart::ironing_not_allowed: return "DO NOT IRON: the plan calls no stage safe. Stop and ask";
    case JobPart::attach_scheduled:
      return "Cloth cold. Fasten it as scheduled: " +
             attachment_text(c.attachments[static_cast<std::size_t>(i.attachment)]);
    case JobPart::attach_ribs:
      return fmt::format("Attach the cloth to {} inner {} as the approved data ask", i.count,
                         i.count == 1 ? "rib" : "ribs");
    case JobPart::tapes: return fmt::format("Tapes, {}", length_both(i.amount));
    case JobPart::inspection: return "Inspection by a licensed mechanic, before any coat";
    case JobPart::sign_off: return "Sign-off page (evenpull signoff), filled in by hand";
  }
  return "";
}

std::string length_text(const ClockItem& i) {
  if (i.part == JobPart::sign_off) return "";
  return i.seconds ? duration_text(*i.seconds) : "not known";
}

}  // namespace

std::string clock_text(const ClockItem& item, const std::optional<double>& start) {
  const long in = std::lround(item.begins / seconds_of_minute);
  const std::string after = item.known ? "" : "after ";
  if (!start) return fmt::format("{}+{}:{:02}", after, in / minutes_of_hour, in % minutes_of_hour);
  const long at = std::lround((*start + item.begins) / seconds_of_minute), day = at / minutes_of_day;
  const long within = at % minutes_of_day;
  return fmt::format("{}{}:{:02}{}", after, within / minutes_of_hour, within % minutes_of_hour,
                     day > 0 ? fmt::format(" day {}", day + 1) : "");
}

SlipCheck clock_check(const Case& c, const ClockItem& item, const std::optional<double>& start) {
  return {clock_text(item, start), what_text(c, item), length_text(item)};
}

std::string clock_headline(const std::vector<ClockItem>& items) {
  bool open = false;
  for (const ClockItem& i : items) open = open || !i.seconds;
  const std::string known = duration_text(known_seconds(items));
  return open ? "At least " + known + ", and what is not known" : "About " + known;
}

std::vector<std::string> clock_warnings(const Adhesive& a, ClockFrom from, bool no_stage) {
  std::vector<std::string> out;
  if (!a.waiting || !a.between)
    out.push_back(
        "A waiting time of the adhesive is not stated in the case (adhesive.waiting_time, adhesive.between_coats): ask "
        "its maker. "
        "What comes after it comes later than the clock says.");
  out.push_back("The clock does not know whether adhesive is dry: look and feel along every line before the iron.");
  if (from == ClockFrom::nothing) out.push_back("No plan was found: the hours of ironing are left open.");
  if (from == ClockFrom::first_look)
    out.push_back(
        "The hours of ironing are those of a first look, which calls no stage safe: plan in full before you iron.");
  if (from != ClockFrom::nothing && no_stage)
    out.push_back("By the plan no stage is safe: nothing of this list beyond gluing is to be done.");
  return out;
}

std::vector<std::string> clock_notes(const Finish& f) {
  std::vector<std::string> out{
      "Hours of ironing, turning and cooling are the plan's. All others are guesses that the case can replace (table "
      "[times])."};
  std::vector<DefaultUsed> taken;
  for (const DefaultUsed& d : f.taken)
    if (d.key.rfind("times.", 0) == 0) taken.push_back(d);
  if (const std::string text = taken_sentence(taken); !text.empty()) out.push_back(text);
  return out;
}

}  // namespace evenpull::viz
