#include "viz/words/blanket_words.hpp"

#include "viz/words/cautions.hpp"
#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {
namespace {

/// A piece that shrinks out more than so much of its length is told; less is looseness. Judgement.
constexpr double told_fullness = 2e-3, told_off = 2e-3;
constexpr double told_angle = M_PI / 180;

std::string wide_text(double metres) {
  return fmt::format("{} in ({:.0f} mm)", number_text(inches(metres), 2), metres * 1000);
}

std::string kilopascals(double pascals) {
  constexpr double per_psi = 6894.757293168361;
  return fmt::format("{} psi ({} kPa)", number_text(pascals / per_psi, 1), number_text(pascals / 1000, 0));
}

// A peel in newtons is small: its tenths count.
std::string peel_text(double newtons_per_metre) {
  return fmt::format("{} lb/in ({} N/m)", number_text(pounds_per_inch(newtons_per_metre), 2),
                     number_text(newtons_per_metre, newtons_per_metre < 10 ? 1 : 0));
}

const char* edge_word(EdgeKind k) {
  switch (k) {
    case EdgeKind::nose_seam: return "leading edge";
    case EdgeKind::edge_seam: return "trailing edge";
    case EdgeKind::end_rib: return "end rib";
    case EdgeKind::tip_bow: return "tip bow";
    case EdgeKind::goes_on: return "rib beyond which the cloth goes on";
  }
  return "";
}

std::string line_name(SeamAt line, int number, const Case& c) {
  switch (line) {
    case SeamAt::leading_edge: return "leading edge";
    case SeamAt::trailing_edge: return "trailing edge";
    case SeamAt::end_rib:
    case SeamAt::inner_rib: return fmt::format("rib {}", number + 1);
    case SeamAt::tip_bow: return "tip bow";
    case SeamAt::pocket_front: return fmt::format("front of {}", c.pockets.at(static_cast<std::size_t>(number)).name);
    case SeamAt::pocket_sides: return fmt::format("sides of {}", c.pockets.at(static_cast<std::size_t>(number)).name);
    case SeamAt::hinge_gap: return fmt::format("hinge gap G{}", number + 1);
  }
  return "";
}

const char* tape_place(SeamAt over) {
  switch (over) {
    case SeamAt::leading_edge: return "leading edge";
    case SeamAt::trailing_edge: return "trailing edge";
    case SeamAt::end_rib: return "end ribs";
    case SeamAt::inner_rib: return "inner ribs";
    default: return "round pockets";
  }
}

std::string of_stated_text(const std::optional<double>& use) {
  return use ? fmt::format(", {:.0f} % of stated", 100 * *use) : std::string();
}

std::string hollow_sentence(const PeelPlace& p) {
  return fmt::format(
      "The {} is hollow from {:.0f} % to {:.0f} % of the chord, {} deep: ironed, the cloth stands off the ribs there "
      "and "
      "peels what is glued down. Fasten it to the ribs before it is ironed tight, as the approved data say.",
      p.side == Side::top ? "top" : "bottom", 100 * p.from, 100 * p.to, small_length_both(p.much));
}

}  // namespace

std::string piece_letter(int number) {
  std::string out(1, static_cast<char>('A' + number % 26));
  return number < 26 ? out : piece_letter(number / 26 - 1) + out;
}

std::string piece_name(const ClothPiece& p) {
  if (p.of == PieceOf::whole_panel) return "whole wrap";
  return p.of == PieceOf::top ? "top sheet" : "bottom sheet";
}

std::string cut_size_text(const ClothPiece& p) {
  return fmt::format("{} × {} in ({:.0f} × {:.0f} mm)", number_text(inches(p.length), 1),
                     number_text(inches(p.width), 1), 1000 * p.length, 1000 * p.width);
}

std::string blanket_headline(int pieces, const Nest& nest, const Bolt& bolt) {
  constexpr double yard = 36;
  return fmt::format("At least {} yd ({} m) of cloth {} wide: {} {}",
                     number_text(std::ceil(inches(nest.length) / yard * 10) / 10, 1),
                     number_text(std::ceil(nest.length * 10) / 10, 1), length_both(bolt.width), pieces,
                     pieces == 1 ? "piece" : "pieces");
}

