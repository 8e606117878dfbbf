#include "solver/heat/heat_history.hpp"

#include "solver/heat/heat_integrator.hpp"
#include "solver/heat/thermal.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

// Instants at which a history is kept: under the sole they crowd towards the touch, after it towards the lifting.
constexpr int instants_hot = 40, instants_cooling = 30;
constexpr double crowding = 2;       // power of the spacing
constexpr double cooled_in = 3;      // cooling times of open cloth after which nothing more happens
constexpr double reach = 4;          // decay lengths of the sheet that are followed beyond the sole
constexpr double cell_growth = 1.6;  // of the cells beyond the sole
constexpr double least_band = 2;     // K: a thermostat never holds more closely than this

// Lump 0 is the sole, then the cloth under it, then the backing: under the sole, and for a sheet beyond it.
struct Layout {
  int cloth = 1;  // lumps of cloth
  int backing = 0, beyond = 0;
  int cloth_at(int i) const { return 1 + i; }
  int backing_at(int i) const { return 1 + cloth + i; }
  int size() const { return 1 + cloth + backing + beyond; }
};

bool is_wood(const Backing& b) { return b.solid.conductivity < 2; }  // W/(m K): woods lie near 0.1, metals above 15

Layout lay_out(const Backing& b, const HeatMesh& mesh) {
  if (b.open()) return {};
  if (is_wood(b)) return {1, mesh.under + mesh.beyond, 0};
  return {mesh.under, mesh.under, mesh.beyond};
}

std::vector<double> instants(double span, int n) {
  std::vector<double> t;
  for (int i = 0; i <= n; ++i) t.push_back(span * std::pow(static_cast<double>(i) / n, crowding));
  return t;
}

// The heater answers a sole that has fallen by the thermostat's band with all it has to spare.
struct Heater {
  double spare = 0;  // W per m^2 of sole
  double slope = 0;  // W/K per m^2
};

Heater heater_of(const Iron& iron, double sole_temperature) {
  const double area = iron.sole_length * iron.sole_width;
  const double spare = std::max(0.0, iron.power - idle_loss * (sole_temperature - iron.room));
  return {spare / area, spare / area / std::max(least_band, iron.swing)};
}

// Everything but the sole's links: cloth, backing and air. `pressed`: the sole lies on the cloth.
class Bench {
 public:
  Bench(const Case& c, const Backing& b, const Touch& t, const HeatMesh& mesh)
      : case_(c), backing_(b), touch_(t), layout_(lay_out(b, mesh)), middle_(0.5 * (t.sole_temperature + c.iron.room)) {
    up_ = air_conductance(middle_, true);
    down_ = air_conductance(middle_, false);
  }

  const Layout& layout() const { return layout_; }

  HeatNetwork network(bool pressed) const {
    HeatNetwork n(layout_.size());
    const Iron& iron = case_.iron;
    const double area = iron.sole_length * iron.sole_width;
    n.capacity[0] = iron.heat_capacity / area;
    const Heater heater = heater_of(iron, touch_.sole_temperature);
    n.link_to(0, heater.slope, touch_.sole_temperature);
    for (int i = 0; i < layout_.cloth; ++i) {
      const double share = 1.0 / layout_.cloth;
      n.capacity[layout_.cloth_at(i)] = share * case_.cloth.areal_mass * cloth_specific_heat;
      if (pressed) n.link(0, layout_.cloth_at(i), share * iron.conductance);
      else n.link_to(layout_.cloth_at(i), share * up_, iron.room);
      if (backing_.open()) n.link_to(layout_.cloth_at(i), share * down_, iron.room);
    }
    if (!backing_.open()) is_wood(backing_) ? add_depth(n) : add_sheet(n);
    return n;
  }

  double cooling() const { return cooling_time(case_.cloth.areal_mass, middle_); }

 private:
  // A sheet, even through its thickness, that carries heat sideways out from under the sole (a straight fin).
  void add_sheet(HeatNetwork& n) const {
    const double half = 0.5 * std::min(case_.iron.sole_length, case_.iron.sole_width);
    const double carried = backing_.solid.conductivity * backing_.thickness;  // W/K per square
    const double decay = std::sqrt(carried / (up_ + down_));
    std::vector<double> width(layout_.backing, half / layout_.backing);
    double grown = 0;
    for (int i = 0; i < layout_.beyond; ++i) grown += std::pow(cell_growth, i);
    for (int i = 0; i < layout_.beyond; ++i) width.push_back(reach * decay * std::pow(cell_growth, i) / grown);
    const double stored = backing_.thickness * backing_.solid.density * backing_.solid.specific_heat;
    for (int i = 0; i < static_cast<int>(width.size()); ++i) {
      const int at = layout_.backing_at(i);
      const double share = width[i] / half;
      n.capacity[at] = share * stored;
      n.link_to(at, share * down_, case_.iron.room);
      if (i < layout_.backing) n.link(layout_.cloth_at(i), at, share * case_.iron.conductance);
      else n.link_to(at, share * up_, case_.iron.room);
      if (i > 0) n.link(at - 1, at, carried / (0.5 * (width[i - 1] + width[i])) / half);
    }
  }

