// Heat of the iron against closed forms of heat conduction. Formulas as in any textbook of heat transfer (Incropera and
// DeWitt, Fundamentals of Heat and Mass Transfer: lumped capacity, fins, semi-infinite bodies; Carslaw and Jaeger,
// Conduction of Heat in Solids), all from memory and derived again here.
#include "solver/heat/dose.hpp"
#include "solver/heat/heat_history.hpp"
#include "solver/heat/heat_integrator.hpp"
#include "solver/heat/thermal.hpp"
#include "tests/support/book.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;

namespace {

// An iron that no cloth can cool, so that the sole stands at one temperature.
Case endless_iron() {
  Case c = sample::aileron(6, 1.8, 0.35);
  c.iron.heat_capacity = 1e9;
  return c;
}

constexpr double sole = 450;  // K

double middle(const Case& c) { return 0.5 * (sole + c.iron.room); }

double cloth_at(const Case& c, const Backing& b, double contact, const HeatMesh& mesh, int spot = 0) {
  const HeatHistory h = heat_history(c, b, {sole, contact}, mesh);
  const SpotHistory& s = h.spots[spot];
  for (std::size_t i = 0; i < s.time.size(); ++i)
    if (s.time[i] >= contact * (1 - 1e-12)) return s.temperature[i];
  return 0;
}

double mean_cloth_at(const Case& c, const Backing& b, double contact, const HeatMesh& mesh) {
  double sum = 0;
  for (int i = 0; i < mesh.under; ++i) sum += cloth_at(c, b, contact, mesh, i);
  return sum / mesh.under;
}

constexpr book::Chapter heat{"Heat shrink"};

const std::string lumped_source = "lumped capacity, textbook formula, from memory";
const Backing aluminium_sheet{0.5e-3, {121, 2780, 875}};

}  // namespace

TEST_CASE("cloth over an open bay heats up as a lump of its mass does") {
  const Case c = endless_iron();
  const double air = air_conductance(middle(c), false), store = c.cloth.areal_mass * cloth_specific_heat;
  const double tau = store / (c.iron.conductance + air);
  const double end = (c.iron.conductance * sole + air * c.iron.room) / (c.iron.conductance + air);
  for (const double t : {0.2, 0.5, 1.0})
    heat.number("Open cloth under the sole", std::to_string(t).substr(0, 3) + " s: temperature above the room [K]",
                lumped_source, (end - c.iron.room) * (1 - std::exp(-t / tau)), cloth_at(c, {}, t, {}) - c.iron.room,
                1e-6);
}

TEST_CASE("two lumps in contact come together at the rate of both") {
  HeatNetwork n(2);
  n.capacity << 300, 120;
  n.link(0, 1, 80);
  const Eigen::Vector2d start(450, 290);
  const HeatModes modes(n, start);
  const double common = (300 * 450 + 120 * 290) / 420.0, rate = 80 * (1 / 300.0 + 1 / 120.0);
  for (const double t : {0.5, 3.0}) {
    const Eigen::VectorXd now = modes.at(t);
    const std::string at = std::to_string(t).substr(0, 3) + " s: difference [K]";
    heat.number("Two lumps in contact", at, lumped_source, 160 * std::exp(-rate * t), now[0] - now[1], 1e-10);
    const auto integrated = integrate_heat(n, start, {}, {0, t});
    heat.number("Two lumps in contact, stiff integrator", at, lumped_source, 160 * std::exp(-rate * t),
                integrated.back()[0] - integrated.back()[1], 1e-5, "step control at 1e-6");
    CHECK((300 * now[0] + 120 * now[1]) / 420 == Approx(common).epsilon(1e-12));
  }
}

