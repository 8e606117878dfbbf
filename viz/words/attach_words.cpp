#include "viz/words/attach_words.hpp"

#include "sequencer/replay/judge.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace evenpull::viz {
namespace {

constexpr double hardly_differs = 0.02;  // of a limit: less is within what the mesh of a first look is off by

const char* fasten_order(AttachHow how) {
  switch (how) {
    case AttachHow::glued: return "Glue";
    case AttachHow::laced: return "Lace";
    case AttachHow::riveted: return "Rivet";
    case AttachHow::screwed: return "Screw";
    case AttachHow::left: break;
  }
  return "";
}

const char* fastener(AttachHow how) {
  return how == AttachHow::laced ? "a stitch" : how == AttachHow::riveted ? "a rivet" : "a screw";
}

std::string fasten_text(const Attachment& a) {
  std::string text = fmt::format("{} the cloth to {}", fasten_order(a.how), named_ribs(a.ribs));
  if (!a.is_along_line())
    text += fmt::format(", reckoned with {} every {}: spacing and manner as the approved data say", fastener(a.how),
                        length_both(a.spacing));
  return text + ".";
}

const AttachRun* run_of(const std::vector<AttachRun>& runs, AttachChoice::Kind kind) {
  for (const AttachRun& r : runs)
    if (r.choice.kind == kind) return &r;
  return nullptr;
}

const AttachStage* settled_stage(const AttachRun& r, int stage) {
  for (const AttachStage& s : r.stages)
    if (s.stage == stage && !s.gave_way) return &s;
  return nullptr;
}

// The worst limit of damage or shape.
std::optional<LimitReading> barring(const AttachStage& s) {
  const auto damage = worst_of_kind(s, LimitKind::damage), shape = worst_of_kind(s, LimitKind::distortion);
  if (!damage || !shape) return damage ? damage : shape;
  return damage->use > shape->use ? damage : shape;
}

bool came_through(const std::vector<AttachRun>& runs, int stage) {
  return std::all_of(runs.begin(), runs.end(), [&](const AttachRun& r) { return settled_stage(r, stage) != nullptr; });
}

bool any_holds(const std::vector<AttachRun>& runs, int stage) {
  return std::any_of(runs.begin(), runs.end(), [&](const AttachRun& r) {
    const auto worst = barring(*settled_stage(r, stage));
    return !worst || worst->use <= 1;
  });
}

// The stage to compare at: the last one that every run came through and of which one at least keeps its limits, else the
// first. Beyond it nobody irons. -1: none.
int stage_compared(const std::vector<AttachRun>& runs) {
  if (runs.empty() || !came_through(runs, 0)) return -1;
  int last = 0;
  for (int s = 1; s < static_cast<int>(runs.front().choice.the_case.stages.size()); ++s)
    if (came_through(runs, s) && any_holds(runs, s)) last = s;
  return last;
}

std::string use_cell(const AttachRun& r, int stage) {
  for (const AttachStage& s : r.stages) {
    if (s.stage != stage) continue;
    if (s.gave_way) return "gives way";
    const auto worst = barring(s);
    return worst ? fmt::format("{} {}", use_text(worst->use, 0), limit_text(worst->limit)) : "";
  }
  return r.unsolved ? "no balance found" : "";
}

std::vector<std::string> choice_row(const AttachRun& r, const AttachRun& plain, int stage) {
  const AttachStage& s = *settled_stage(r, stage);
  const double otherwise = &r == &plain ? 0 : reads_otherwise(s, *settled_stage(plain, stage));
  return {choice_text(r.choice),
          small_length_both(s.worst_slip),
          s.end.edge_bow > 0 ? fmt::format("1/{:.0f}", 1 / s.end.edge_bow) : "none",
          angle_text(s.end.twist),
          fmt::format("{:.1f} / {:.1f} lb/in ({:.0f} / {:.0f} N/m)", pounds_per_inch(s.pull_chord[0]),
                      pounds_per_inch(s.pull_chord[1]), s.pull_chord[0], s.pull_chord[1]),
          percent_text(s.unevenness),
          &r == &plain ? "" : percent_text(otherwise)};
}

std::string stages_text(const Case& c, int stage) {
  return degrees_f(c.stages[static_cast<std::size_t>(stage)].temperature);
}

struct ChoiceUse {
  const AttachRun* run = nullptr;
  double use = 0;
};

std::vector<ChoiceUse> by_use(const std::vector<AttachRun>& runs, int stage) {
  std::vector<ChoiceUse> out;
  for (const AttachRun& r : runs)
    if (const auto worst = barring(*settled_stage(r, stage))) out.push_back({&r, worst->use});
  std::stable_sort(out.begin(), out.end(), [](const ChoiceUse& a, const ChoiceUse& b) { return a.use < b.use; });
  return out;
}

std::string least_use_sentence(const std::vector<AttachRun>& runs, int stage) {
  const std::vector<ChoiceUse> sorted = by_use(runs, stage);
  if (sorted.size() < 2) return "";
  const ChoiceUse &least = sorted.front(), &most = sorted.back();
  const std::string at = stages_text(runs.front().choice.the_case, stage);
  if (most.use - least.use < hardly_differs)
    return fmt::format("When the ribs are fastened changes little here: the uses at {} lie within {} of each other.",
                       at, number_text(most.use - least.use, 2));
  return fmt::format("Least use of the limits at {}: {}, {}. Most: {}, {}.", at, choice_text(least.run->choice),
                     number_text(least.use, 2), choice_text(most.run->choice), number_text(most.use, 2));
}

std::string otherwise_sentence(const std::vector<AttachRun>& runs, int stage) {
  const AttachRun* plain = run_of(runs, AttachChoice::Kind::never);
  if (!plain) return "";
  double most = 0;
  for (const AttachRun& r : runs)
    most = std::max(most, reads_otherwise(*settled_stage(r, stage), *settled_stage(*plain, stage)));
  return fmt::format(
      "Weighed or tapped after {}, a bay tells up to {} more or less than one whose ribs are not fastened: the windows "
      "of a "
      "plan hold for the schedule that it was made with.",
      stages_text(plain->choice.the_case, stage), percent_text(most));
}

double spacing_at(const Case& c, int rib) {
  for (const Attachment& a : c.attachments)
    if (a.spacing > 0 && std::find(a.ribs.begin(), a.ribs.end(), rib) != a.ribs.end()) return a.spacing;
  return 0;
}

// Ribs that are hollow alike are told together, by the most of each number.
struct AlikeHollows {
  std::vector<int> ribs;
  HeldDown most;
  double at_each = 0, added = 0;  // N, N/m
};

double stiffness_along_chord(const Case& c) {
  return std::abs(std::sin(c.cloth.warp_angle)) > std::sqrt(0.5) ? c.cloth.stiffness.warp : c.cloth.stiffness.fill;
}

bool hollow_alike(const Hollow& a, const Hollow& b) {
  return a.side == b.side && percent_text(a.from) == percent_text(b.from) && percent_text(a.to) == percent_text(b.to);
}

std::vector<AlikeHollows> alike_hollows(const Case& c, const std::vector<HeldDown>& all) {
  std::vector<AlikeHollows> out;
  for (const HeldDown& h : all) {
    auto at = std::find_if(out.begin(), out.end(),
                           [&](const AlikeHollows& o) { return hollow_alike(o.most.hollow, h.hollow); });
    if (at == out.end()) at = out.insert(out.end(), AlikeHollows{{}, h, 0, 0});
    at->ribs.push_back(h.hollow.rib);
    at->most.hollow.lift = std::max(at->most.hollow.lift, h.hollow.lift);
    at->most.line_load = std::max(at->most.line_load, h.line_load);
    at->at_each = std::max(at->at_each, h.line_load * spacing_at(c, h.hollow.rib));
    at->added = std::max(at->added, pull_added(h.hollow, stiffness_along_chord(c)));
  }
  return out;
}

std::string hollow_sentence(const Case& c, const AlikeHollows& h, int stage) {
  const Hollow& hollow = h.most.hollow;
  std::string ribs = named_ribs(h.ribs);
  ribs.front() = 'R';
  std::string text = fmt::format(
      "{}, {}: hollow between {} and {} of the chord. Tight cloth that is not fastened stands off up to {}. Held down "
      "at "
      "the pull after {} it presses with at most {} along the rib",
      ribs, hollow.side == Side::top ? "top" : "bottom", percent_text(hollow.from), percent_text(hollow.to),
      small_length_both(hollow.lift), stages_text(c, stage), pull_both(h.most.line_load));
  if (h.at_each > 0) text += fmt::format(", {} at each fastening", force_both(h.at_each));
  return text + fmt::format("; drawing it down adds at most {} of pull.", pull_both(h.added));
}

}  // namespace