  // A slab in depth, even sideways.
  void add_depth(HeatNetwork& n) const {
    const int layers = layout_.backing;
    double grown = 0;
    for (int i = 0; i < layers; ++i) grown += std::pow(cell_growth, i);
    const double stored = backing_.solid.density * backing_.solid.specific_heat;
    double before = 0;
    for (int i = 0; i < layers; ++i) {
      const double depth = backing_.thickness * std::pow(cell_growth, i) / grown;
      const int at = layout_.backing_at(i);
      n.capacity[at] = depth * stored;
      const double half_layer = 0.5 * depth / backing_.solid.conductivity;
      if (i == 0) n.link(layout_.cloth_at(0), at, 1 / (1 / case_.iron.conductance + half_layer));
      else n.link(at - 1, at, 1 / (before + half_layer));
      before = half_layer;
    }
    n.link_to(layout_.backing_at(layers - 1), 1 / (1 / down_ + before), case_.iron.room);
  }

  const Case& case_;
  const Backing& backing_;
  const Touch& touch_;
  Layout layout_;
  double middle_;  // of the range that the air is met in [K]
  double up_ = 0, down_ = 0;
};

}  // namespace

std::optional<Backing> nose_backing(const Case& c) {
  if (c.blanket.nose_chord_fraction <= c.blanket.seam_chord_fraction) return {};
  for (const SpanMember& m : c.span_members)
    if (m.make.shape.kind == SectionShape::Kind::closed_nose)
      return Backing{c.blanket.nose_sheet > 0 ? c.blanket.nose_sheet : m.make.shape.wall,
                     heat_of(c.materials[m.make.material])};
  if (c.blanket.nose_sheet <= 0) return {};
  return Backing{c.blanket.nose_sheet, heat_of(c.materials[c.span_members.front().make.material])};
}

HeatHistory heat_history(const Case& c, const Backing& b, const Touch& touch, const HeatMesh& mesh) {
  const Bench bench(c, b, touch, mesh);
  const Layout& l = bench.layout();
  const HeatNetwork pressed = bench.network(true), free = bench.network(false);
  Eigen::VectorXd start = Eigen::VectorXd::Constant(l.size(), c.iron.room);
  start[0] = touch.sole_temperature;
  HeatHistory out;
  out.spots.resize(l.cloth);
  const auto keep = [&](double time, const Eigen::VectorXd& t) {
    for (int i = 0; i < l.cloth; ++i) {
      out.spots[i].time.push_back(time);
      out.spots[i].temperature.push_back(t[l.cloth_at(i)]);
    }
    out.sag = std::max(out.sag, touch.sole_temperature - t[0]);
  };
  const std::vector<double> hot = instants(touch.contact, instants_hot);
  const HeatModes heating(pressed, start);
  std::vector<Eigen::VectorXd> states;
  for (double t : hot) states.push_back(heating.at(t));
  const double band = std::max(least_band, c.iron.swing);
  out.heater_at_stop =
      std::any_of(states.begin(), states.end(), [&](const auto& t) { return touch.sole_temperature - t[0] > band; });
  if (out.heater_at_stop) {
    const Heater heater = heater_of(c.iron, touch.sole_temperature);
    states = integrate_heat(
        pressed, start,
        [&](const Eigen::VectorXd& t) {
          Eigen::VectorXd extra = Eigen::VectorXd::Zero(t.size());
          const double asked = heater.slope * (touch.sole_temperature - t[0]);
          extra[0] = std::min(0.0, heater.spare - asked);  // never more than it has
          return extra;
        },
        hot);
  }
  for (std::size_t i = 0; i < hot.size(); ++i) keep(hot[i], states[i]);
  const HeatModes cooling(free, states.back());
  const std::vector<double> after = instants(cooled_in * bench.cooling(), instants_cooling);
  for (std::size_t i = 1; i < after.size(); ++i) keep(touch.contact + after[i], cooling.at(after[i]));
  for (const SpotHistory& s : out.spots)
    out.peak = std::max(out.peak, *std::max_element(s.temperature.begin(), s.temperature.end()));
  return out;
}

}  // namespace evenpull::inline solver
