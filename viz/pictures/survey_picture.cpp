#include "viz/pictures/survey_picture.hpp"

#include "viz/panel/profile_drawing.hpp"
#include "viz/panel/section_drawing.hpp"
#include "viz/panel/survey_plan.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/cut_out_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/record_words.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <utility>

namespace evenpull {

namespace {

using namespace viz;

// All in pixels.
constexpr double picture_width = 1600, margin = 36;
constexpr double type = 20, title_type = 34, head_height = 104;
constexpr double profile_width = 720, gap = 40;
// Supports or doubts of a kind in the legend, and lines of one of them: with more the picture grows beyond what can be drawn.
constexpr std::size_t most_of_a_kind = 24;
constexpr double most_lines = 6;

struct Legend {
  enum class Symbol { none, ironed, in_use } symbol = Symbol::none;
  std::string words;
};

/// A few of a kind, then how many more there are: a drawing is for looking at, survey.json has them all.
void add_some(std::vector<Legend>& list, std::size_t count, const std::function<Legend(std::size_t)>& line,
              const char* more) {
  const std::size_t shown = count <= most_of_a_kind ? count : most_of_a_kind - 1;
  for (std::size_t i = 0; i < shown; ++i) list.push_back(line(i));
  if (count > shown)
    list.push_back(
        {Legend::Symbol::none, fmt::format("and {} more {}; survey.json lists all {}", count - shown, more, count)});
}

std::vector<Legend> legend_of(const Case& c, const Panel& panel) {
  std::vector<Legend> list;
  const auto words_of = [&](const Support& s) { return support_words(c, s, print_length(s.station)); };
  add_some(
      list, c.while_ironed.size(),
      [&](std::size_t i) {
        return Legend{Legend::Symbol::ironed, fmt::format("I{}, while ironed: {}", i + 1, words_of(c.while_ironed[i]))};
      },
      "while ironed");
  add_some(
      list, c.in_use.size(),
      [&](std::size_t i) {
        return Legend{Legend::Symbol::in_use, fmt::format("U{}, in use: {}", i + 1, words_of(c.in_use[i]))};
      },
      "in use");
  list.push_back(
      {Legend::Symbol::none,
       fmt::format("{} zone{} a side, {} bay{} of {}{}; the same number above (T) and below (B)",
                   panel.zones.size() / 2, panel.zones.size() / 2 == 1 ? "" : "s", panel.bays,
                   panel.bays == 1 ? "" : "s", panel.strips == 1 ? "one strip" : fmt::format("{} strips", panel.strips),
                   panel.zones.size() < 2u * panel.bays * panel.strips ? ", fewer where cloth is cut out" : "")});
  if (std::any_of(c.ribs.begin(), c.ribs.end(), [](const Rib& r) { return !r.touches_cloth; }))
    list.push_back({Legend::Symbol::none, "Dashed ribs lie below the cloth: it passes over them free"});
  for (std::string& s : attachment_sentences(c)) list.push_back({Legend::Symbol::none, std::move(s)});
  for (std::string& s : marks_legend(c)) list.push_back({Legend::Symbol::none, std::move(s)});
  for (std::size_t k = 0; k < panel.cut_outs.size(); ++k)
    list.push_back(
        {Legend::Symbol::none, cut_out_letter(c, k) + ": " +
                                   (k < c.pockets.size() ? pocket_text(c, c.pockets[k])
                                                         : hinge_gap_text(c, c.hinge_gaps[k - c.pockets.size()]))});
  std::string cloth = c.blanket.kind == BlanketKind::full_wrap ? "One full wrap round the trailing edge"
                                                               : "Two glued sheets, one a side";
  cloth += fmt::format(", glued from {:.0f} % of the chord", 100 * c.blanket.seam_chord_fraction);
  if (c.blanket.nose_chord_fraction > c.blanket.seam_chord_fraction)
    cloth += fmt::format("; bears on the closed nose to {:.0f} % (heavy in the profile)",
                         100 * c.blanket.nose_chord_fraction);
  list.push_back({Legend::Symbol::none, cloth});
  add_some(
      list, c.doubts.size(),
      [&](std::size_t i) {
        return Legend{Legend::Symbol::none, "DOUBT: " + c.doubts[i]};
      },
      "doubts");
  return list;
}

/// Draws, or only measures.
double lay_legend(cairo_t* cr, const std::vector<Legend>& list, Point at, double width, bool measure_only) {
  constexpr double indent = 40;
  double y = at.y;
  for (const auto& item : list) {
    const TextStyle style{.size = type, .width = width - indent};
    auto words = split_by_height(cr, item.words, style, most_lines * 1.25 * type);
    if (words.size() > 1) words.front() += "…";
    if (measure_only) {
      y += measure_text(cr, words.front(), style).height + 8;
      continue;
    }
    if (item.symbol == Legend::Symbol::ironed) draw_ironed_symbol(cr, {at.x + 16, y});
    if (item.symbol == Legend::Symbol::in_use) draw_in_use_symbol(cr, {at.x + 16, y + 12});
    y += draw_text(cr, {at.x + indent, y}, words.front(), style).height + 8;
  }
  return y - at.y;
}

void draw_survey(cairo_t* cr, const Case& c, const Panel& panel, const SurveyPlan& plan,
                 const std::vector<ShownSection>& sections, double sections_top) {
  const TextStyle title{.size = title_type, .bold = true}, plain{.size = type};
  constexpr double room = picture_width - 2 * margin;
  draw_text(cr, {margin, 16}, cut_to_width(cr, c.title, title, room), title);
  const std::string before = std::string(c.invented ? "INVENTED DEMO.  " : "") + "What was understood of ",
                    behind = ". Plan view from above: leading edge on top, root left.";
  const auto file = cut_to_width(cr, std::filesystem::path(c.file).filename().string(), plain,
                                 room - measure_text(cr, before + behind, plain).width);
  draw_text(cr, {margin, 64}, before + file + behind, plain);
  plan.draw(cr);
  const double y = plan.bottom() + gap / 2;
  draw_profile(cr, c, {margin, y}, profile_width);
  const double x = margin + profile_width + gap;
  lay_legend(cr, legend_of(c, panel), {x, y}, picture_width - margin - x, false);
  draw_sections(cr, c, sections, {margin, sections_top}, room);
}

}  // namespace

void write_survey_picture(const Case& c, const Panel& panel, const std::string& path) {
  const SurveyPlan plan(c, panel, margin, head_height, picture_width - 2 * margin);
  const auto sections = shown_sections(c);
  double legend = 0, below = 0;
  const double legend_width = picture_width - 2 * margin - profile_width - gap;
  draw_nowhere({picture_width, picture_width}, [&](cairo_t* cr) {
    legend = lay_legend(cr, legend_of(c, panel), {}, legend_width, true);
    below = sections_height(cr, c, sections, picture_width - 2 * margin);
  });
  const double lower = std::max(legend, profile_height(c, profile_width));
  const double sections_top = plan.bottom() + gap / 2 + lower + gap / 2;
  const Extent size{picture_width, sections_top + below + margin};
  const auto draw = [&](cairo_t* cr) { draw_survey(cr, c, panel, plan, sections, sections_top); };
  const bool pdf = path.size() > 4 && path.compare(path.size() - 4, 4, ".pdf") == 0;
  if (pdf)
    write_pdf(path, size, "Survey: " + c.title, [&](cairo_t* cr) {
      draw(cr);
      end_page(cr);
    });
  else write_png(path, size, draw);
}

}  // namespace evenpull
