#include "app/input/case_reader.hpp"

#include "app/input/case_parts.hpp"
#include "app/input/raw_file.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/glue_words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace evenpull {
namespace {

void check_format(const CaseTable& top) {
  const auto* format = top.find("format");
  if (!format) top.missing("format", fmt::format("format = {} on the first line", case_format));
  if (format->kind != Entry::Kind::integer || format->number != case_format)
    top.fail("format", fmt::format("is not known to this program, which reads format {}", case_format));
}

void read_mesh(const CaseTable& top, Case& c) {
  const auto mesh = top.table_or_empty("mesh", {"nodes"});
  if (mesh.has("nodes"))
    c.target_nodes = mesh.whole_number("nodes", {100, 50000, "about 2000 is usual; more takes longer"});
  else mesh.context().note_default("mesh.nodes", "2000", "a mesh error of a few percent, which is printed; judgement");
}

void read_job(const CaseTable& top, Case& c) {
  const auto work = top.table_or_empty(
      "work", {"approved_last_stage", "both_sides_reachable", "done_band", "done_share", "confidence", "damage_chance",
               "uneven_share", "slide", "scenarios", "turn_over_time", "check_time", "sag_reading", "finish"});
  c.approved_last_stage =
      work.quantity_if("approved_last_stage", Quantity::temperature, {323.15, 477.7, "usually 250, 300 or 350 degF"});
  c.both_sides_reachable = work.flag_or("both_sides_reachable", false, "the panel lies on a bench and is turned over");
  if (const int coats = work.choice_if("finish", {"tautening", "not tautening"}); coats >= 0)
    c.finish = coats == 0 ? FinishKind::tautening : FinishKind::not_tautening;
  read_wanted(work, c);
}

}  // namespace

CaseFile read_case_file(const std::string& path, MeasuredFrame measured) {
  return read_case_text(read_raw(path), path, measured);
}

CaseFile read_case_text(const std::string& bytes, const std::string& path, MeasuredFrame measured) {
  const auto document = document_of(bytes, path, DocumentKind::a_case);
  CaseContext context(path, document);
  const CaseTable top(
      context, document, "",
      {"format",   "title",  "description", "invented",  "outline",  "tip_bow", "profile",        "materials", "member",
       "ribs",     "brace",  "pocket",      "hinge_gap", "supports", "cloth",   "blanket",        "iron",      "doses",
       "stage",    "limits", "work",        "mesh",      "spread",   "score",   "measured_frame", "attach",    "batten",
       "adhesive", "bolt",   "seam",        "tapes",     "coats",    "times"});
  check_format(top);
  CaseFile out;
  auto& c = out.value;
  c.file = shown_file(path);
  c.title = top.text("title", "Left aileron", most::title_letters);
  c.description = top.prose_or_nothing("description");
  c.invented = top.has("invented") && top.flag("invented");
  read_outline(top, c);
  read_profile(top, c);
  read_structure(top, c);
  fill_welds(context, c);
  read_supports(top, c);
  read_cloth(top, c);
  read_blanket(top, c);
  read_cut_outs(top, c);
  read_battens(top, c);
  out.trimming = read_trimming(top, c);
  read_iron(top, c);
  read_stages(top, c);
  read_attach(top, c);
  out.adhesive = read_adhesive(top, out.trimming.seam);
  leave_out_stages(top, out.adhesive, c);
  out.finish = read_finish(top, c, out.adhesive, out.trimming.seam);
  read_limits(top, c);
  read_score(top, c);
  read_spreads(top, c);
  read_measured_frame(top, c, measured == MeasuredFrame::counts);
  read_job(top, c);
  read_mesh(top, c);
  complete_case(context, c);
  if (const std::string swing = viz::swing_past_adhesive(c, out.adhesive); !swing.empty())
    context.doubts.push_back(swing);
  c.defaults_used = context.defaults_used;
  c.doubts = context.doubts;
  find_doubts(c);
  out.places = std::move(context.places);
  out.text = document.file_text;
  return out;
}

Case read_case(const std::string& path) { return read_case_file(path).value; }

}  // namespace evenpull