const char* fastened_word(AttachHow how) {
  switch (how) {
    case AttachHow::glued: return "glued";
    case AttachHow::laced: return "laced";
    case AttachHow::riveted: return "riveted";
    case AttachHow::screwed: return "screwed";
    case AttachHow::left: break;
  }
  return "left";
}

std::string named_ribs(const std::vector<int>& ribs) {
  std::string text = ribs.size() == 1 ? "rib " : "ribs ";
  for (std::size_t i = 0; i < ribs.size(); ++i)
    text += (i == 0 ? "" : i + 1 == ribs.size() ? " and " : ", ") + std::to_string(ribs[i] + 1);
  return text;
}

std::string fastened_when(const Attachment& a) {
  if (a.after <= 0) return "before ironing";
  return std::isfinite(a.after) ? "after " + degrees_f(a.after) : "after ironing";
}

std::string moment_mark(const Case& c, const Attachment& a) {
  if (a.after <= 0) return "0";
  for (std::size_t s = 0; s < c.stages.size(); ++s)
    if (a.after <= c.stages[s].temperature) return std::to_string(s + 1);
  return "E";
}

std::vector<std::string> marks_legend(const Case& c) {
  const auto has = [&](AttachHow how) {
    return std::any_of(c.attachments.begin(), c.attachments.end(), [&](const Attachment& a) { return a.how == how; });
  };
  std::string how;
  for (const auto& [word, text] :
       {std::pair{AttachHow::glued, "heavy line: glued"}, std::pair{AttachHow::laced, "crosses: laced"},
        std::pair{AttachHow::riveted, "discs: riveted"}, std::pair{AttachHow::screwed, "squares: screwed"}})
    if (has(word)) how += (how.empty() ? "" : "; ") + std::string(text);
  if (how.empty()) return {};
  how.front() = static_cast<char>(how.front() - 'a' + 'A');
  std::string when = "In the ring: 0 before ironing";
  for (std::size_t s = 0; s < c.stages.size(); ++s)
    when += fmt::format(", {} after {}", s + 1, degrees_f(c.stages[s].temperature));
  return {how + ". " + when + ", E after ironing. Thin ribs: not fastened; the cloth is glued to end ribs by itself."};
}

