#include "solver/sound/bay_tone.hpp"

#include "solver/readings/readings.hpp"
#include "solver/sound/air_mass.hpp"
#include "solver/sound/free_air.hpp"
#include "solver/sound/vibration.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

namespace evenpull::inline solver {
namespace {

constexpr double two_pi = 6.28318530717958647692;
constexpr double adiabatic = 1.4;      // ratio of the heats of air; from memory, any table
constexpr double pressure = 101325.0;  // Pa, sea level
// The state and the same with twice the pull tell stiffness of pull and of shape apart.
constexpr double twice = 2;

Covering pulled_harder(const Covering& s, double times) {
  Covering out = s;
  for (Tension& t : out.tension) t.pull *= times, t.wrinkle /= times;
  return out;
}

std::vector<Eigen::Vector3d> places(const Model& m, const Covering& s) {
  std::vector<Eigen::Vector3d> out;
  for (std::size_t i = 0; i < m.panel.nodes.size(); ++i)
    out.push_back(m.panel.nodes[i].placed + displacement(m.unknowns.nodes[i], s.unknowns));
  return out;
}

std::vector<std::array<int, 4>> corners_of(const Panel& p, const std::vector<int>& quads) {
  std::vector<std::array<int, 4>> out;
  for (const int q : quads) out.push_back(p.quads[q].nodes);
  return out;
}

std::vector<int> whole_side(const Panel& p, Side side) {
  std::vector<int> out;
  for (std::size_t q = 0; q < p.quads.size(); ++q)
    if (p.quads[q].side == side) out.push_back(static_cast<int>(q));
  return out;
}

// To the other skin, at a quad.
double depth_at(const Panel& p, const Quad& q) {
  const Side other = q.side == Side::top ? Side::bottom : Side::top;
  const auto z = [&](Side s, int row, int column) { return p.nodes[p.node(s, row, column)].placed.z(); };
  double depth = 0;
  for (const int r : {q.row, q.row + 1})
    for (const int c : {q.column, q.column + 1}) depth += 0.25 * std::abs(z(q.side, r, c) - z(other, r, c));
  return depth;
}

bool is_tight(const Model& m, const Covering& s, const FreeField& f) {
  return std::all_of(f.quads.begin(), f.quads.end(),
                     [&](int q) { return quad_pull(m, s, q).principal.minor > m.loose_pull; });
}

void read_field(const Model& m, const Covering& s, const Eigen::VectorXd& across, BayTone& t) {
  const Panel& p = m.panel;
  double area = 0, square = 0;
  for (const int i : t.field.quads) {
    const Quad& q = p.quads[i];
    const QuadPull pull = quad_pull(m, s, i);
    double mode = 0;
    for (const int n : q.nodes) mode += 0.25 * std::abs(across[n]);
    area += q.area;
    t.pull_chord += q.area * pull.chord, t.pull_span += q.area * pull.span;
    t.swept += q.area * mode;
    square += q.area * mode * mode;
    t.behind += q.area * mode * mode * depth_at(p, q);
  }
  t.pull_chord /= area, t.pull_span /= area;
  t.depth = t.behind / square;
  for (const Quad& q : p.quads)
    if (q.side == t.field.side && q.column >= t.field.first_column && q.column < t.field.last_column)
      t.enclosed += q.area * depth_at(p, q);
  const double x = t.pull_chord / (t.field.chordwise * t.field.chordwise),
               y = t.pull_span / (t.field.spanwise * t.field.spanwise);
  t.chord_weight = x / (x + y);
}

}  // namespace

std::vector<std::optional<BayTone>> bay_tones(Equilibrium& e, const Covering& state,
                                              const std::vector<std::pair<Side, int>>& bays) {
  const Model& m = e.model();
  const Panel& p = m.panel;
  const std::vector<Eigen::Vector3d> nodes = places(m, state);
  const Sparse once = e.tangent(state), harder = e.tangent(pulled_harder(state, twice));
  std::array<std::unique_ptr<FreeAir>, 2> free;
  std::vector<std::optional<BayTone>> out;
  for (const auto& [side, bay] : bays) {
    out.emplace_back();
    const auto field = free_field(p, side, bay);
    if (!field || !is_tight(m, state, *field)) continue;
    const Vibration v = natural_vibrations(e, state, {.areal_mass = 1, .quads = field->quads}).front();
    const AirMass wall(nodes, corners_of(p, field->quads));
    auto& free_air = free[static_cast<int>(side)];
    if (!free_air) free_air = std::make_unique<FreeAir>(nodes, corners_of(p, whole_side(p, side)));
    const auto across = [&](const Eigen::Vector3d& normal) {
      Eigen::VectorXd w(nodes.size());
      for (int i = 0; i < w.size(); ++i) w[i] = displacement(m.unknowns.nodes[i], v.shape).dot(normal);
      return w;
    };
    BayTone t;
    t.field = *field;
    t.frequency = v.frequency;
    t.area = v.cloth_mass;
    t.stiffness = v.shape.dot(once.selfadjointView<Eigen::Lower>() * v.shape);
    const double hard = v.shape.dot(harder.selfadjointView<Eigen::Lower>() * v.shape);
    t.shape_stiffness = t.stiffness - (hard - t.stiffness) / (twice - 1);
    t.wall_air = wall.volume(across(wall.normal()));
    t.free_air = free_air->volume(across(free_air->normal()));
    read_field(m, state, across(wall.normal()), t);
    out.back() = t;
  }
  return out;
}

BayTone between_meshes(const BayTone& coarse, const BayTone& fine) {
  const double quads = static_cast<double>(fine.field.quads.size()) / static_cast<double>(coarse.field.quads.size());
  if (!(quads > 1)) return fine;
  const auto mean_pull = [](const BayTone& t) { return std::sqrt(t.pull_chord * t.pull_span); };
  // By the mode's own area, and stiffness by the pull too: both meshes have states of their own.
  const auto limit = [&](double BayTone::*of, double order_of_quads, bool by_pull) {
    const double a = coarse.*of / coarse.area / (by_pull ? mean_pull(coarse) : 1),
                 b = fine.*of / fine.area / (by_pull ? mean_pull(fine) : 1);
    const double at_last = b + (b - a) / (std::pow(quads, order_of_quads) - 1);
    return at_last * fine.area * (by_pull ? mean_pull(fine) : 1);
  };
  BayTone out = fine;
  out.stiffness = limit(&BayTone::stiffness, 1, true);
  out.shape_stiffness *= out.stiffness / fine.stiffness;
  out.frequency *= std::sqrt(out.stiffness / fine.stiffness);
  out.wall_air = limit(&BayTone::wall_air, 1, false);
  out.free_air = limit(&BayTone::free_air, 0.5, false);
  return out;
}

double tone_of(const BayTone& t, double pull_times, double areal_mass, double air_mass) {
  return std::sqrt(stiffness_at(t, pull_times) / (areal_mass * t.area + air_mass)) / two_pi;
}

double pull_of(const BayTone& t, double frequency, double areal_mass, double air_mass) {
  const double omega = two_pi * frequency;
  return (omega * omega * (areal_mass * t.area + air_mass) - t.shape_stiffness) / (t.stiffness - t.shape_stiffness);
}

AirBetween air_open_behind(const BayTone& t) { return {t.free_air, 2 * t.wall_air + t.behind}; }

AirBetween air_shut_in(const BayTone& t) {
  return {0.5 * (t.free_air + t.behind), most_air_sides * t.wall_air + t.behind};
}

double shut_in_stiffness(double swept, double volume) { return adiabatic * pressure * swept * swept / volume; }

double share_of_shut_in_air(const BayTone& tapped, const BayTone* other, double areal_mass, double air_density) {
  const double air = shut_in_stiffness(tapped.swept, tapped.enclosed);
  if (!other) return air / (air + tapped.stiffness);
  // Two skins, each with its mode x or y (outward positive), volume swept v.x + u.y: the lower root of a pencil of two.
  const double v = tapped.swept, u = other->swept, k = air / (v * v);
  const auto mass = [&](const BayTone& t) { return areal_mass * t.area + air_density * air_shut_in(t).least; };
  Eigen::Matrix2d stiffness, root = Eigen::Matrix2d::Zero();
  stiffness << tapped.stiffness + k * v * v, k * v * u, k * v * u, other->stiffness + k * u * u;
  root.diagonal() << 1 / std::sqrt(mass(tapped)), 1 / std::sqrt(mass(*other));
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> pair(root * stiffness * root);
  const Eigen::Vector2d mode = root * pair.eigenvectors().col(0);
  const double squeezed = k * std::pow(v * mode[0] + u * mode[1], 2);
  return squeezed / mode.dot(stiffness * mode);
}

}  // namespace evenpull::inline solver
