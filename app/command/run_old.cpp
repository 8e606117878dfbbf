// old: cloth that was ironed before, and a piece let into it.
#include "app/command/commands.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/tap_readings.hpp"
#include "app/input/typed.hpp"
#include "app/output/json_number.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/quoted.hpp"
#include "app/text/units.hpp"
#include "app/text/version.hpp"
#include "sequencer/plan/bench_check.hpp"
#include "shop/old_cloth.hpp"
#include "shop/tap.hpp"
#include "solver/statement/errors.hpp"
#include "viz/sheet/old_slip.hpp"
#include "viz/words/print.hpp"
#include "viz/words/terminal_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace evenpull {
namespace {

constexpr Range old_pull_range{5, 3000, "usually 100 to 900 N/m (0.6 to 5 lb/in)"};
constexpr Range seen_range{300, 480, "usually 200 to 350 degF"};
constexpr double stated_pull_off = 0.15;  // one sigma of the logarithm, of a pull that somebody states (judgement)
constexpr double best_of_sags = 0.05;     // however many bays were read: weight, lid and form are shared (judgement)
constexpr double sigmas_to_an_end = 1.96;

// The pull of one bay, with what it may be off by.
OldCloth of_sag(const std::string& text, const Case& c, const Panel& panel) {
  const SagReading r = read_sag(text, panel);
  const auto field = free_field(panel, r.side, r.bay);
  const auto refuse = [&](const char* why) {
    throw CaseFileError("--sag", {}, "", fmt::format("{} {}", in_quotes(text), why));
  };
  if (!field) refuse("names a bay without free cloth amid it: weigh another one");
  BayTone bay;
  bay.field = *field;
  bay.pull_chord = bay.pull_span = 1;  // what it shares out alike, since nobody knows better
  TapData d;
  d.stiffness = std::max(c.cloth.stiffness.warp, c.cloth.stiffness.fill);
  d.disc = check_disc;
  d.sag_off = c.wanted.sag_reading;
  const SagRead read = pull_from_sag(bay, r, d);
  if (read.trouble == SagRead::Trouble::too_small_for_disc)
    refuse("names a bay too small for the lid: weigh another one");
  if (!read.pull) refuse("is so deep that the cloth stretches instead: take a smaller weight");
  return {read.pull->middle, std::log(read.pull->high / read.pull->low) / (2 * sigmas_to_an_end), {}};
}

OldCloth cloth_of(const OldRequest& q, const Case& c) {
  if (q.pull.empty() == q.sags.empty())
    throw CaseFileError("evenpull old", {}, "",
                        "needs the pull that the cloth has now: give --sag \"top, bay 2: 1 kg = 3.1 mm\", once a bay, "
                        "or --pull, not both");
  OldCloth out;
  if (!q.pull.empty()) {
    out.pull = Typed("--pull", q.pull).quantity(Quantity::force_per_width, old_pull_range), out.off = stated_pull_off;
  } else {
    const Panel panel = build_panel(c, {c.target_nodes});
    double logs = 0, squares = 0, least = 1e300, most = 0, widest = 0;
    for (const std::string& text : q.sags) {
      const OldCloth one = of_sag(text, c, panel);
      logs += std::log(one.pull), squares += one.off * one.off;
      least = std::min(least, one.pull), most = std::max(most, one.pull), widest = std::max(widest, one.off);
    }
    const auto n = static_cast<double>(q.sags.size());
    constexpr double apart = 3;  // of the widest error: such bays are not one cloth
    if (std::log(most / least) > apart * widest)
      throw CaseFileError(
          "--sag", {}, "",
          fmt::format("the bays pull too unlike ({:.0f} to {:.0f} N/m) to be taken as one: ask of each by itself",
                      least, most));
    out.pull = std::exp(logs / n);
    out.off = std::max(best_of_sags, std::sqrt(squares) / n);
  }
  if (!q.seen.empty()) out.hottest = Typed("--seen", q.seen).quantity(Quantity::temperature, seen_range);
  return out;
}

enum class OldCoats { none, on, not_known };
OldCoats coats_of(const std::string& word) {
  const std::string plain = plain_word(word);
  if (plain == "none") return OldCoats::none;
  if (plain == "on") return OldCoats::on;
  if (plain == "not known") return OldCoats::not_known;
  throw CaseFileError("--coats", {}, "", in_quotes(word) + " is not known; say none, on, or \"not known\"");
}

Json old_json(const OldSlip& slip, const OldCloth* old, const std::vector<MoreToCome>& more,
              const std::optional<PatchIron>& patch) {
  auto stages = Json::array();
  for (const MoreToCome& m : more)
    stages.push_back({{"stage_degF", json_number(to_degF(m.temperature), "stage")},
                      {"pull_N_per_m", json_number(m.pull.median, "pull")},
                      {"low_N_per_m", json_number(m.pull.low, "low")},
                      {"high_N_per_m", json_number(m.pull.high, "high")},
                      {"perhaps_nothing_more", m.perhaps_nothing}});
  Json j;
  j["format"] = 1;
  j["program"] = std::string("evenpull ") + version();
  j["title"] = slip.title;
  j["to_be_ironed"] = old != nullptr;
  j["pull_now_N_per_m"] = old ? json_number(old->pull, "now") : Json(nullptr);
  j["stages"] = stages;
  j["patch"] = patch ? Json({{"begin_degF", json_number(to_degF(patch->begin), "begin")},
                             {"likely_degF", json_number(to_degF(patch->likely), "likely")},
                             {"reached", patch->reached}})
                     : Json(nullptr);
  j["in_words"] = slip.steps.empty() ? slip.notes : slip.steps;
  return j;
}

std::string old_summary(const OldSlip& slip, const std::string& folder) {
  std::string text = slip.name + ": " + on_one_line(slip.title) + "\n\n  " + slip.headline + "\n";
  for (const std::string& w : slip.warnings) text += "  " + wrap_text(w, 2) + "\n";
  if (!slip.rows.empty())
    text += fmt::format("\n    {:<12}{:<34}{}\n", "ironed at", "pulls then, likely", "95 of 100 between");
  for (const viz::MoreRow& r : slip.rows) text += fmt::format("    {:<12}{:<34}{}\n", r.stage, r.likely, r.range);
  text += "\n";
  int n = 0;
  for (const std::string& s : slip.steps) text += fmt::format("  {}. ", ++n) + wrap_text(s, 5) + "\n";
  for (const std::string& s : slip.notes) text += "  - " + wrap_text(s, 4) + "\n";
  return text + "\n  Slip to print: " + folder + "/old.pdf\n";
}

}  // namespace