TEST_CASE("a sheet under the sole draws heat sideways as a straight fin does") {
  const Case c = endless_iron();
  const double half = 0.05, carried = aluminium_sheet.solid.conductivity * aluminium_sheet.thickness;
  const double up = air_conductance(middle(c), true), down = air_conductance(middle(c), false);
  // Steady: k t theta'' = g (theta - theta_sole) + h theta under the sole with sole, cloth and sheet in series, a fin with
  // both faces in air beyond it; value and slope match at the edge.
  const double g = 0.5 * c.iron.conductance, inside = std::sqrt((g + down) / carried),
               beyond = std::sqrt((up + down) / carried);
  const double hot = sole - c.iron.room, level = g * hot / (g + down);
  const double edge = level / (1 + beyond * std::cosh(inside * half) / (inside * std::sinh(inside * half)));
  const double lost = beyond * edge / (inside * std::sinh(inside * half));
  const auto cloth = [&](double sheet) { return 0.5 * (hot + sheet); };
  const double mean = cloth(level - lost * std::sinh(inside * half) / (inside * half));
  std::vector<MeshLevel> levels;
  for (const int cells : {4, 8, 16}) {
    const HeatMesh mesh{cells, 2 * cells};
    levels.push_back({1.0 / cells, mean_cloth_at(c, aluminium_sheet, 900, mesh) - c.iron.room});
  }
  heat.study("Cloth over 0.5 mm aluminium, sole held on it, steady", "mean over the sole above the room [K]",
             "straight fin, derived here", mean, 2e-3, levels, {2, 0},
             "the sheet is followed for four decay lengths beyond the sole");
  heat.number("Cloth over 0.5 mm aluminium, sole held on it, steady", "middle of the sole above the room, 16 cells [K]",
              "straight fin, derived here", cloth(level - lost),
              cloth_at(c, aluminium_sheet, 900, {16, 32}) - c.iron.room, 2e-3, "the middle cell stands for its mean");
}

TEST_CASE("thick wood under the sole warms as a half space behind a conductance does") {
  Case c = endless_iron();
  c.cloth.areal_mass = 1e-4;  // next to nothing: the half space alone
  const Backing wood{0.06, {0.11, 420, 1600}};
  const double g = 0.5 * c.iron.conductance, k = wood.solid.conductivity,
               spread = k / (wood.solid.density * wood.solid.specific_heat);
  const double hot = sole - c.iron.room;
  for (const double t : {2.0, 10.0}) {
    const double x = g * std::sqrt(spread * t) / k;
    const double surface = hot * (1 - std::exp(x * x) * std::erfc(x));
    heat.number("Cloth on thick spruce", std::to_string(t).substr(0, t < 10 ? 1 : 2) + " s: above the room [K]",
                "half space with surface conductance, textbook formula, from memory", 0.5 * (hot + surface),
                cloth_at(c, wood, t, {18, 12}) - c.iron.room, 4e-3,
                "thirty layers, each 1.6 times as thick as the one above it");
  }
}

TEST_CASE("the rate law sums to its closed forms") {
  const double f300 = (300 + 459.67) / 1.8, f350 = (350 + 459.67) / 1.8;
  Cloth cloth = sample::cloth();
  cloth.half_time = std::log(2.0);  // 1/s at 350 degF
  cloth.activation = 120e3;
  cloth.curve = {{350, {0, 0}, {0, 0}}, {400, {0.1, 0.1}, {900, 900}}, {500, {0.1, 0.1}, {900, 900}}};
  const Eigen::Matrix3d c = compliance(100e3, 100e3, 0.1, 5e3);
  const auto held = [](std::initializer_list<std::pair<double, double>> pieces) {
    SpotHistory h;
    double t = 0;
    for (const auto& [temperature, seconds] : pieces) {
      for (const double at : {t, t + seconds}) h.time.push_back(at), h.temperature.push_back(temperature);
      t += seconds;
    }
    return HeatHistory{{h}, 0, 0, false};
  };
  const std::string source = "exp(-Ea/R (1/T - 1/Tref)), worked by hand from the formula";
  const auto dose = [&](const HeatHistory& h) { return dose_of(cloth, c, h, f350).slower; };
  heat.number("Dose at constant temperature", "3 half times x 1.4427: dose", "1 - exp(-k t)", 1 - std::exp(-3.0),
              dose(held({{f350, 3}})), 1e-9);
  heat.number("Dose at two temperatures", "5 s at 300 °F", source, 0.453974, dose(held({{f300, 5}})), 3e-6);
  heat.number("Dose at two temperatures", "5 s at 300 °F, then 2 s at 350 °F", source, 0.926103,
              dose(held({{f300, 5}, {f350, 2}})), 3e-6);
  heat.number("Dose at two temperatures", "2 s at 350 °F, then 5 s at 300 °F", source, 0.926103,
              dose(held({{f350, 2}, {f300, 5}})), 3e-6);
}