std::string attachment_text(const Attachment& a) {
  std::string text = fmt::format("{}: {}", named_ribs(a.ribs), fastened_word(a.how));
  if (a.how == AttachHow::left) return text;
  if (!a.is_along_line()) text += " every " + length_both(a.spacing);
  return text + ", " + fastened_when(a);
}

std::vector<std::string> attachment_sentences(const Case& c) {
  std::vector<std::string> out;
  for (const Attachment& a : c.attachments) {
    out.push_back(attachment_text(a) + ".");
    out.back().front() = 'R';
  }
  return out;
}

std::string schedule_text(const Case& c) {
  std::string text;
  for (const Attachment& a : c.attachments) text += (text.empty() ? "" : "; ") + attachment_text(a);
  return text;
}

std::vector<std::string> fasten_now(const Case& c, int stage, bool last) {
  std::vector<std::string> out;
  const auto temperature = [&](int s) { return s < 0 ? 0.0 : c.stages[static_cast<std::size_t>(s)].temperature; };
  for (const Attachment& a : c.attachments) {
    if (a.how == AttachHow::left || a.after < temperature(stage)) continue;
    if (last || a.after < temperature(stage + 1)) out.push_back(fasten_text(a));
  }
  return out;
}

std::string fastened_first(const Case& c, int stage) {
  std::string text;
  for (const std::string& s : fasten_now(c, stage - 1, false)) text += (text.empty() ? "First, cloth cold: " : " ") + s;
  return text;
}

