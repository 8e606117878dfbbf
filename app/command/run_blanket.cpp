// blanket: what is cut from the bolt, where it is lapped and glued.
#include "app/command/commands.hpp"
#include "app/input/case_parts.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/plan_file.hpp"
#include "app/output/blanket_json.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/quoted.hpp"
#include "app/text/units.hpp"
#include "app/text/version.hpp"
#include "viz/kit/one_to_one.hpp"
#include "viz/sheet/blanket_sheet.hpp"
#include "viz/sheet/tiles.hpp"
#include "viz/words/blanket_words.hpp"
#include "viz/words/terminal_text.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>
#include <Eigen/Geometry>

#include <algorithm>
#include <ostream>

namespace evenpull {
namespace {

constexpr std::size_t most_also = 11, most_pieces = 48;
constexpr double to_mm = 1000;

// Read once and kept where they are: results point at them.
std::vector<CaseFile> cases_asked_for(const Request& r) {
  if (r.blanket.also.size() > most_also)
    throw CaseFileError("--also", {}, "", fmt::format("stands there more than {} times; cut in two goes", most_also));
  std::vector<CaseFile> out;
  out.push_back(read_case_file(r.case_file));
  for (const std::string& path : r.blanket.also) out.push_back(read_case_file(path));
  return out;
}

double stage_of(const Request& r, const Case& c, std::vector<std::string>& warnings) {
  const double last = c.stages.back().temperature;
  if (!r.blanket.plan.empty()) {
    const PlanDigest plan = read_plan_folder(r.blanket.plan, c);
    if (plan.hottest_safe) return *plan.hottest_safe;
    warnings.push_back(viz::no_safe_stage_sentence());
    return last;
  }
  if (r.blanket.stage.empty()) return last;
  double asked = 0;
  try {
    asked = Units().parse(r.blanket.stage, Quantity::temperature);
  } catch (const UnitError& e) {
    throw CaseFileError("--stage", {}, "", fmt::format("{} {}", in_quotes(r.blanket.stage), e.what()));
  }
  const auto& curve = c.cloth.curve;
  if (asked < curve.front().temperature || asked > curve.back().temperature)
    throw CaseFileError(
        "--stage", {}, "",
        fmt::format("{} lies outside what is known of this cloth, {} to {}", in_quotes(r.blanket.stage),
                    viz::degrees_both(curve.front().temperature), viz::degrees_both(curve.back().temperature)));
  return asked;
}

Polygon turned_by(const Polygon& p, double angle) {
  Polygon out;
  const Eigen::Rotation2Dd turn(angle);
  for (const PlanePoint& q : p) out.push_back(turn * q);
  return out;
}

// With the warp along the bolt.
NestPiece on_the_bolt(const ClothPiece& p, int kind) { return {turned_by(p.cut, -p.warp), kind}; }

double widest_of_sheets(const CaseFile& file, bool either_way) {
  if (file.value.blanket.kind == BlanketKind::two_sheets) return 0;
  Case sheets = file.value;
  sheets.blanket.kind = BlanketKind::two_sheets;
  double most = 0;
  for (const ClothPiece& p : cloth_pieces(sheets, file.trimming.seam))
    most = std::max(most, width_needed(on_the_bolt(p, 0), either_way));
  return most;
}

void refuse_narrow_bolt(const CaseFile& file, const ClothPiece& p, const CaseFile& of) {
  const Bolt& bolt = file.trimming.bolt;
  const NestPiece piece = on_the_bolt(p, 0);
  const double needed = width_needed(piece, bolt.warp_either_way);
  if (needed <= bolt.usable()) return;
  const double sheets = widest_of_sheets(of, bolt.warp_either_way), other = width_needed(piece, true);
  throw CaseFileError(file.value.file, file.place_of("bolt.width"), "bolt.width",
                      viz::too_wide_sentence(p, needed, bolt, sheets <= bolt.usable() ? sheets : 0,
                                             other <= bolt.usable() ? other : 0));
}

BlanketResult result_of(const Request& r, const std::vector<CaseFile>& files) {
  BlanketResult out;
  out.the_case = &files.front().value;
  out.trimming = files.front().trimming;
  std::vector<NestPiece> all;
  for (const CaseFile& file : files) {
    const int first = static_cast<int>(out.pieces.size());
    for (ClothPiece& p : cloth_pieces(file.value, file.trimming.seam)) {
      refuse_narrow_bolt(files.front(), p, file);
      out.pieces.push_back(std::move(p));
      out.of.push_back(&file.value);
    }
    for (int panel = 0; panel < r.blanket.panels; ++panel)
      for (int i = first; i < static_cast<int>(out.pieces.size()); ++i) {
        out.cut.push_back(i);
        all.push_back(on_the_bolt(out.pieces[static_cast<std::size_t>(i)], i));
      }
    out.cases.push_back(&file.value);
    out.seams.push_back(
        check_seams(file.value, file.trimming.seam, file.adhesive, stage_of(r, file.value, out.warnings)));
    for (auto& w : viz::seam_warnings(out.seams.back(), file.value, file.trimming.seam)) out.warnings.push_back(w);
  }
  if (all.size() > most_pieces)
    throw CaseFileError(
        "--panels", {}, "",
        fmt::format("makes {} pieces, and {} at most are laid out at once: cut in two goes", all.size(), most_pieces));
  const Bolt& bolt = out.trimming.bolt;
  out.layout = nest(all, bolt.usable(), bolt.warp_either_way).value();
  return out;
}

// --- The pages. ---

std::vector<std::vector<std::string>> corner_rows(const NestPlace& place) {
  std::vector<std::vector<std::string>> rows;
  for (std::size_t i = 0; i < place.shape.size(); ++i)
    rows.push_back({fmt::format("{}{}", viz::piece_letter(place.piece), i + 1), viz::length_both(place.shape[i].x()),
                    viz::length_both(place.shape[i].y())});
  return rows;
}

BlanketPiecePage page_of(const BlanketResult& r, std::size_t i) {
  const ClothPiece& p = r.pieces[i];
  const Case& c = *r.of[i];
  BlanketPiecePage page;
  std::string letters;
  for (const NestPlace& place : r.layout.places)
    if (r.cut[static_cast<std::size_t>(place.piece)] == static_cast<int>(i)) {
      letters += (letters.empty() ? "" : ", ") + viz::piece_letter(place.piece);
      for (auto& row : corner_rows(place)) page.corners.push_back(std::move(row));
    }
  page.heading = fmt::format("{}: {}, {}", letters, viz::piece_name(p), viz::cut_size_text(p));
  if (r.cases.size() > 1) page.of_title = c.title;
  page.line = p.line, page.cut = p.cut, page.warp = p.warp;
  for (const PieceCutOut& o : p.cut_outs) {
    page.openings.push_back({o.gap ? fmt::format("G{}", o.number + 1) : fmt::format("P{}", o.number + 1), o.line});
    page.opening_places.push_back(viz::cut_out_name(o, c) + ": " + viz::cut_out_place(o, p) + ".");
  }
  for (const PieceLine& l : p.lines) {
    if (l.rib) page.ribs.push_back({std::to_string(l.number + 1), l.line});
    else page.folds.push_back(l.line);
  }
  page.upper = viz::edge_of_drawing(p, PieceEdge::upper), page.lower = viz::edge_of_drawing(p, PieceEdge::lower);
  page.length_words = viz::length_both(p.length), page.width_words = viz::length_both(p.width);
  page.edges = viz::edge_sentences(p), page.notes = viz::piece_notes(p);
  return page;
}

void append(std::vector<std::string>& to, std::vector<std::string> from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

void add_seams(BlanketSheet& s, const BlanketResult& r, const std::vector<CaseFile>& files, bool from_plan) {
  s.line_heads = viz::glue_line_heads();
  for (std::size_t i = 0; i < files.size(); ++i) {
    const Case& c = files[i].value;
    for (const GlueLineCheck& l : r.seams[i].lines) s.lines.push_back(viz::glue_line_row(l, c));
    for (const PeelPlace& p : r.seams[i].places) s.places.push_back(viz::peel_sentence(p, c));
    for (const TapeLength& t : r.seams[i].tapes) s.tapes.push_back(viz::tape_row(t));
    append(s.opening_steps, viz::cut_out_steps(c, files[i].trimming.seam));
    append(s.notes, viz::seam_notes(r.seams[i], files[i].adhesive, from_plan));
  }
  // Of several cases much is said alike.
  for (auto* list : {&s.places, &s.notes, &s.opening_steps}) {
    std::vector<std::string> once;
    for (auto& sentence : *list)
      if (std::find(once.begin(), once.end(), sentence) == once.end()) once.push_back(sentence);
    *list = std::move(once);
  }
}

BlanketSheet sheet_of(const BlanketResult& r, const std::vector<CaseFile>& files, bool from_plan) {
  BlanketSheet s;
  const Bolt& bolt = r.trimming.bolt;
  s.name = "Cloth to cut";
  s.title = r.the_case->title;
  s.headline = viz::blanket_headline(static_cast<int>(r.cut.size()), r.layout, bolt);
  s.warnings = r.warnings;
  for (const NestPlace& p : r.layout.places) s.on_bolt.push_back({viz::piece_letter(p.piece), p.shape});
  s.bolt_length = r.layout.length, s.bolt_width = bolt.usable();
  s.length_words = viz::length_both(r.layout.length), s.width_words = viz::length_both(bolt.usable());
  s.bolt_notes = {viz::nest_sentence(r.layout, bolt), viz::selvedge_sentence(bolt)};
  for (std::size_t i = 0; i < r.pieces.size(); ++i) s.pieces.push_back(page_of(r, i));
  add_seams(s, r, files, from_plan);
  s.cautions = viz::blanket_cautions();
  for (const DefaultUsed& d : r.trimming.defaults_used) s.defaults.push_back(viz::default_sentence(d));
  return s;
}

// --- At true size. ---

/// From the cloth to the bolt.
struct OntoBolt {
  const NestPlace& place;
  double warp = 0;
  std::vector<std::pair<double, double>> operator()(const Polygon& p) const {
    std::vector<std::pair<double, double>> out;
    const Eigen::Rotation2Dd turn(place.turned - warp);
    for (const PlanePoint& q : p) {
      const PlanePoint at = turn * q + place.moved;
      out.push_back({to_mm * at.x(), to_mm * at.y()});
    }
    return out;
  }
};

viz::TrueDrawing true_drawing(const BlanketResult& r) {
  constexpr double bar_room = 30, name_height = 12;  // mm
  viz::TrueDrawing d;
  d.title = r.the_case->title;
  const double bolt = to_mm * r.trimming.bolt.usable();
  d.width = std::max(to_mm * r.layout.length, viz::check_bar + 2 * bar_room), d.height = bolt + bar_room;
  d.lines.push_back({"BOLT", {{0, 0}, {d.width, 0}, {d.width, bolt}, {0, bolt}}, true});
  for (const NestPlace& place : r.layout.places) {
    const ClothPiece& p = r.pieces[static_cast<std::size_t>(r.cut[static_cast<std::size_t>(place.piece)])];
    const OntoBolt onto{place, p.warp};
    d.lines.push_back({"CUT", onto(p.cut), true});
    d.lines.push_back({"GLUE-LINE", onto(p.line), true});
    for (const PieceCutOut& o : p.cut_outs) d.lines.push_back({"OPENINGS", onto(o.line), true});
    for (const PieceLine& l : p.lines) d.lines.push_back({l.rib ? "RIBS" : "EDGE", onto(l.line), false});
    PlanePoint middle(0, 0);
    for (const PlanePoint& q : place.shape) middle += q / static_cast<double>(place.shape.size());
    d.labels.push_back({"NAMES", to_mm * middle.x(), to_mm * middle.y(), name_height,
                        viz::piece_letter(place.piece) + ", " + viz::piece_name(p)});
  }
  viz::add_check_bar(d, bar_room, bolt + bar_room - 8, viz::check_bar_words());
  return d;
}

// Each piece once, as it lies on its page.
std::vector<viz::TrueDrawing> drawings_of_pieces(const BlanketResult& r) {
  constexpr double edge = 3;  // mm round the cut
  std::vector<viz::TrueDrawing> out;
  for (const ClothPiece& p : r.pieces) {
    PlanePoint low = p.cut.front(), high = low;
    for (const PlanePoint& q : p.cut) low = low.cwiseMin(q), high = high.cwiseMax(q);
    const auto at = [&](const Polygon& line) {
      std::vector<std::pair<double, double>> points;
      for (const PlanePoint& q : line)
        points.push_back({to_mm * (q.x() - low.x()) + edge, to_mm * (q.y() - low.y()) + edge});
      return points;
    };
    viz::TrueDrawing d;
    d.title = r.of[out.size()]->title + ", " + viz::piece_name(p);
    d.width = to_mm * p.length + 2 * edge, d.height = to_mm * p.width + 2 * edge;
    d.lines = {{"CUT", at(p.cut), true}, {"GLUE-LINE", at(p.line), true}};
    for (const PieceCutOut& o : p.cut_outs) d.lines.push_back({"OPENINGS", at(o.line), true});
    for (const PieceLine& l : p.lines) d.lines.push_back({"RIBS", at(l.line), false});
    out.push_back(std::move(d));
  }
  return out;
}

std::string blanket_summary(const BlanketSheet& s, const std::string& folder) {
  std::string text = s.name + ": " + on_one_line(s.title) + "\n\n  " + s.headline + "\n\n";
  for (const std::string& w : s.warnings) text += "  " + wrap_text(w, 2) + "\n";
  for (const BlanketPiecePage& p : s.pieces) text += "  " + wrap_text(p.heading, 4) + "\n";
  text += "\n";
  for (const std::string& n : s.bolt_notes) text += "  - " + wrap_text(n, 4) + "\n";
  text +=
      fmt::format("\n    {:<24}{:<20}{:<26}{}\n", s.line_heads[0], s.line_heads[2], s.line_heads[3], s.line_heads[4]);
  for (const auto& l : s.lines) text += fmt::format("    {:<24}{:<20}{:<26}{}\n", l[0], l[2], l[3], l[4]);
  text += "\n";
  for (const std::string& n : s.places) text += "  - " + wrap_text(n, 4) + "\n";
  for (const std::string& n : s.notes) text += "  - " + wrap_text(n, 4) + "\n";
  return text +
         fmt::format("\n  Pages to print: {0}/blanket.pdf; at true size: {0}/blanket.svg, {0}/blanket.dxf\n", folder);
}

}  // namespace

void run_blanket(const Request& r, std::ostream& out) {
  const std::vector<CaseFile> files = cases_asked_for(r);
  const BlanketResult result = result_of(r, files);
  const BlanketSheet sheet = sheet_of(result, files, !r.blanket.plan.empty());
  const viz::TrueDrawing drawing = true_drawing(result);
  ResultFolder folder(result_folder_of(r), say_on_errors);
  const std::string document = json_text(blanket_json(result));
  const auto aside = folder.open();
  folder.write("blanket.json", document);
  folder.write("blanket.svg", viz::svg_of(drawing));
  folder.write("blanket.dxf", viz::dxf_of(drawing));
  folder.draw([&] { write_blanket_sheet(sheet, r.paper, version_and_commit(), (aside / "blanket.pdf").string()); });
  if (r.blanket.tiles)
    folder.draw([&] {
      write_tiles(drawings_of_pieces(result), r.paper, version_and_commit(), (aside / "tiles.pdf").string());
    });
  folder.publish();
  say(r, out, document, [&] { return blanket_summary(sheet, shown_result_folder(r)); });
}

}  // namespace evenpull