std::string nest_sentence(const Nest& nest, const Bolt& bolt) {
  constexpr double as_good = 0.005;
  const double longer = 1 - nest.least / nest.length;
  return fmt::format(
      "The pieces take {} of the bolt, {} wide without its selvedges; {}.{} Buy a little more: the first cut "
      "must be square.",
      length_both(nest.length), length_both(bolt.usable()),
      longer < as_good ? "no layout is shorter"
                       : fmt::format("by their area none can take less than {}, {:.0f} % less", length_both(nest.least),
                                     100 * longer),
      nest.all_tried ? "" : " Not every order was tried: there are too many.");
}

std::vector<std::string> edge_sentences(const ClothPiece& p) {
  static constexpr const char* names[] = {"upper", "tip", "lower", "root"};
  std::vector<std::string> out;
  for (std::size_t i = 0; i < p.edges.size(); ++i) {
    const PieceEdgePlan& e = p.edges[i];
    std::string parts = fmt::format("{} {}", wide_text(e.glued),
                                    e.kind == EdgeKind::end_rib || e.kind == EdgeKind::tip_bow
                                        ? "tucked round and glued"
                                        : "for the lap (half of it)");
    if (e.round > 0) parts += fmt::format(", {} round the edge", wide_text(e.round));
    if (e.shrinks > 0) parts += fmt::format(", {} that the free end may shrink", wide_text(e.shrinks));
    if (e.trim > 0) parts += fmt::format(", {} for the shears", wide_text(e.trim));
    out.push_back(fmt::format("{} edge of the drawing, {}: {} beyond the glue line: {}.", names[i], edge_word(e.kind),
                              wide_text(e.whole()), parts));
    out.back().front() = static_cast<char>(std::toupper(static_cast<unsigned char>(out.back().front())));
  }
  return out;
}

std::string edge_of_drawing(const ClothPiece& p, PieceEdge e) {
  const bool upper = e == PieceEdge::upper;
  const EdgeKind kind = p.edges[static_cast<std::size_t>(e)].kind;
  return fmt::format("{}, {} side", edge_word(kind),
                     p.of == PieceOf::bottom || (p.of == PieceOf::whole_panel && !upper) ? "bottom" : "top");
}

std::string selvedge_sentence(const Bolt& bolt) {
  return fmt::format(
      "Measures across count from the edge of the cloth once {} of selvedge is cut off; along, from its first "
      "square cut. The outer face of the cloth lies up.",
      wide_text(bolt.selvedge));
}

std::string check_bar_words() { return "100 mm: measure this bar before anything is cut by the drawing"; }

std::string tile_title() { return "Cloth to cut, at true size"; }

std::string tile_words(const std::string& piece, int row, int column, int rows, int columns) {
  return fmt::format("Row {} of {}, sheet {} of {}: {}", row + 1, rows, column + 1, columns, piece);
}

std::string tile_check_words() { return "Print at 100 %. The bar is 100 mm."; }

std::string no_safe_stage_sentence() {
  return "The plan calls no stage safe: the laps are reckoned for the last stage of the case.";
}

std::vector<std::string> piece_notes(const ClothPiece& p) {
  std::vector<std::string> out;
  out.push_back(
      fmt::format("Within the glue lines the piece is larger than the skin by the looseness of the case ({:.1f} % "
                  "along the warp, {:.1f} % "
                  "along the fill), and by nothing for shrink: what is glued on all sides keeps its size under the "
                  "iron and pulls instead.",
                  100 * p.loose.warp, 100 * p.loose.fill));
  if (std::abs(p.warp) > told_angle)
    out.push_back(fmt::format("The warp lies {:.1f}° off the trailing edge; the arrow on the drawing shows which way.",
                              degrees_of_arc(std::abs(p.warp))));
  if (p.fullness > told_fullness && p.off_plane > told_off)
    out.push_back(
        fmt::format("The skin does not lie flat: along some line {} ({:.1f} %) has to be shrunk out or laid in pleats. "
                    "Lay the piece on "
                    "dry before anything is glued.",
                    small_length_both(p.off_plane), 100 * p.fullness));
  return out;
}

