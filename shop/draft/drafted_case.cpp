#include "shop/draft/drafted_case.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

using Shape = SectionShape::Kind;

// Where heights of a nose of sheet are written, as shares of its depth; its round is taken for a quarter of an ellipse
// (estimate: noses are formed over such a block).
constexpr double nose_places[] = {0, 0.05, 0.15, 0.35, 0.65};
// Two heights nearer to each other along the chord are one.
constexpr double one_place = 0.02;

// What no tape shows is not written.
constexpr double worked_out_step = 0.001 * 0.0254, metric_step = 0.00001;  // m

GivenSize worked_out(double metres, const std::string& like) {
  const double step = like.find('m') == std::string::npos ? worked_out_step : metric_step;
  return written_like(std::round(metres / step) * step, like);
}

class Draft {
 public:
  explicit Draft(const DraftAnswers& answers) : a_(answers) {}

  DraftedCase take() {
    d_.kind = a_.kind();
    count();
    outline();
    members();
    materials();
    profile();
    ribs();
    supports();
    covering();
    return std::move(d_);
  }

 private:
  DraftValue value(Ask ask) const { return {a_.at(ask).sizes.front(), {ask}}; }
  std::vector<DraftValue> values(Ask ask) const {
    std::vector<DraftValue> out;
    for (const GivenSize& s : a_.at(ask).sizes) out.push_back({s, {ask}});
    return out;
  }
  DraftValue half(Ask ask) const {
    const GivenSize& whole = a_.at(ask).sizes.front();
    return {written_like(whole.value / 2, whole.text), {ask}};
  }
  bool tubes() const { return holds(of_tube, d_.kind); }
  bool wing() const { return d_.kind == DraftKind::wing_bay; }

  void count() {
    for (const DraftQuestion* q : asked_questions(a_)) ++(a_.at(q->ask).usual ? d_.usual : d_.given);
  }

  void outline() {
    d_.span = value(Ask::span);
    d_.chord = value(Ask::chord);
    if (!wing() && a_.size(Ask::tip_chord) != a_.size(Ask::chord)) {
      d_.tip_chord = value(Ask::tip_chord);
      d_.trailing_edge_straight = a_.is(Ask::straight_edge, DraftEdge::trailing);
    }
    d_.goes_on_inboard = wing() && !a_.is(Ask::goes_on, DraftGoesOn::outboard);
    d_.goes_on_outboard = wing() && !a_.is(Ask::goes_on, DraftGoesOn::inboard);
    if (tubes() && a_.is(Ask::bow, draft_yes))
      d_.bow = DraftBow{value(Ask::bow_depth), value(Ask::bow_tube), tube(Ask::bow_tube, Ask::bow_wall)};
  }

  DraftMaterial tube_material() const {
    if (d_.kind == DraftKind::aluminium_tube)
      return a_.is(Ask::tube_alloy, DraftStock::another) ? DraftMaterial::own_tube : DraftMaterial::aluminium_tube;
    switch (static_cast<DraftSteel>(a_.at(Ask::steel).value)) {
      case DraftSteel::normalised: return DraftMaterial::normalised_steel;
      case DraftSteel::annealed: return DraftMaterial::annealed_steel;
      case DraftSteel::not_known: break;
    }
    return DraftMaterial::steel;
  }
  DraftMaterial sheet_material() const {
    return a_.is(Ask::sheet_alloy, DraftStock::another) ? DraftMaterial::own_sheet : DraftMaterial::aluminium_sheet;
  }
  DraftMaterial wood_material() const {
    return a_.is(Ask::wood, DraftStock::another) ? DraftMaterial::own_wood : DraftMaterial::spruce;
  }

  DraftSection tube(Ask diameter, Ask wall) const {
    return {Shape::tube, {{SizeKey::outside_diameter, value(diameter)}, {SizeKey::wall, value(wall)}}, tube_material()};
  }
  DraftSection bar(Ask width, std::optional<Ask> height) const {
    DraftSection s{Shape::bar, {{SizeKey::width, value(width)}}, wood_material()};
    if (height) s.sizes.push_back({SizeKey::height, value(*height)});
    return s;
  }
  DraftSection sheet_rib(Ask sheet, Ask flange) const {
    return {Shape::sheet_rib, {{SizeKey::sheet, value(sheet)}, {SizeKey::flange, value(flange)}}, sheet_material()};
  }
  DraftSection wooden_rib() const {
    const DraftSection caps{Shape::capstrip_rib,
                            {{SizeKey::width, value_if(Ask::cap_width)}, {SizeKey::cap, value_if(Ask::cap_thickness)}},
                            wood_material()};
    DraftSection s = caps;
    switch (static_cast<DraftRib>(a_.at(Ask::wooden_rib).value)) {
      case DraftRib::solid: return bar(Ask::rib_width, {});
      case DraftRib::truss:
        s.shape = Shape::truss_rib;
        s.sizes.push_back({SizeKey::stick, value(Ask::stick)});
        s.sizes.push_back({SizeKey::pitch, value(Ask::pitch)});
        break;
      case DraftRib::capstrip:
        s.sizes.push_back({SizeKey::web, value(Ask::web_thickness)});
        s.plywood_web = true;
        break;
    }
    return s;
  }
  DraftValue value_if(Ask ask) const { return a_.find(ask) ? value(ask) : DraftValue(); }