std::vector<std::string> attachment_doubts(const Case& c) {
  std::vector<int> early;
  for (const Attachment& a : c.attachments)
    if (a.how != AttachHow::left && a.after <= 0) early.insert(early.end(), a.ribs.begin(), a.ribs.end());
  std::vector<std::string> out;
  if (early.empty()) return out;
  std::sort(early.begin(), early.end());
  std::string text = named_ribs(early);
  text.front() = 'R';
  out.push_back(
      text + (early.size() > 1 ? " are" : " is") +
      " fastened before ironing. AC 43.13-1B, par. 2-11, has attachments wait until the cloth is taut, so that "
      "ribs are not pulled out of line.");
  return out;
}

std::string choice_text(const AttachChoice& choice) {
  const auto as_stated = [&](const char* text) { return std::string(text) + (choice.stated ? " (as stated)" : ""); };
  switch (choice.kind) {
    case AttachChoice::Kind::stated: break;
    case AttachChoice::Kind::before_ironing: return as_stated("all before ironing");
    case AttachChoice::Kind::after_stage:
      return as_stated(("all after " + stages_text(choice.the_case, choice.stage)).c_str());
    case AttachChoice::Kind::never: return as_stated("all after ironing");
  }
  return "as the case states";
}

AttachTables attach_tables(const std::vector<AttachRun>& runs) {
  AttachTables t;
  if (runs.empty()) return t;
  const Case& c = runs.front().choice.the_case;
  t.use_heads = {"ribs fastened"};
  for (int s = 0; s < static_cast<int>(c.stages.size()); ++s) t.use_heads.push_back(stages_text(c, s));
  for (const AttachRun& r : runs) {
    t.uses.push_back({choice_text(r.choice)});
    for (int s = 0; s < static_cast<int>(c.stages.size()); ++s) t.uses.back().push_back(use_cell(r, s));
  }
  const int stage = stage_compared(runs);
  const AttachRun* plain = run_of(runs, AttachChoice::Kind::never);
  if (stage < 0 || !plain) return t;
  t.stage = stages_text(c, stage);
  t.reading_heads = {
      "ribs fastened",     "slip", "trailing edge bow", "twist", "pull along the chord, top / bottom", "uneven by",
      "a bay reads off by"};
  for (const AttachRun& r : runs) t.readings.push_back(choice_row(r, *plain, stage));
  return t;
}

std::vector<std::string> attach_sentences(const std::vector<AttachRun>& runs) {
  std::vector<std::string> out{
      "A first look, which calls nothing safe: the same job by the plainest order on a coarse mesh, everything as "
      "stated. "
      "What changes from line to line counts; whether a stage is safe a plan of the case says."};
  const int stage = stage_compared(runs);
  if (stage >= 0)
    for (std::string s : {least_use_sentence(runs, stage), otherwise_sentence(runs, stage)})
      if (!s.empty()) out.push_back(std::move(s));
  out.push_back(
      "AC 43.13-1B, par. 2-11, has attachments wait until the cloth is taut, so that ribs are not pulled out of line. "
      "Less use is no advice to fasten earlier: inner ribs drawn sideways count here by their stress alone, not by "
      "their "
      "bow. Spacing, cord, rivets and knots are as the aircraft's approved data say.");
  out.push_back(
      "Fastened cloth is held where it lies at that moment. Stitches, rivets and screws hold the points of the mesh "
      "next to "
      "them; a mesh as coarse as their spacing has the whole line held, as glue does.");
  return out;
}

std::vector<std::string> hollow_sentences(const std::vector<AttachRun>& runs) {
  std::vector<std::string> out;
  const int stage = stage_compared(runs);
  if (stage < 0) return out;
  const Case& c = runs.front().choice.the_case;
  for (const AlikeHollows& h : alike_hollows(c, settled_stage(runs.front(), stage)->held_down))
    out.push_back(hollow_sentence(c, h, stage));
  if (!out.empty())
    out.push_back(
        "Not computed: that the cloth comes off a hollow rib and is drawn down to it. The numbers have it lie on the "
        "rib "
        "from the start.");
  return out;
}

}  // namespace evenpull::viz
