#include "shop/tap.hpp"

#include "solver/sound/tight_bay.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace evenpull {
namespace {

constexpr double gravity = 9.81;              // m/s^2
constexpr double sigmas_of_95 = 1.959963985;  // of a normal distribution
constexpr int air_steps = 32;
constexpr int most_iterations = 100;

double squared(double x) { return x * x; }

// Equal parts of a distribution of the logarithm, each normal: what is spread evenly stands in the means.
struct Part {
  double mean = 0, off = 0;
};

double quantile_of(const std::vector<Part>& parts, double p) {
  double low = 1e300, high = -1e300;
  for (const Part& x : parts) low = std::min(low, x.mean - 8 * x.off), high = std::max(high, x.mean + 8 * x.off);
  const auto missing = [&](double x) {
    double sum = 0;
    for (const Part& part : parts) sum += boost::math::cdf(boost::math::normal(part.mean, part.off), x);
    return sum / static_cast<double>(parts.size()) - p;
  };
  std::uintmax_t most = most_iterations;
  const auto found =
      boost::math::tools::toms748_solve(missing, low, high, boost::math::tools::eps_tolerance<double>(40), most);
  return 0.5 * (found.first + found.second);
}

PullRange range_of(const std::vector<Part>& parts) {
  return {std::exp(quantile_of(parts, 0.5)), std::exp(quantile_of(parts, 0.025)), std::exp(quantile_of(parts, 0.975))};
}

double mean_pull(const BayTone& b) { return std::sqrt(b.pull_chord * b.pull_span); }

// Both skins of a bay going the same way, sweeping as much: one mode with what both have of each.
BayTone together(const BayTone& a, const BayTone& b) {
  BayTone out = a;
  const double scale = squared(a.swept / b.swept);
  for (double BayTone::*of : {&BayTone::area, &BayTone::stiffness, &BayTone::shape_stiffness, &BayTone::wall_air,
                              &BayTone::free_air, &BayTone::behind})
    out.*of = a.*of + scale * b.*of;
  return out;
}

struct Tapped {
  PullRange pull;
  PullDoubt doubt;
  double air_over_cloth = 0;
};

std::optional<Tapped> with_air(const BayTone& mode, const ToneReading& r, const TapData& d, AirBetween air,
                               double further_off) {
  std::vector<Part> parts;
  Tapped out;
  double known = 0, mean = 0, square = 0;
  for (int i = 0; i < air_steps; ++i) {
    const double volume = air.least * std::pow(air.most / air.least, (i + 0.5) / air_steps);
    const double moving = d.air_density * volume, cloth = d.areal_mass * mode.area;
    const double times = pull_of(mode, r.tone, d.areal_mass, moving);
    if (!(times > 0)) return {};
    const double steep = (times * (mode.stiffness - mode.shape_stiffness) + mode.shape_stiffness) /
                         (times * (mode.stiffness - mode.shape_stiffness));  // d ln pull/d ln(mass x frequency^2)
    const double reading = squared(2 * steep * r.off);
    const double mass = squared(steep * cloth / (cloth + moving) * d.areal_mass_off);
    const double density = squared(steep * moving / (cloth + moving) * d.air_density_off);
    const double shape = squared(d.geometry_off) + squared((mode.chord_weight - 0.5) * d.yarns_off) +
                         squared((steep - 1) * d.shape_stiffness_off) + squared(further_off);
    parts.push_back({std::log(mean_pull(mode) * times), std::sqrt(reading + mass + density + shape)});
    out.doubt.reading += reading / air_steps, out.doubt.cloth_mass += mass / air_steps;
    out.doubt.air += density / air_steps, out.doubt.shape += shape / air_steps;
    out.air_over_cloth += moving / cloth / air_steps;
    mean += parts.back().mean / air_steps, square += squared(parts.back().mean) / air_steps;
  }
  out.doubt.air += std::max(0.0, square - squared(mean));
  known = out.doubt.reading + out.doubt.cloth_mass + out.doubt.air + out.doubt.shape;
  for (double PullDoubt::*of : {&PullDoubt::reading, &PullDoubt::cloth_mass, &PullDoubt::air, &PullDoubt::shape})
    out.doubt.*of /= known;
  out.pull = range_of(parts);
  return out;
}

PullRange wider(const PullRange& a, const PullRange& b) {
  return {std::sqrt(a.middle * b.middle), std::min(a.low, b.low), std::max(a.high, b.high)};
}

TightBay rectangle(const BayTone& b, double pull) {
  const double times = pull / mean_pull(b);
  return {b.field.chordwise, b.field.spanwise, b.pull_chord * times, b.pull_span * times};
}

// The least pull at which stretch may leave so much sag; none: stretch alone holds the weight.
std::optional<double> least_pull(const BayTone& b, const SagReading& r, const TapData& d, double most) {
  const auto sag = [&](double pull) {
    return least_sag_under_disc(rectangle(b, pull), r.weight * gravity, d.disc / 2, d.stiffness) - r.sag;
  };
  constexpr double next_to_nothing = 1e-3;  // of the most
  if (sag(next_to_nothing * most) <= 0) return {};
  std::uintmax_t times = most_iterations;
  const auto found = boost::math::tools::toms748_solve(sag, next_to_nothing * most, most,
                                                       boost::math::tools::eps_tolerance<double>(30), times);
  return 0.5 * (found.first + found.second);
}

}  // namespace

