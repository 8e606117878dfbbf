// stiffen: what would let the panel bear a hotter stage.
#include "app/command/commands.hpp"
#include "app/command/parallel.hpp"
#include "app/command/progress.hpp"
#include "app/input/case_parts.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/cloth_defaults.hpp"
#include "app/input/materials.hpp"
#include "app/output/json_number.hpp"
#include "app/output/new_file.hpp"
#include "app/output/result_folder.hpp"
#include "app/output/stiffen_edits.hpp"
#include "app/text/quoted.hpp"
#include "app/text/units.hpp"
#include "app/text/version.hpp"
#include "solver/equilibrium/mechanism.hpp"
#include "solver/statement/errors.hpp"
#include "viz/sheet/stiffen_sheet.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/part_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/stiffen_words.hpp"
#include "viz/words/terminal_text.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <cmath>
#include <ostream>

namespace evenpull {
namespace {

constexpr double stage_typed_off = 1.0;  // K: typed in the other scale it may differ by its rounding
constexpr std::size_t confirmed_in_full = 2;
constexpr int stiffen_format = 1;

UsualStock usual_stock() {
  const auto known = [](const char* name) { return find_material(name, 0)->values; };
  return {known("Sitka spruce"),
          known("6061-T6 tube"),
          known("4130 tube"),
          {cloth_defaults::class_mass.begin(), cloth_defaults::class_mass.end()}};
}

std::optional<int> stage_typed(const Request& r, const Case& c) {
  if (r.stiffen.stage.empty()) return {};
  double kelvin = 0;
  try {
    kelvin = Units().parse(r.stiffen.stage, Quantity::temperature);
  } catch (const UnitError& e) {
    throw CaseFileError("--stage", {}, "", fmt::format("{} {}", in_quotes(r.stiffen.stage), e.what()));
  }
  std::string known;
  for (std::size_t i = 0; i < c.stages.size(); ++i) {
    if (std::abs(c.stages[i].temperature - kelvin) <= stage_typed_off) return static_cast<int>(i);
    known += (known.empty() ? "" : ", ") + viz::degrees_both(c.stages[i].temperature);
  }
  throw CaseFileError("--stage", {}, "",
                      fmt::format("{} is no stage of the case, which has {}; name one of them, or add the stage to the "
                                  "case",
                                  in_quotes(r.stiffen.stage), known));
}

void refuse_tautening_coats(const CaseFile& file, const Request& r) {
  if (file.value.finish == FinishKind::tautening)
    throw CaseFileError(r.case_file, file.place_of("work.finish"), "work.finish",
                        "= \"tautening\": nobody has published by how much such coats pull, so that no stage can be "
                        "judged, stiffened or not; ask the holder of the approved data");
}

class Trying {
 public:
  Trying(const Request& r, const CaseFile& file)
      : request_(r), file_(file), bar_(!r.quiet), share_of_look_(r.stiffen.take ? 1.0 : first_look_share) {
    const int threads = r.threads.value_or(usual_threads());
    parallel_ = [threads](int n, const std::function<void(int)>& work) { parallel_for(n, work, threads); };
  }

  viz::Stiffening look() {
    PlanOptions options;
    options.accuracy = Accuracy::quick;
    options.parallel = parallel_;
    options.progress = [this](double share, PlanPart part) { bar_.show(share_of_look_ * share, viz::part_text(part)); };
    viz::Stiffening s;
    s.the_case = file_.value;
    const std::optional<int> typed = stage_typed(request_, file_.value);
    check_stands(file_.value);  // in the words of the survey
    const Plan plan = make_plan(file_.value, options);
    const int next = plan.ceiling.value_or(-1) + 1;
    s.chosen = typed.has_value();
    if (typed) s.stage = typed;
    else if (next < static_cast<int>(file_.value.stages.size())) s.stage = next;
    s.panel = plan.panel;
    s.setting = plan.setting;
    if (!s.stage) return s;
    s.before = standing_of(plan, *s.stage);
    s.bar = bar_of(plan, *s.stage);
    return s;
  }

  void tries(viz::Stiffening& s, const std::vector<Candidate>& candidates) {
    TrialOptions options;
    options.parallel = parallel_;
    const double upto = request_.stiffen.thorough ? quick_share : 1.0;
    options.progress = [this, upto](double share) {
      bar_.show(first_look_share + (upto - first_look_share) * share, "trying each way");
    };
    s.ranked = try_candidates(file_.value, candidates, s.before, *s.stage, options);
    rank(s.ranked, s.before, *s.stage);
    if (!request_.stiffen.thorough) return;
    options.accuracy = Accuracy::normal;
    options.progress = [this](double share) {
      bar_.show(quick_share + (1 - quick_share) * share, "planning the best in full");
    };
    confirm(file_.value, s.ranked, confirmed_in_full, *s.stage, options);
  }