  void members() {
    const auto add = [&](DraftPart part, SpanRole role, DraftSection s, std::optional<DraftValue> at = {}) {
      d_.members.push_back({part, role, std::move(at), std::move(s)});
    };
    if (tubes()) {
      add(DraftPart::leading_edge_tube, SpanRole::leading_edge, tube(Ask::leading_tube, Ask::leading_wall));
      add(DraftPart::trailing_edge_tube, SpanRole::trailing_edge, tube(Ask::trailing_tube, Ask::trailing_wall));
      return;
    }
    if (d_.kind == DraftKind::wood) add(DraftPart::spar, SpanRole::leading_edge, bar(Ask::spar_width, Ask::spar_depth));
    else
      add(DraftPart::nose, SpanRole::leading_edge,
          {Shape::closed_nose, {{SizeKey::sheet, value(Ask::nose_sheet)}}, sheet_material()}, value(Ask::nose_depth));
    if (d_.kind == DraftKind::sheet_metal) {
      add(DraftPart::folded_edge, SpanRole::trailing_edge,
          {Shape::folded_edge,
           {{SizeKey::sheet, value(Ask::edge_sheet)},
            {SizeKey::leg, value(Ask::edge_leg)},
            {SizeKey::opening, value(Ask::edge_opening)},
            {SizeKey::bend_radius, value(Ask::edge_bend)}},
           sheet_material()});
      return;
    }
    if (wing()) {
      add(DraftPart::front_spar, SpanRole::spar, bar(Ask::front_spar_width, Ask::front_spar_depth),
          value(Ask::front_spar_at));
      add(DraftPart::rear_spar, SpanRole::spar, bar(Ask::rear_spar_width, Ask::rear_spar_depth),
          value(Ask::rear_spar_at));
    }
    DraftSection edge = bar(Ask::edge_width, Ask::edge_depth);
    if (a_.is(Ask::edge_shape, DraftEdgeShape::tapered)) edge.shape = Shape::triangle;
    add(DraftPart::wooden_edge, SpanRole::trailing_edge, std::move(edge));
  }

  void materials() {
    const auto own = [&](Ask question, DraftMaterial m, Ask strength, std::optional<Ask> stiffness = {}) {
      const DraftQuestion* q = question_of(question, d_.kind);
      if (!q || !a_.is(question, DraftStock::another)) return;
      d_.own.push_back({m, value(strength), {}});
      if (stiffness) d_.own.back().stiffness = value(*stiffness);
    };
    own(Ask::tube_alloy, DraftMaterial::own_tube, Ask::tube_yield);
    own(Ask::sheet_alloy, DraftMaterial::own_sheet, Ask::sheet_yield);
    own(Ask::wood, DraftMaterial::own_wood, Ask::wood_rupture, Ask::wood_stiffness);
  }

  void point(DraftValue at, DraftValue height) {
    d_.profile_at.push_back(std::move(at));
    d_.profile_height.push_back(std::move(height));
  }

  /// Up to the web of a nose of sheet.
  void nose(Ask thick, double share) {
    d_.nose_rounded = true;
    const GivenSize &depth = a_.at(Ask::nose_depth).sizes.front(), &t = a_.at(thick).sizes.front();
    for (const double u : nose_places)
      point({worked_out(u * depth.value, depth.text), {Ask::nose_depth}},
            {worked_out(share * t.value * std::sqrt(1 - (1 - u) * (1 - u)), t.text), {thick}});
  }

  void profile() {
    const DraftValue front{written_like(0, d_.chord.size.text), {Ask::chord}};
    if (wing()) return wing_profile();
    if (d_.kind == DraftKind::sheet_metal) {
      nose(Ask::thickest, 0.5);
      point(value(Ask::nose_depth), half(Ask::thickest));
    } else if (d_.kind == DraftKind::wood) {
      point(front, half(Ask::thickest));
    } else {
      point(front, half(Ask::leading_tube));
      if (a_.size(Ask::thickest) != a_.size(Ask::leading_tube)) point(value(Ask::thickest_at), half(Ask::thickest));
    }
    point(d_.chord, half(tubes()                             ? Ask::trailing_tube
                         : d_.kind == DraftKind::sheet_metal ? Ask::edge_opening
                                                             : Ask::edge_thickness));
  }