PullRange lognormal_range(double median, double off) {
  return {median, median * std::exp(-sigmas_of_95 * off), median * std::exp(sigmas_of_95 * off)};
}

ToneRead pull_from_tone(const BayTone& bay, const BayTone* other, const ToneReading& r, const TapData& d,
                        Behind behind) {
  ToneRead out;
  out.reading = r;
  out.bay = &bay;
  std::optional<Tapped> open, skin;
  if (behind == Behind::open || behind == Behind::either) open = with_air(bay, r, d, air_open_behind(bay), 0);
  if (behind != Behind::open)
    out.shut_in = share_of_shut_in_air(bay, behind == Behind::held ? nullptr : other, d.areal_mass, d.air_density);
  const bool governed = out.shut_in > most_shut_in;
  if (behind != Behind::open && !governed) {
    const BayTone both = other ? together(bay, *other) : bay;
    skin = with_air(both, r, d, air_shut_in(both), d.two_skins_off);
  }
  if (open) out.open = open->pull;
  if (skin) out.skin = skin->pull;
  const auto& told = skin ? skin : open;
  if (told) out.doubt = told->doubt, out.air_over_cloth = told->air_over_cloth;
  if (open && skin) out.pull = wider(open->pull, skin->pull);
  else if (told && !governed) out.pull = told->pull;
  return out;
}

void compare_tones(std::vector<ToneRead>& reads, const TapData& d) {
  const ToneRead* first = nullptr;
  for (ToneRead& r : reads) {
    if (r.pull) continue;
    if (!first) first = &r;
    const auto squared_tone = [&](const ToneRead& t) {
      return std::log(
          std::max(1e-9, pull_of(*t.bay, t.reading.tone, d.areal_mass, d.air_density * air_shut_in(*t.bay).most)) *
          mean_pull(*t.bay));
    };
    const double off =
        std::sqrt(squared(2 * r.reading.off) + squared(2 * first->reading.off) + squared(d.geometry_off));
    r.against_first = lognormal_range(std::exp(squared_tone(r) - squared_tone(*first)), &r == first ? 0 : off);
  }
}

SagRead pull_from_sag(const BayTone& bay, const SagReading& r, const TapData& d) {
  SagRead out;
  out.reading = r;
  out.bay = &bay;
  const double narrow = std::min(bay.field.chordwise, bay.field.spanwise);
  out.trouble = d.disc > widest_disc * narrow  ? SagRead::Trouble::too_small_for_disc
                : r.sag > deepest_sag * narrow ? SagRead::Trouble::too_deep
                                               : SagRead::Trouble::nothing;
  if (out.trouble != SagRead::Trouble::nothing) return out;
  constexpr double one = 1;  // N/m: the sag is as the pull's inverse
  const double most = sag_under_disc(rectangle(bay, one), r.weight * gravity, d.disc / 2) / r.sag;
  const auto least = least_pull(bay, r, d, most);
  if (!least) {
    out.trouble = SagRead::Trouble::too_deep;
    return out;
  }
  std::vector<Part> parts;
  const double further = squared(d.weight_off) + squared(d.geometry_off);
  // The sag's own error counts more where stretch bears much of the weight.
  const double steep = 1 + 2 * (most / *least - 1);
  for (int i = 0; i < air_steps; ++i) {
    const double share = (i + 0.5) / air_steps;
    parts.push_back({std::log(*least) + share * std::log(most / *least),
                     std::sqrt(squared(d.sag_off / r.sag * (1 + (steep - 1) * (1 - share))) + further)});
  }
  out.pull = range_of(parts);
  return out;
}

}  // namespace evenpull
