#include "shop/glue_lines.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

namespace evenpull {
namespace {

constexpr double sigmas_95 = 1.96;

using Place = std::tuple<LineAt, int>;

double face_of(const SectionShape& s) {
  using Kind = SectionShape::Kind;
  if (s.kind == Kind::tube) return s.outside_diameter;
  if (s.kind == Kind::properties) return 2 * s.given.reach_flat;
  return s.width;
}

// Pieces of mesh lines with cloth beside them, gathered by where they lie.
class Lines {
 public:
  explicit Lines(const Panel& p) : p_(p), cloth_(p.nodes.size(), 0) {
    for (const Quad& q : p.quads) cloth_[static_cast<std::size_t>(p.node(q.side, q.row, q.column))] = 1;
  }

  template <class Where>  // (side, row, column, along the span) to an optional Place
  std::vector<ClothLine> gather(const Where& where) const {
    std::vector<ClothLine> out;
    for (const Side side : {Side::top, Side::bottom}) {
      std::map<Place, ClothLine> lines;
      for (int i = 0; i < p_.rows; ++i)
        for (int j = 0; j < p_.columns; ++j)
          for (const bool span : {true, false}) add(lines, side, i, j, span, where);
      for (auto& [place, line] : lines) {
        line.centre /= line.length;
        out.push_back(line);
      }
    }
    return out;
  }

 private:
  bool cloth(Side side, int i, int j) const {
    return i >= 0 && j >= 0 && i + 1 < p_.rows && j + 1 < p_.columns &&
           cloth_[static_cast<std::size_t>(p_.node(side, i, j))] != 0;
  }
  bool beside_cloth(Side side, int i, int j, bool span) const {
    return cloth(side, i, j) || (span ? cloth(side, i - 1, j) : cloth(side, i, j - 1));
  }

  template <class Where>
  void add(std::map<Place, ClothLine>& lines, Side side, int i, int j, bool span, const Where& where) const {
    const int i2 = i + (span ? 0 : 1), j2 = j + (span ? 1 : 0);
    if (i2 >= p_.rows || j2 >= p_.columns || !beside_cloth(side, i, j, span)) return;
    const ClothNode& a = p_.nodes[static_cast<std::size_t>(p_.node(side, i, j))];
    const ClothNode& b = p_.nodes[static_cast<std::size_t>(p_.node(side, i2, j2))];
    const std::optional<Place> place = where(a, b, span);
    if (!place) return;
    ClothLine& line = lines[*place];
    const double length = (b.placed - a.placed).norm();
    line.at = std::get<0>(*place), line.side = side, line.index = std::get<1>(*place);
    line.length += length;
    line.centre += 0.5 * length * (a.placed + b.placed).head<2>();
  }

