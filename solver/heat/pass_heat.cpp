#include "solver/heat/pass_heat.hpp"

#include "solver/cloth/shrink.hpp"

#include <boost/math/constants/constants.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr double pi = boost::math::constants::pi<double>();
constexpr double shortest_contact = 0.05;  // s: where the search begins
constexpr double contact_digits = 12;      // bits of the answer
constexpr double light_at_most = 0.6;      // a dose above is worked by holding, not by touching
constexpr double clearly_steadier = 0.8;   // a lower setting is only worth its trouble if it scatters by so much less
constexpr double nose_at_lower_setting = 0.8;      // of its best: there it waits for the full pass
constexpr double most_scatter = 0.8;               // of a light dose that is still called one, one sigma: judgement
constexpr double coolest_setting_above_onset = 1;  // K

struct At {
  const Case& c;
  Eigen::Matrix3d compliance;
  double temperature;
};

Dose doses_at(const At& s, const Backing& b, const Touch& t) {
  return dose_of(s.c.cloth, s.compliance, heat_history(s.c, b, t), s.temperature);
}

// Of the slower yarn, which decides how long to stay.
double dose_at(const At& s, const Backing& b, const Touch& t) { return doses_at(s, b, t).slower; }

// Largest root of a rising function by a bracketing method; the ends where they already answer.
template <class F>
double solve_rising(const F& f, double low, double high) {
  const double at_low = f(low), at_high = f(high);
  if (at_low >= 0) return low;
  if (at_high <= 0) return high;
  std::uintmax_t most = 60;
  const auto close = boost::math::tools::eps_tolerance<double>(static_cast<int>(contact_digits));
  const auto bracket = boost::math::tools::toms748_solve(f, low, high, at_low, at_high, close, most);
  return 0.5 * (bracket.first + bracket.second);
}

double contact_for(const At& s, const Backing& b, double sole, double dose) {
  return solve_rising(
      [&](double t) {
        return dose_at(s, b, {sole, t}) - dose;
      },
      shortest_contact, s.c.iron.longest_dwell);
}

void fill(const At& s, const Backing& b, double sole, double asked, SpotHeat& h) {
  const HeatHistory history = heat_history(s.c, b, {sole, h.contact});
  const FittedLines f = fit_lines(s.c.cloth, s.compliance, history, s.temperature);
  h.dose = f.dose.slower;
  h.faster_dose = f.dose.faster;
  h.fit_error = f.fit_error;
  h.lines = f.lines;
  h.peak = history.peak;
  h.sag = history.sag;
  h.reaches = h.dose >= reach_share * asked;
}

// The two scatters are independent, so their squares add. A sine stands at swing/sqrt(2) in the root mean square. The low
// end is that of the slower yarn, the high end that of the faster.
void bound(const At& s, const Backing& b, double sole, SpotHeat& h) {
  const Iron& iron = s.c.iron;
  const double swing = iron.swing / std::sqrt(2.0);
  const auto went = [&](double warmer, double longer) {
    return doses_at(s, b, {sole + warmer, h.contact * (1 + longer)});
  };
  const Dose cooler = went(-swing, 0), shorter = went(0, -iron.hand_scatter), warmer = went(swing, 0),
             longer = went(0, iron.hand_scatter);
  h.dose_low = std::max(0.0, h.dose - std::hypot(cooler.slower - h.dose, shorter.slower - h.dose));
  h.dose_high = h.faster_dose + std::hypot(warmer.faster - h.faster_dose, longer.faster - h.faster_dose);
  h.best_dose = dose_at(s, b, {sole, iron.longest_dwell});
}

SpotHeat spot(const At& s, const Backing& b, double sole, double asked, double stated) {
  SpotHeat h;
  if (stated > 0) {
    h.contact = stated;
  } else {
    const double best = dose_at(s, b, {sole, s.c.iron.longest_dwell});
    h.contact = contact_for(s, b, sole, std::min(asked, most_of_best * best));
  }
  fill(s, b, sole, asked, h);
  bound(s, b, sole, h);
  return h;
}

PassHeat at_setting(const At& s, double asked, double sole, PassWay way, double stated) {
  PassHeat p;
  p.stage_temperature = s.temperature;
  p.asked = asked;
  p.way = way;
  p.sole_temperature = sole;
  p.open = spot(s, {}, sole, asked, stated);
  if (const auto nose = nose_backing(s.c)) {
    p.nose = spot(s, *nose, sole, asked, stated);
  }
  return p;
}