void run_old(const Request& r, std::ostream& out) {
  const Case c = read_case_file(r.case_file).value;
  const OldCoats coats = coats_of(r.old.coats);
  OldSlip slip;
  slip.name = r.old.patch ? "A patch" : "Cloth ironed before";
  slip.title = c.title;
  OldCloth old;
  std::vector<MoreToCome> more;
  std::optional<PatchIron> patch;
  // Coats round a patch stay cold; under the iron they bar it.
  const bool barred = coats != OldCoats::none && !r.old.patch;
  if (barred) {
    slip.headline = "DO NOT IRON";
    slip.warnings = viz::coated_sentences(coats == OldCoats::on);
  } else {
    old = cloth_of(r.old, c);
    slip.headline = (r.old.patch ? "Round it the cloth pulls " : "It pulls now ") + viz::pull_now_text(old);
    try {
      if (r.old.patch) {
        patch = patch_iron(c, old);
        slip.steps = viz::patch_steps(*patch, old);
      } else {
        more = more_to_come(c, old);
        for (const MoreToCome& m : more) slip.rows.push_back(viz::more_row(m));
        slip.notes = viz::more_notes(old, more);
      }
    } catch (const CaseError& e) {
      throw CaseFileError(r.case_file, {}, e.key, e.what());
    }
  }
  ResultFolder folder(result_folder_of(r), say_on_errors);
  const std::string document = json_text(old_json(slip, barred ? nullptr : &old, more, patch));
  const auto aside = folder.open();
  folder.write("old.json", document);
  folder.draw([&] { write_old_slip(slip, r.paper, version_and_commit(), (aside / "old.pdf").string()); });
  folder.publish();
  say(r, out, document, [&] { return old_summary(slip, shown_result_folder(r)); });
}

}  // namespace evenpull