std::string cut_out_name(const PieceCutOut& o, const Case& c) {
  return o.gap ? fmt::format("G{}, hinge gap", o.number + 1)
               : fmt::format("P{}, {}", o.number + 1, c.pockets.at(static_cast<std::size_t>(o.number)).name);
}

std::string cut_out_place(const PieceCutOut& o, const ClothPiece& p) {
  PlanePoint low = o.line.front(), high = low, root = p.line.front();
  double upper = root.y();
  for (const PlanePoint& q : o.line) low = low.cwiseMin(q), high = high.cwiseMax(q);
  for (const PlanePoint& q : p.line) root = root.cwiseMin(q), upper = std::min(upper, q.y());
  return fmt::format("{} to {} from the root line, {} to {} below the upper line", length_both(low.x() - root.x()),
                     length_both(high.x() - root.x()), length_both(low.y() - upper), length_both(high.y() - upper));
}

std::vector<std::string> cut_out_steps(const Case& c, const SeamStatement& seam) {
  if (c.pockets.empty() && c.hinge_gaps.empty()) return {};
  return {fmt::format(
              "Openings are cut after the cloth is glued on, never before. Inside the line of the opening {} stays to "
              "be tucked round and glued; where the opening is narrower than two tucks, slit it down the middle.",
              wide_text(seam.tuck)),
          "Slit into each corner, and stop 1/8 in (3 mm) short of it. A slit that reaches the corner runs on under the "
          "iron."};
}

std::vector<std::string> glue_line_heads() {
  return {"glued line", "length", "width", "pull at most", "shear", "peel"};
}

std::vector<std::string> glue_line_row(const GlueLineCheck& l, const Case& c) {
  return {line_name(l.line, l.number, c),
          length_both(l.length),
          wide_text(l.width),
          pull_both(l.pull.high),
          kilopascals(l.shear) + of_stated_text(l.shear_use),
          peel_text(l.peel) + of_stated_text(l.peel_use)};
}

std::vector<std::string> tape_row(const TapeLength& t) {
  return {tape_place(t.over), std::to_string(t.count), wide_text(t.width), length_both(t.length)};
}

std::string peel_sentence(const PeelPlace& p, const Case& c) {
  switch (p.kind) {
    case PeelPlace::Kind::corner:
      return fmt::format(
          "Corners of end ribs and edges: both yarns pull there, up to {} together, and the tuck is slit. Press "
          "them down first and look at them after every stage.",
          pull_both(p.much));
    case PeelPlace::Kind::pocket_corner:
      return fmt::format(
          "Front corners of {}: the cloth turns a corner inwards and pulls both ways, up to {} together; a slit "
          "that is too long tears on.",
          c.pockets.at(static_cast<std::size_t>(p.number)).name, pull_both(p.much));
    case PeelPlace::Kind::gap_corner:
      return fmt::format(
          "Rear corners of hinge gap G{}: likewise, up to {}; press the cloth down on the nose round them.",
          p.number + 1, pull_both(p.much));
    case PeelPlace::Kind::bow:
      return "Tip bow: on the outside of the bend the tuck lies in pleats and only their crests are glued. Notch it, "
             "at every "
             "inch (25 mm) where the bow is tightest, never nearer than 1/2 in (13 mm) to the edge.";
    case PeelPlace::Kind::hollow: return hollow_sentence(p);
    case PeelPlace::Kind::bias:
      return fmt::format(
          "{}: it runs {:.0f}° off the nearest yarn. Cloth pulled on the bias narrows and drags along its edge, "
          "which peels: turn the yarns, or ask.",
          p.line == SeamAt::end_rib        ? "End ribs"
          : p.line == SeamAt::leading_edge ? "Leading edge"
                                           : "Trailing edge",
          degrees_of_arc(p.much));
  }
  return "";
}