// Half the width of two places in three.
double scatter(const PassHeat& p) { return 0.5 * (p.open.dose_high - p.open.dose_low); }

// The sole temperature at which cloth held for `contact` takes the dose.
double setting_for(const At& s, double dose, double contact) {
  const double onset = s.c.cloth.curve.front().temperature + coolest_setting_above_onset;
  return solve_rising([&](double sole) { return dose_at(s, {}, {sole, contact}) - dose; }, onset, s.temperature);
}

At stage_of(const Case& c, double temperature) {
  return {c, compliance(c.cloth.stiffness.warp, c.cloth.stiffness.fill, c.cloth.poisson, c.cloth.shear), temperature};
}

PassHeat by_touch(const At& s, double asked) { return at_setting(s, asked, s.temperature, PassWay::touch, 0); }

PassHeat by_setting(const At& s, double asked) {
  const double hold =
      contact_for(s, {}, s.temperature, most_of_best * dose_at(s, {}, {s.temperature, s.c.iron.longest_dwell}));
  const double sole = setting_for(s, asked, hold);
  PassHeat p = at_setting(s, asked, sole, PassWay::setting, hold);
  if (!p.nose) return p;
  const Backing nose = *nose_backing(s.c);
  *p.nose = spot(s, nose, sole, std::min(asked, nose_at_lower_setting * p.nose->best_dose), 0);
  p.nose->reaches = p.nose->dose >= reach_share * asked;
  return p;
}

}  // namespace

PassHeat pass_heat(const Case& c, double temperature, double dose, double contact) {
  const At s = stage_of(c, temperature);
  if (contact > 0) return at_setting(s, dose, temperature, PassWay::hold, contact);
  if (is_full_pass(dose)) return at_setting(s, dose, temperature, PassWay::hold, 0);
  const PassHeat touch = by_touch(s, dose), setting = by_setting(s, dose);
  // The shortest contact that a hand can give everywhere: the sole drawn across its short side.
  const double least = std::min(c.iron.sole_length, c.iron.sole_width) / c.iron.fastest_stroke;
  const bool too_short = touch.open.contact < least;
  return too_short || scatter(setting) < clearly_steadier * scatter(touch) ? setting : touch;
}

bool yarns_too_unlike(const PassHeat& p) { return p.asked <= light_at_most && p.open.faster_dose > light_at_most; }

bool can_be_had(const PassHeat& p) { return !yarns_too_unlike(p) && scatter(p) <= most_scatter * p.open.dose; }

PassHeat as_it_went(const Case& c, const PassHeat& meant, double warmer, double longer) {
  const At s = stage_of(c, meant.stage_temperature);
  PassHeat p = meant;
  p.sole_temperature += warmer;
  p.open.contact *= longer;
  fill(s, {}, p.sole_temperature, meant.asked, p.open);
  if (p.nose) {
    p.nose->contact *= longer;
    fill(s, *nose_backing(c), p.sole_temperature, meant.asked, *p.nose);
  }
  return p;
}

// Cumulative share F of a sine met at a random moment, asin(x)/pi + 1/2; the highest of n has F^n, so its mean is
// 1 - integral of F^n over -1..1. With x = -cos(pi p), p = F, that is the integral of -cos(pi p) n p^(n-1) over 0..1.
double top_of_swing_met(int passes) {
  if (passes <= 1) return 0;
  const auto density = [&](double p) { return -std::cos(pi * p) * passes * std::pow(p, passes - 1); };
  return boost::math::quadrature::gauss_kronrod<double, 31>::integrate(density, 0.0, 1.0);
}

bool is_full_pass(double dose) { return dose > light_at_most; }

double stated_contact(const Case& c, int stage, int pass, double dose) {
  constexpr double same_dose = 1e-4;  // orders on paper round their doses
  const Stage& s = c.stages[stage];
  const std::size_t i = static_cast<std::size_t>(pass) - 1;
  const bool listed = pass >= 1 && i < s.dwells.size() && std::abs(s.doses[i] - dose) < same_dose;
  return listed ? s.dwells[i] : 0;
}

}  // namespace evenpull::inline solver
