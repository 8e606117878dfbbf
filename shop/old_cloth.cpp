#include "shop/old_cloth.hpp"

#include "sequencer/numbers/normals.hpp"
#include "sequencer/sure/scenario.hpp"
#include "solver/cloth/fabric_law.hpp"
#include "solver/cloth/shrink.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace evenpull {
namespace {

constexpr int cloths = 4000;
constexpr unsigned of_cloths = 41;  // seed
// What is left of the pull after years, and how unlike that is from cloth to cloth, in the logarithm (estimate: a fifth in ten years,
// more where it was hot in the sun or the edge gave way; docs/data.md).
constexpr double left_in_years = 0.8, left_scatter = 0.3;
// Ironed again hotter, cloth comes to its own pull less up to a tenth for what has grown in it meanwhile (estimate).
constexpr double least_again = 0.90;
// Fewer cloths that explain a reading say that it is not of such cloth.
constexpr double least_that_explain = 40;
constexpr double low_share = 0.025, high_share = 0.975;

// One way the cloth may be: as drawn, what it had to give up, and how hot it has been.
struct Drawn {
  Cloth cloth;
  double slack = 0;      ///< that it was laid on with, and what it has given up since
  double now = 0;        ///< N/m
  double hottest = 0;    ///< K
  double again = 1;      ///< of what it pulls hotter than that
  double somewhere = 0;  ///< between nothing and all, where nobody knows
  double weight = 1;
};

double mean_slack(const Cloth& c) { return 0.5 * (c.looseness.warp + c.looseness.fill); }

// Of the case's cloth with its spreads.
std::vector<Drawn> drawn_cloths(const Case& c, const std::optional<double>& hottest) {
  Normals normal(of_cloths);
  std::vector<Drawn> out;
  for (int i = 0; i < cloths; ++i) {
    Drawn d;
    d.cloth = drawn_case(c, normal.row(numbers_of(c))).cloth;
    const double left = std::min(1.0, left_in_years * std::exp(left_scatter * normal()));
    d.hottest = hottest.value_or(c.stages[normal.below(c.stages.size())].temperature);
    d.again = least_again + (1 - least_again) * normal.uniform();
    d.somewhere = normal.uniform();
    const double fresh = pull_from_slack(d.cloth, d.hottest, mean_slack(d.cloth));
    d.now = left * fresh;
    // What it no longer pulls it has become longer by.
    const Eigen::Matrix3d give =
        compliance(d.cloth.stiffness.warp, d.cloth.stiffness.fill, d.cloth.poisson, d.cloth.shear);
    d.slack = mean_slack(d.cloth) + 0.5 * (give.topLeftCorner<2, 2>().sum()) * (fresh - d.now);
    out.push_back(std::move(d));
  }
  return out;
}

void weigh_by(const OldCloth& old, std::vector<Drawn>& all) {
  double sum = 0, squares = 0;
  for (Drawn& d : all) {
    const double z = d.now > 0 ? std::log(old.pull / d.now) / old.off : 1e3;
    d.weight = std::exp(-0.5 * z * z);
    sum += d.weight, squares += d.weight * d.weight;
  }
  constexpr double none_at_all = 1e-9;
  if (sum < none_at_all || sum * sum / squares < least_that_explain)
    throw CaseError(
        "pull",
        "is next to nothing that cloth like this one pulls after any stage: it has slipped, torn or rotted, it is "
        "of another kind, or the reading is off; do not iron it before somebody has looked");
}

PullBand range_of(const std::vector<Drawn>& all, const std::function<double(const Drawn&)>& pull) {
  std::vector<std::pair<double, double>> by;
  double sum = 0;
  for (const Drawn& d : all) by.push_back({pull(d), d.weight}), sum += d.weight;
  std::sort(by.begin(), by.end());
  const auto at = [&](double share) {
    double so_far = 0;
    for (const auto& [value, weight] : by)
      if ((so_far += weight) >= share * sum) return value;
    return by.back().first;
  };
  return {at(low_share), at(0.5), at(high_share)};
}

double after(const Drawn& d, double temperature) {
  const double more = d.again * pull_from_slack(d.cloth, temperature, d.slack);
  if (more <= d.now) return d.now;
  // At what it has seen the shrink may be spent or may come back (docs/data.md): anything between.
  return temperature > d.hottest ? more : d.now + d.somewhere * (more - d.now);
}

double whole_degrees(double kelvin) { return (std::round(kelvin * 1.8 - 459.67) + 459.67) / 1.8; }

}  // namespace

double pull_from_slack(const Cloth& cloth, double temperature, double slack) {
  const Eigen::Matrix3d give = compliance(cloth.stiffness.warp, cloth.stiffness.fill, cloth.poisson, cloth.shear);
  const ShrinkState s = shrink_at(cloth, give, temperature);
  double log_sum = 0;
  for (int d = 0; d < 2; ++d) {
    if (s.limit_pull[d] <= 0) return 0;
    const double stretch = give(d, 0) + give(d, 1);  // per pull, both yarns alike
    const double pull = (s.free_shrink[d] - looseness_strain(slack)) / (stretch + s.free_shrink[d] / s.limit_pull[d]);
    if (pull <= 0) return 0;
    log_sum += std::log(pull);
  }
  return std::exp(0.5 * log_sum);
}

std::vector<MoreToCome> more_to_come(const Case& c, const OldCloth& old) {
  std::vector<Drawn> all = drawn_cloths(c, old.hottest);
  weigh_by(old, all);
  std::vector<MoreToCome> out;
  for (const Stage& s : c.stages)
    out.push_back({s.temperature, range_of(all, [&](const Drawn& d) { return after(d, s.temperature); }),
                   !old.hottest || s.temperature <= *old.hottest});
  return out;
}

PatchIron patch_iron(const Case& c, const OldCloth& surroundings) {
  std::vector<Drawn> all = drawn_cloths(c, {});
  // The surroundings are known to their own error: it counts beside what is not known of the piece.
  Normals normal(of_cloths + 1);
  std::vector<double> wanted;
  for (std::size_t i = 0; i < all.size(); ++i)
    wanted.push_back(surroundings.pull * std::exp(surroundings.off * normal()));
  const auto over = [&](double temperature) {
    double more = 0;
    for (std::size_t i = 0; i < all.size(); ++i)
      more += pull_from_slack(all[i].cloth, temperature, mean_slack(all[i].cloth)) > wanted[i];
    return more / static_cast<double>(all.size());
  };
  const double cold = c.cloth.curve.front().temperature, hot = c.stages.back().temperature;
  const auto least_with = [&](double share) -> std::optional<double> {
    if (over(hot) < share) return {};
    double low = cold, high = hot;
    for (int i = 0; i < 12; ++i) (over(0.5 * (low + high)) < share ? low : high) = 0.5 * (low + high);
    return low;
  };
  PatchIron out;
  out.begin = whole_degrees(least_with(low_share).value_or(hot));
  const std::optional<double> half = least_with(0.5);
  out.reached = half.has_value();
  out.likely = whole_degrees(half.value_or(hot));
  out.at_likely =
      range_of(all, [&](const Drawn& d) { return pull_from_slack(d.cloth, out.likely, mean_slack(d.cloth)); });
  return out;
}

}  // namespace evenpull