  const Panel& p_;
  std::vector<char> cloth_;  // of the quad whose first corner is that node
};

int rib_of(const Panel& p, int column) {
  const auto at = std::find(p.rib_columns.begin(), p.rib_columns.end(), column);
  return at == p.rib_columns.end() ? -1 : static_cast<int>(at - p.rib_columns.begin());
}

std::optional<Place> round_cut_out(const Panel& p, const ClothNode& a, const ClothNode& b, bool span) {
  for (std::size_t k = 0; k < p.cut_outs.size(); ++k) {
    const CutOut& c = p.cut_outs[k];
    const int low = span ? a.column : a.row, high = span ? b.column : b.row;
    const bool on =
        span ? low >= c.first_column && high <= c.last_column && (a.row == c.first_row || a.row == c.last_row)
             : low >= c.first_row && high <= c.last_row && (a.column == c.first_column || a.column == c.last_column);
    if (!on) continue;
    const bool pocket = k < p.pockets.size();
    const int index = static_cast<int>(pocket ? k : k - p.pockets.size());
    return Place{!pocket ? LineAt::hinge_gap : span ? LineAt::pocket_front : LineAt::pocket_side, index};
  }
  return {};
}

std::optional<Place> edge_or_rib(const Panel& p, const ClothNode& a, bool span) {
  if (span) {
    if (a.row == 0) return Place{LineAt::leading_edge, -1};
    if (a.row + 1 == p.rows) return Place{LineAt::trailing_edge, -1};
    return {};
  }
  const int rib = rib_of(p, a.column);
  if (rib < 0) return {};
  const bool end = rib == 0 || rib + 1 == static_cast<int>(p.rib_columns.size());
  return Place{end ? LineAt::end_rib : LineAt::inner_rib, rib};
}

const MemberMake& make_of_rib(const Case& c, int rib) {
  const bool bow = c.tip_bow && rib + 1 == static_cast<int>(c.ribs.size());
  return bow ? *c.tip_bow : c.ribs[static_cast<std::size_t>(rib)].make;
}

double face_of_front(const Case& c, const Panel& p, int pocket) {
  const int member = p.pockets[static_cast<std::size_t>(pocket)].member;
  const auto& own = c.pockets[static_cast<std::size_t>(pocket)].make;
  return face_of(own ? own->shape : p.members[static_cast<std::size_t>(member)].shape);
}

void set_width(GlueLine& l, const Case& c, const Panel& p, const Adhesive& a) {
  const Blanket& b = c.blanket;
  const auto turn = [&](double face, double turned) { l.width = face + turned, l.turned = turned; };
  switch (l.at) {
    case LineAt::leading_edge: l.width = a.lap, l.turned = b.seam_chord_fraction > 0 ? a.lap : 0.5 * a.lap; return;
    case LineAt::trailing_edge:
      if (b.kind == BlanketKind::two_sheets) l.width = a.lap, l.turned = 0.5 * a.lap;
      else l.width = face_of(c.span_members.back().make.shape);
      return;
    case LineAt::end_rib: turn(face_of(make_of_rib(c, l.index).shape), a.tuck_round); return;
    case LineAt::inner_rib: turn(face_of(make_of_rib(c, l.index).shape), 0); return;
    case LineAt::pocket_front: turn(face_of_front(c, p, l.index), a.tuck_round); return;
    case LineAt::pocket_side:
      turn(face_of(make_of_rib(c, p.pockets[static_cast<std::size_t>(l.index)].from_rib).shape), a.tuck_round);
      return;
    case LineAt::hinge_gap: turn(0, a.tuck_round); return;
  }
}

Volume volume_of(double area, int coats, const Adhesive& a, double times) {
  const double likely = times * area * coats / a.coverage, by = std::exp(sigmas_95 * a.coverage_off);
  return {likely, likely / by, likely * by};
}

// A rib to which the cloth is glued is so from the nose, on which it only bears, to the edge, round which it may slide.
bool is_glued(const Case& c, const Panel& p, const ClothNode& from, const ClothNode& to, bool span) {
  const bool rib = !span && c.blanket.inner_ribs == RibTie::glued && !to.on_nose;
  const bool begins = from.tie == Tie::glued || (rib && from.on_nose);
  const bool ends = to.tie == Tie::glued || (rib && to.row + 1 == p.rows);
  return begins && ends && (from.tie == Tie::glued || to.tie == Tie::glued);
}

}  // namespace

std::vector<GlueLine> glue_lines(const Case& c, const Panel& p, const Adhesive& a) {
  const bool tacked = c.blanket.kind == BlanketKind::full_wrap;
  const auto where = [&](const ClothNode& from, const ClothNode& to, bool span) -> std::optional<Place> {
    if (!is_glued(c, p, from, to, span)) return {};
    if (const auto at = round_cut_out(p, from, to, span)) return at;
    const auto at = edge_or_rib(p, from, span);
    const bool once = at && std::get<0>(*at) == LineAt::trailing_edge && tacked && from.side == Side::bottom;
    return once ? std::nullopt : at;
  };
  std::vector<GlueLine> out;
  for (const ClothLine& l : Lines(p).gather(where)) {
    out.push_back({l});
    set_width(out.back(), c, p, a);
  }
  return out;
}

std::vector<ClothLine> edge_and_rib_lines(const Case& c, const Panel& p) {
  return Lines(p).gather([&](const ClothNode& from, const ClothNode&, bool span) -> std::optional<Place> {
    const auto at = edge_or_rib(p, from, span);
    if (!at) return at;
    const auto [l, index] = *at;
    if (l == LineAt::inner_rib && !p.rib_carries.empty() && !p.rib_carries[static_cast<std::size_t>(index)]) return {};
    if (from.side == Side::top) return at;
    const bool once = l == LineAt::trailing_edge || (l == LineAt::leading_edge && c.blanket.seam_chord_fraction <= 0);
    return once ? std::nullopt : at;
  });
}

double tape_width(const Tapes& t, LineAt at) {
  switch (at) {
    case LineAt::leading_edge: return t.leading_edge;
    case LineAt::trailing_edge: return t.trailing_edge;
    case LineAt::end_rib: return t.end_ribs;
    default: return t.inner_ribs;
  }
}

GlueNeed glue_need(const std::vector<GlueLine>& lines, const Adhesive& a) {
  GlueNeed n;
  for (const GlueLine& l : lines) n.area += l.area();
  n.pre_coat = volume_of(n.area, a.pre_coats, a, 1);
  n.lay_in = volume_of(n.area, a.lay_in_coats, a, 1);
  n.brush_through = volume_of(n.area, a.brush_through_coats, a, 1);
  n.in_all = volume_of(n.area, a.coats(), a, 1 / (1 - a.lost));
  return n;
}

}  // namespace evenpull