  void finish() { bar_.finish(); }

 private:
  static constexpr double first_look_share = 0.15, quick_share = 0.3;  // of the time it all takes, roughly
  const Request& request_;
  const CaseFile& file_;
  Progress bar_;
  double share_of_look_;
  ParallelFor parallel_;
};

StiffenSheet sheet_of(const viz::Stiffening& s, const Request& r) {
  StiffenSheet out;
  out.title = s.the_case.title;
  out.headline = viz::stiffen_headline(s);
  out.because = viz::stiffen_because(s);
  out.warnings = viz::stiffen_warnings(s);
  out.notes = viz::stiffen_notes(s, shown_file(r.case_file));
  for (const FrameMember& m : s.panel.members)
    for (std::size_t i = 1; i < m.joints.size(); ++i) {
      const auto &a = s.panel.joints[static_cast<std::size_t>(m.joints[i - 1])].position,
                 &b = s.panel.joints[static_cast<std::size_t>(m.joints[i])].position;
      const bool edge = m.role == MemberRole::leading_edge || m.role == MemberRole::trailing_edge ||
                        m.role == MemberRole::end_rib || m.role == MemberRole::tip_bow;
      out.panel.push_back({a.x(), a.y(), b.x(), b.y(), edge});
    }
  for (const Trial& t : s.ranked) {
    StiffenRow row;
    row.number = t.candidate.number;
    row.comes_out = t.candidate.comes_out;
    row.what = viz::candidate_text(s.the_case, t.candidate);
    row.size = viz::candidate_size(s.the_case, t.candidate);
    row.stay = viz::candidate_stay(t.candidate, t.added);
    row.result = viz::trial_text(s, t);
    row.worse = viz::worse_text(t);
    row.before = s.before.gave_way ? 0 : s.before.use;
    row.after = t.after && !t.after->gave_way ? t.after->use : 0;
    for (const PlanPiece& p : pieces_of(s.the_case, t.candidate)) row.pieces.push_back({p.x0, p.y0, p.x1, p.y1});
    out.rows.push_back(std::move(row));
  }
  return out;
}

Json stage_or_null(const Case& c, const std::optional<int>& stage) {
  return stage ? json_number(to_degF(c.stages[static_cast<std::size_t>(*stage)].temperature), "stage") : Json(nullptr);
}

Json standing_json(const Case& c, const Standing& s) {
  auto limits = Json::array();
  for (const LimitUse& u : s.limits)
    if (!s.gave_way) limits.push_back({{"limit", viz::limit_text(u.limit)}, {"use", json_number(u.use, "limits.use")}});
  return {{"bears_degF", stage_or_null(c, s.bears)},
          {"gave_way", s.gave_way},
          {"use", s.gave_way ? Json(nullptr) : json_number(s.use, "use")},
          {"limits", limits}};
}

const char* help_word(Help h) {
  switch (h) {
    case Help::bears: return "bears the stage";
    case Help::helps: return "helps";
    case Help::nothing: return "no help";
    case Help::unknown: break;
  }
  return "not computed";
}

Json trial_json(const viz::Stiffening& s, const Trial& t) {
  auto worse = Json::array();
  for (const LimitUse& u : t.worse)
    worse.push_back({{"limit", viz::limit_text(u.limit)}, {"use", json_number(u.use, "worse.use")}});
  const Case& c = s.the_case;
  return {{"number", t.candidate.number},
          {"what", viz::candidate_text(c, t.candidate)},
          {"size", viz::candidate_size(c, t.candidate)},
          {"comes_out", t.candidate.comes_out},
          {"mass_kg", json_number(t.added.mass, "mass")},
          {"centre_m", {json_number(t.added.centre[0], "centre"), json_number(t.added.centre[1], "centre")}},
          {"behind_hinge_line_m",
           t.added.behind_hinge ? json_number(*t.added.behind_hinge, "behind_hinge") : Json(nullptr)},
          {"help", help_word(help_of(s.before, t, *s.stage))},
          {"after", t.after ? standing_json(c, *t.after) : Json(nullptr)},
          {"nearer", worse},
          {"in_full", t.confirmed ? standing_json(c, *t.confirmed) : Json(nullptr)}};
}

Json stiffen_json(const viz::Stiffening& s, const StiffenSheet& sheet) {
  Json j;
  j["format"] = stiffen_format;
  j["program"] = std::string("evenpull ") + version();
  j["title"] = s.the_case.title;
  j["invented"] = s.the_case.invented;
  j["first_look"] = true;
  j["stage_wanted_degF"] = stage_or_null(s.the_case, s.stage);
  j["now"] = s.stage ? standing_json(s.the_case, s.before) : Json(nullptr);
  j["tried"] = Json::array();
  for (const Trial& t : s.ranked) j["tried"].push_back(trial_json(s, t));
  j["headline"] = sheet.headline;
  j["because"] = sheet.because;
  j["warnings"] = sheet.warnings;
  j["notes"] = sheet.notes;
  return j;
}

std::string stiffen_text(const StiffenSheet& s, const std::string& folder) {
  std::string text =
      on_one_line(s.title) + "\n\n  " + wrap_text(s.headline, 2) + "\n  " + wrap_text(s.because, 2) + "\n";
  for (const StiffenRow& row : s.rows) {
    text +=
        fmt::format("\n  {:>2}  ", row.number) + wrap_text(row.what, 6) + "\n      " + wrap_text(row.result, 6) + "\n";
    std::string how = row.size;
    if (!row.stay.empty()) how += (how.empty() ? "" : "; ") + row.stay;
    text += "      " + wrap_text(how, 6) + "\n";
    if (!row.worse.empty()) text += "      " + wrap_text(row.worse, 6) + "\n";
  }
  text += "\n";
  for (const std::string& w : s.warnings) text += "  " + wrap_text(w, 2) + "\n";
  for (const std::string& n : s.notes) text += "  - " + wrap_text(n, 4) + "\n";
  return text + "\n  Page to print: " + folder + "/stiffen.pdf\n";
}

// The text of the case with one candidate in it, read back.
std::string taken_into(const CaseFile& file, const Candidate& k, const Request& r) {
  const auto refuse = [&](const std::string& why) { throw CaseFileError(r.case_file, {}, "", why); };
  const bool own_cloth = file.places.at.count("cloth.curve") > 0 || file.places.at.count("cloth.stiffness") > 0;
  if (k.areal_mass && own_cloth)
    refuse(
        "states its cloth by numbers of its own, which lighter cloth would not have; measure that cloth and put its "
        "[cloth] in by hand");
  try {
    std::string text = edited_case(file.text, edits_of(file.value, k));
    read_case_text(text, r.stiffen.into);
    return text;
  } catch (const CannotEdit& e) {
    refuse(e.what());
  }
  return "";
}

void take(const Request& r, const CaseFile& file, const std::vector<Candidate>& candidates, std::ostream& out) {
  const int number = *r.stiffen.take;
  if (number > static_cast<int>(candidates.size()))
    throw CaseFileError("--take", {}, "",
                        candidates.empty() ? "nothing was found to take: run it without --take to see why"
                                           : fmt::format("{} is none of the list, which has {}: run it without --take "
                                                         "to see them",
                                                         number, candidates.size()));
  const Candidate& k = candidates[static_cast<std::size_t>(number) - 1];
  const std::string text = taken_into(file, k, r);
  write_new_file(r.stiffen.into, text);
  const std::string what = viz::candidate_text(file.value, k);
  Json j;
  j["format"] = stiffen_format;
  j["taken"] = {{"number", number}, {"what", what}, {"file", r.stiffen.into}};
  say(r, out, json_text(j), [&] {
    return fmt::format("{}: the case with {}.\nNow plan it: evenpull plan {}\n", shown_file(r.stiffen.into), what,
                       shown_file(r.stiffen.into));
  });
}

void try_and_tell(const Request& r, Trying& trying, viz::Stiffening& s, const std::vector<Candidate>& candidates,
                  std::ostream& out) {
  ResultFolder folder(result_folder_of(r), say_on_errors);
  if (!candidates.empty()) trying.tries(s, candidates);
  const StiffenSheet sheet = sheet_of(s, r);
  const std::string document = json_text(stiffen_json(s, sheet));
  const auto aside = folder.open();
  folder.write("stiffen.json", document);
  folder.draw([&] { write_stiffen_sheet(sheet, r.paper, version_and_commit(), (aside / "stiffen.pdf").string()); });
  folder.publish();
  trying.finish();
  say(r, out, document, [&] { return stiffen_text(sheet, shown_result_folder(r)); });
}

}  // namespace

void run_stiffen(const Request& r, std::ostream& out) {
  const CaseFile file = read_case_file(r.case_file);
  refuse_tautening_coats(file, r);
  if (r.stiffen.take) check_is_new(r.stiffen.into);
  Trying trying(r, file);
  try {
    viz::Stiffening s = trying.look();
    std::vector<Candidate> candidates;
    if (s.stage) candidates = candidates_for(file.value, s.panel, s.bar, usual_stock());
    if (r.stiffen.take) {
      trying.finish();
      take(r, file, candidates, out);
    } else {
      try_and_tell(r, trying, s, candidates, out);
    }
  } catch (const CaseError& e) {
    throw CaseFileError(r.case_file, file.place_of(e.key), e.key, e.what());
  }
}

}  // namespace evenpull
