#include "viz/words/sign_off_words.hpp"

#include "viz/words/after_iron_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

namespace evenpull::viz {

std::string open_item_text(OpenItem item) {
  switch (item) {
    case OpenItem::no_plan: return "No plan was given: nothing shows how hot this frame may be ironed.";
    case OpenItem::first_look_only: return "The plan is a first look, which calls no stage safe.";
    case OpenItem::no_stage_safe: return "The plan calls no stage safe: nothing was to be ironed.";
    case OpenItem::no_log: return "No log was given: what was ironed and read is not shown.";
    case OpenItem::log_damaged: return "The log was changed or damaged: it counts only as far as it is whole.";
    case OpenItem::stopped: return "The log says STOP: see its sentences. Nothing goes on before somebody has looked.";
    case OpenItem::off_the_plan: return "The work went off the plan: plan the rest anew, or have it looked at.";
    case OpenItem::work_left: return "Zones of the plan are not worked yet.";
    case OpenItem::readings_left: return "Bays that the plan wants read are not read.";
    case OpenItem::work_again: return "Bays read more than their window: they are to be worked and read again.";
    case OpenItem::reading_outside: return "A reading is not within what was expected.";
    case OpenItem::no_reading: return "Nothing was read after the ironing: sags, bow, twist.";
    case OpenItem::hotter_than_adhesive:
      return "It was ironed hotter than the adhesive bears by its maker: every glue line must be looked at, and its "
             "maker asked.";
    case OpenItem::adhesive_not_stated:
      return "What heat the adhesive bears is not stated: ask its maker (adhesive.hottest).";
    case OpenItem::waiting_not_stated:
      return "The adhesive's waiting time before the iron is not stated: ask its maker (adhesive.waiting_time).";
    case OpenItem::below_approved_stage:
      return "It ended cooler than the approved data ask for, as the case states them: ask who holds them before it is "
             "coated.";
    case OpenItem::after_approved_stage:
      return "It was ironed hotter than the approved data ask for, as the case states them.";
  }
  return "";
}

std::string sign_off_headline(const std::vector<OpenItem>& open) {
  if (open.empty()) return "NOTHING IS OPEN ON PAPER. INSPECTION IS STILL TO COME";
  return open.size() == 1 ? "1 THING IS OPEN. NOT TO BE SIGNED YET"
                          : fmt::format("{} THINGS ARE OPEN. NOT TO BE SIGNED YET", open.size());
}

std::vector<std::vector<std::string>> planned_rows(const Case& c, const Adhesive& a, const PlanDigest& plan) {
  std::vector<std::vector<std::string>> out;
  out.push_back({plan.first_look ? "holds as stated up to (first look)" : "hottest safe stage",
                 plan.hottest_safe ? degrees_both(*plan.hottest_safe) : "NONE"});
  out.push_back({"order", plan.order});
  out.push_back({"approved data ask for",
                 c.approved_last_stage ? degrees_both(*c.approved_last_stage) : "not stated in the case"});
  out.push_back({"adhesive bears", a.hottest ? degrees_both(*a.hottest) : "not stated in the case"});
  out.push_back({"made by", plan.program});
  return out;
}

std::vector<std::string> inspection_list(const Case& c) {
  std::vector<std::string> out{
      "Approved data: cloth, adhesive, overlaps, last stage and attachment are those that they ask for",
      "Every glue line: no edge lifted, no void, full overlap",
      "Cloth: tight everywhere, no scorch, no glaze, no hole, no thread cut over an edge",
      "Frame: trailing edge, end ribs and hinge line straight; no twist beyond what the approved data allow; no kink "
      "or crack",
      "Cloth attached to ribs, tapes and drain holes as the approved data ask",
      "Hinges and horn move freely; no cloth or adhesive in a bearing or a gap"};
  if (!c.pockets.empty()) out.push_back("Tab in its pocket: gap all round, moves freely");
  if (coats_tauten(c)) out.push_back("The coats to come tauten: what they do to this frame nobody has computed");
  out.push_back("Balanced after the last coat by the approved data, on scales");
  return out;
}

std::vector<std::string> sign_off_lines() {
  return {"Ironed by, date",
          "Read by, date",
          "Thermometer, checked against",
          "Deviations and what was done about them",
          "",
          "Inspected by, licence, date",
          "Released by, licence, date"};
}

std::string sign_off_caution() {
  return "This page gathers what was planned, done and read. It releases nothing: what the approved data and a "
         "licensed mechanic say "
         "goes before it.";
}

}  // namespace evenpull::viz