std::vector<std::string> seam_warnings(const SeamCheck& check, const Case& c, const SeamStatement& seam) {
  std::vector<std::string> out;
  for (const GlueLineCheck& l : check.lines) {
    const std::string name = line_name(l.line, l.number, c);
    if (l.narrow)
      out.push_back(fmt::format("TOO NARROW: the lap at the {} is {}; cemented cloth is lapped {} at the least{}.",
                                name, wide_text(l.width), wide_text(l.usual),
                                seam.wing && !seam.sewn && l.line == SeamAt::leading_edge
                                    ? " on a wing's leading edge that is not sewn"
                                    : ""));
    if (l.edge_shows)
      out.push_back(
          fmt::format("The cut edge of the lap at the {} will show, {} off its middle: no tape there is wide enough to "
                      "hide it. A cut edge that lies bare frays and lifts.",
                      name, wide_text(l.width / 2)));
    if (l.shear_use.value_or(0) > most_of_glue)
      out.push_back(
          fmt::format("TOO MUCH FOR THE GLUE: the {} takes {:.0f} % of the shear that it is said to bear; half is the "
                      "most that is counted on. Wider, or a cooler last stage.",
                      name, 100 * *l.shear_use));
    if (l.peel_use.value_or(0) > most_of_glue)
      out.push_back(fmt::format(
          "TOO MUCH FOR THE GLUE: at the {} the cloth asks for {:.0f} % of the peel that it is said to bear; "
          "half is the most that is counted on.",
          name, 100 * *l.peel_use));
  }
  return out;
}

std::vector<std::string> seam_notes(const SeamCheck& check, const Adhesive& glue, bool from_plan) {
  std::vector<std::string> out;
  out.push_back(fmt::format(
      "Pull: what this cloth comes to when it is ironed at {}, {}; 97 of 100 cloths pull less. It is an upper bound: "
      "on a frame "
      "that gives, a line sees less.",
      degrees_both(check.stage), from_plan ? "the hottest safe stage of the plan" : "the hottest stage stated"));
  out.push_back(
      "Shear is the pull over the glued width, its mean. Peel is what a strip pulled off square would have to bear, "
      "from the "
      "stretch of the cloth and the angle at which it leaves the line; round an edge it is pressed on instead.");
  if (!glue.shear && !glue.peel)
    out.push_back(
        fmt::format("NO STRENGTH OF THE ADHESIVE IS STATED ([adhesive] peel, shear), so nothing is said of whether it "
                    "holds. For twice the pull it must bear {} in shear and {} in peel: ask its maker.",
                    kilopascals(check.weakest_shear), peel_text(check.weakest_peel)));
  else if (!glue.shear)
    out.push_back(fmt::format("No shear strength is stated ([adhesive] shear): it must be {} for twice the pull.",
                              kilopascals(check.weakest_shear)));
  else if (!glue.peel)
    out.push_back(fmt::format("No peel strength is stated ([adhesive] peel): it must be {} for twice the pull.",
                              peel_text(check.weakest_peel)));
  out.push_back(
      "Under the iron the adhesive is hot: its strength then is another than when it is cold, and its maker says how "
      "hot "
      "it may get.");
  return out;
}

std::vector<std::string> blanket_cautions() {
  std::vector<std::string> out = cautions();
  out.insert(out.begin() + 1,
             "Laps of 1 in (25 mm) are for seams that are doped (AC 43.13-1B par. 2-7 b): never for polyester that is "
             "cemented.");
  out.push_back("Measure the panel and lay the cloth on dry before the shears: a piece cut short cannot be helped.");
  return out;
}

std::string default_sentence(const DefaultUsed& d) {
  return fmt::format("Not stated: {}. Taken: {} ({}).", d.key, d.value, d.why);
}

std::string too_wide_sentence(const ClothPiece& p, double needed, const Bolt& bolt, double as_sheets,
                              double other_way) {
  std::string text = fmt::format("leaves {} between its selvedges, and the {} needs {}: a bolt {} wide",
                                 print_length(bolt.usable()), piece_name(p), length_both(needed),
                                 length_both(needed + 2 * bolt.selvedge));
  if (other_way > 0)
    text += "; it fits with warp and fill exchanged: bolt.warp = \"either way\", if the approved data let you";
  if (as_sheets > 0)
    text += fmt::format("; or blanket.kind = \"two sheets\", with a seam along the trailing edge too, needs {}",
                        length_both(as_sheets));
  if (other_way <= 0 && as_sheets <= 0)
    text += "; or take a wider bolt: a seam amid the cloth is no business of this program";
  return text;
}

}  // namespace evenpull::viz