  void wing_profile() {
    struct Place {
      DraftValue at, thick;
    };
    std::vector<Place> places{{value(Ask::nose_depth), value(Ask::nose_thickness)},
                              {value(Ask::front_spar_at), value(Ask::front_thickness)},
                              {value(Ask::rear_spar_at), value(Ask::rear_thickness)},
                              {d_.chord, value(Ask::edge_thickness)}};
    const Place most{value(Ask::thickest_at), value(Ask::thickest)};
    const auto near = std::find_if(places.begin(), places.end(), [&](const Place& p) {
      return std::abs(p.at.size.value - most.at.size.value) < one_place * d_.chord.size.value;
    });
    if (near != places.end()) near->thick = most.thick;
    else if (most.at.size.value > places.front().at.size.value) places.push_back(most);
    std::sort(places.begin(), places.end(),
              [](const Place& a, const Place& b) { return a.at.size.value < b.at.size.value; });
    nose(Ask::nose_thickness, 1);
    for (Place& p : places) point(std::move(p.at), std::move(p.thick));
    const double top = a_.size(Ask::thickest_at);
    for (const DraftValue& at : d_.profile_at) d_.mid_line.push_back(mid_at(at.size.value, top));
  }

  /// Two parabolas that meet where the wing is thickest: 0 at both edges.
  DraftValue mid_at(double x, double top) const {
    const GivenSize& mid = a_.at(Ask::mid_line).sizes.front();
    const double t = x < top ? 1 - x / top : (x - top) / (d_.chord.size.value - top);
    return {worked_out(mid.value * (1 - t * t), mid.text), {Ask::mid_line}};
  }

  JointMake joint(Ask ask) const {
    JointMake j;
    j.kind = static_cast<JointKind>(a_.at(ask).value);
    if (j.kind == JointKind::gusset) j.fasteners = a_.at(Ask::rivets).value;
    return j;
  }

  void ribs() {
    if (a_.is(Ask::even, draft_yes)) d_.bays = a_.at(Ask::bays).value;
    else d_.stations = values(Ask::stations);
    d_.front = d_.rear = joint(Ask::joints);
    if (d_.kind == DraftKind::sheet_metal) d_.rear = joint(Ask::rear_joints);
    if (tubes()) {
      d_.inner = tube(Ask::rib_tube, Ask::rib_wall);
      d_.end = tube(Ask::end_tube, Ask::end_wall);
    } else if (d_.kind == DraftKind::sheet_metal) {
      d_.inner = sheet_rib(Ask::rib_sheet, Ask::rib_flange);
      d_.end = sheet_rib(Ask::end_sheet, Ask::end_flange);
    } else {
      d_.inner = wooden_rib();
      if (!d_.goes_on_inboard || !d_.goes_on_outboard) d_.end = bar(Ask::end_rib_width, {});
    }
  }

  void hold(bool in_use, DraftPart part, SupportKind as, std::vector<DraftValue> at, std::optional<Ask> from) {
    d_.supports.push_back({in_use, part, as, std::move(at), from});
  }

  /// The one that takes the load along the span: the middle one of three or more, else the first.
  void hinge(bool in_use, SupportKind fixed, Ask from) {
    std::vector<DraftValue> all = values(Ask::hinges);
    const auto middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() > 2 ? (all.size() - 1) / 2 : 0);
    hold(in_use, d_.members.front().part, fixed, {*middle}, from);
    all.erase(middle);
    hold(in_use, d_.members.front().part, SupportKind::sliding_hinge, std::move(all), from);
  }

  void supports() {
    const auto held = static_cast<DraftHeld>(a_.at(Ask::held).value);
    if (wing()) {
      const bool both = held == DraftHeld::both_spars;
      hold(false, DraftPart::front_spar, SupportKind::clamp, {}, Ask::held);
      hold(false, DraftPart::rear_spar, both ? SupportKind::clamp : SupportKind::rest, {}, Ask::held);
      for (const DraftPart spar : {DraftPart::front_spar, DraftPart::rear_spar})
        hold(true, spar, SupportKind::clamp, {}, {});
      return;
    }
    const DraftPart front = d_.members.front().part;
    if (held == DraftHeld::hinges) hinge(false, SupportKind::clamp, Ask::held);
    else hold(false, front, SupportKind::clamp, {}, Ask::held);
    if (held == DraftHeld::ends_and_rests) hold(false, front, SupportKind::rest, values(Ask::rests), Ask::rests);
    hinge(true, SupportKind::hinge, Ask::hinges);
    hold(true, front, SupportKind::horn, {value(Ask::horn)}, Ask::horn);
  }

  void covering() {
    d_.cloth = static_cast<DraftCloth>(a_.at(Ask::cloth).value);
    if (d_.cloth == DraftCloth::weighed) d_.cloth_mass = value(Ask::cloth_mass);
    d_.blanket = static_cast<BlanketKind>(a_.at(Ask::blanket).value);
    if (question_of(Ask::seam, d_.kind)) d_.seam = value(Ask::seam);
    d_.round_edge = tubes() && d_.blanket == BlanketKind::full_wrap;
    d_.ribs_glued = a_.is(Ask::ribs_glued, draft_yes);
    d_.swing = value(Ask::swing);
    d_.approved = static_cast<DraftApproved>(a_.at(Ask::approved).value);
  }

  const DraftAnswers& a_;
  DraftedCase d_;
};

}  // namespace

DraftedCase drafted_case(const DraftAnswers& answers) { return Draft(answers).take(); }

}  // namespace evenpull
