// Tap: pulls from tones and sags. What the stated ranges are worth is asked of panels on another mesh.
#include "shop/tap.hpp"
#include "solver/sound/tight_bay.hpp"
#include "solver/sound/tight_panel.hpp"
#include "solver/sound/vibration.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace evenpull;

namespace {

Case open_rudder() {
  Case c = sample::light_rudder(3);
  sample::make_rigid(c);
  return c;
}

/// A panel on a mesh with its cloth tight and the tones of its bays.
struct Bench {
  Case the_case = open_rudder();
  Model model;
  Ironing ironing;
  Covering state;
  std::vector<std::optional<BayTone>> tones;
  explicit Bench(int nodes, int fineness = 2)
      : model(the_case, {nodes, fineness}),
        ironing(model),
        state(tight_panel(ironing, the_case.stages.front().temperature).state),
        tones(find()) {}
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;
  std::vector<std::optional<BayTone>> find() {
    Equilibrium e(model, ironing.options());
    return bay_tones(e, state, {{Side::top, 1}, {Side::bottom, 1}, {Side::top, 0}});
  }
  const BayTone& top() const { return *tones[0]; }
  const BayTone& bottom() const { return *tones[1]; }
};

/// As the command reads: two meshes, and what they point to.
struct Reckoned {
  Bench bench;
  BayTone tones[2];
  explicit Reckoned(int nodes) : bench(nodes) {
    const Bench half(nodes, 1);
    for (int i = 0; i < 2; ++i) tones[i] = between_meshes(*half.tones[i], *bench.tones[i]);
  }
  const BayTone& top() const { return tones[0]; }
  const BayTone& bottom() const { return tones[1]; }
};

const Reckoned& coarse_bench() {
  static const Reckoned r(800);
  return r;
}

const Reckoned& finer_bench() {
  static const Reckoned r(1800);
  return r;
}

TapData data() {
  TapData d;
  d.areal_mass = 0.092;
  d.stiffness = 100e3;
  d.disc = 0.1016;
  return d;
}

double mean_pull(const BayTone& t) { return std::sqrt(t.pull_chord * t.pull_span); }

ToneReading read(double tone) { return {Side::top, 1, tone, 0.01}; }

}  // namespace

TEST_CASE("a bay's tone goes up as the root of its pull, but for what its curve adds") {
  const BayTone& t = coarse_bench().top();
  CHECK(t.shape_stiffness >= -1e-6 * t.stiffness);
  CHECK(t.shape_stiffness < 0.2 * t.stiffness);
  CHECK(tone_of(t, 1, 1, 0) == Approx(t.frequency).epsilon(1e-6));
  const double f = tone_of(t, 1.7, 0.092, 1.2 * t.wall_air);
  CHECK(pull_of(t, f, 0.092, 1.2 * t.wall_air) == Approx(1.7).epsilon(1e-9));
}

TEST_CASE("two meshes point to the tone that a rectangle has, and a finer mesh comes nearer to it") {
  const BayTone& t = coarse_bench().top();
  const BayTone& one = coarse_bench().bench.top();
  const auto flat = [](const BayTone& b) {
    return tap_frequency({b.field.chordwise, b.field.spanwise, b.pull_chord, b.pull_span}, 1, 0, 0);
  };
  CHECK(one.frequency > t.frequency);
  // The bay is a little curved, its pulls not quite even.
  CHECK(t.frequency == Approx(flat(t)).epsilon(0.025));
  const BayTone& finer = finer_bench().top();
  CHECK(finer.frequency / flat(finer) == Approx(t.frequency / flat(t)).epsilon(0.01));
}

TEST_CASE(
    "a skin in free air carries less of it than in a wall, shut in between less and more than with nothing behind") {
  const BayTone& t = coarse_bench().top();
  CHECK(t.free_air < 2 * t.wall_air);
  CHECK(t.free_air > t.wall_air);
  CHECK(air_shut_in(t).least < air_open_behind(t).least);
  CHECK(air_shut_in(t).most > air_open_behind(t).most);
}

TEST_CASE("the tone of the pull expected gives that pull back, inside the range told") {
  const Reckoned& b = coarse_bench();
  const TapData d = data();
  for (const Behind behind : {Behind::open, Behind::skin, Behind::either}) {
    const AirBetween air = behind == Behind::skin ? air_shut_in(b.top()) : air_open_behind(b.top());
    const double tone = tone_of(b.top(), 1, d.areal_mass, d.air_density * std::sqrt(air.least * air.most));
    const ToneRead r = pull_from_tone(b.top(), &b.bottom(), read(tone), d, behind);
    REQUIRE(r.pull);
    CHECK(r.pull->low < mean_pull(b.top()));
    CHECK(r.pull->high > mean_pull(b.top()));
    if (behind != Behind::either) CHECK(r.pull->middle == Approx(mean_pull(b.top())).epsilon(0.05));
    CHECK(r.doubt.reading + r.doubt.cloth_mass + r.doubt.air + r.doubt.shape == Approx(1));
  }
}

TEST_CASE("where it is not said what lies behind, the range is the wider of both") {
  const Reckoned& b = coarse_bench();
  const ToneRead open = pull_from_tone(b.top(), &b.bottom(), read(70), data(), Behind::open),
                 skin = pull_from_tone(b.top(), &b.bottom(), read(70), data(), Behind::skin),
                 either = pull_from_tone(b.top(), &b.bottom(), read(70), data(), Behind::either);
  REQUIRE(either.pull);
  CHECK(either.pull->low == Approx(std::min(open.pull->low, skin.pull->low)));
  CHECK(either.pull->high == Approx(std::max(open.pull->high, skin.pull->high)));
}

TEST_CASE("air shut in before something that does not give makes the tone, and no pull is told of it") {
  const Reckoned& b = coarse_bench();
  const ToneRead r = pull_from_tone(b.top(), &b.bottom(), read(90), data(), Behind::held);
  CHECK(r.shut_in > 0.8);
  CHECK_FALSE(r.pull);
  // Two skins alike go the same way and leave the air as it is.
  CHECK(pull_from_tone(b.top(), &b.bottom(), read(90), data(), Behind::skin).shut_in < 0.01);
  std::vector<ToneRead> reads{r, pull_from_tone(b.top(), &b.bottom(), read(99), data(), Behind::held)};
  compare_tones(reads, data());
  CHECK(reads[0].against_first->middle == Approx(1));
  CHECK(reads[1].against_first->middle == Approx(1.21).epsilon(0.03));
}

TEST_CASE("a tone that no pull makes is told as such and not as a number") {
  const Reckoned& b = coarse_bench();
  BayTone curved = b.top();
  curved.shape_stiffness = 0.5 * curved.stiffness;
  CHECK_FALSE(pull_from_tone(curved, nullptr, read(16), data(), Behind::open).pull);
}

TEST_CASE("a sag under a weight gives back the pull it was made with, between no stretch and the most") {
  const Reckoned& b = coarse_bench();
  const TapData d = data();
  const TightBay bay{b.top().field.chordwise, b.top().field.spanwise, b.top().pull_chord, b.top().pull_span};
  for (const double weight : {0.2, 0.5}) {
    const double slack = sag_under_disc(bay, weight * 9.81, d.disc / 2),
                 stiff = least_sag_under_disc(bay, weight * 9.81, d.disc / 2, d.stiffness);
    for (const double sag : {slack, stiff}) {
      const SagRead r = pull_from_sag(b.top(), {Side::top, 1, weight, sag}, d);
      REQUIRE(r.pull);
      CHECK(r.pull->low < mean_pull(b.top()));
      CHECK(r.pull->high > mean_pull(b.top()));
    }
  }
  CHECK(pull_from_sag(b.top(), {Side::top, 1, 0.5, 0.02}, d).trouble == SagRead::Trouble::too_deep);
}

// Truth: the solver's own vibration in air, on a finer mesh, with pull, mass, air, size and reading drawn
// from what is stated. So many draws tell 95 % to 1.4 points (two sigma).
TEST_CASE("the range told holds the true pull in 95 of 100 jobs drawn at random") {
  const Bench& fine = finer_bench().bench;
  const Reckoned& b = coarse_bench();
  const TapData d = data();
  const BayTone& truth = finer_bench().top();
  // Of the solver in air, a mode bent by it: squared frequency times the mass of the cloth over the ratio of air to
  // cloth.
  Equilibrium e(fine.model, fine.ironing.options());
  std::vector<double> ratio, square;
  for (const double density : {0.1, 0.3, 0.6, 1.0, 1.5, 2.2}) {
    const auto v = natural_vibrations(e, fine.state, {d.areal_mass, truth.field.quads, 1, density, 2}).front();
    ratio.push_back(2 * density * truth.wall_air / (d.areal_mass * truth.area));
    // What the mesh adds in vacuum it adds in air.
    square.push_back(std::pow(v.frequency * truth.frequency / fine.top().frequency, 2) * (1 + ratio.back()));
  }
  const auto in_air = [&](double r) {
    std::size_t i = 1;
    while (i + 1 < ratio.size() && r > ratio[i]) ++i;
    const double s = (r - ratio[i - 1]) / (ratio[i] - ratio[i - 1]);
    return (square[i - 1] + s * (square[i] - square[i - 1])) / (1 + r);
  };
  constexpr int jobs = 1000;
  for (const Behind behind : {Behind::open, Behind::skin}) {
    std::mt19937 seed(17);
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> even;
    int held = 0;
    for (int i = 0; i < jobs; ++i) {
      const double pull = 1 + even(seed);
      const AirBetween air = behind == Behind::open ? air_open_behind(truth) : air_shut_in(truth);
      const double mass = d.areal_mass * std::exp(d.areal_mass_off * normal(seed));
      const double density = d.air_density * std::exp(d.air_density_off * normal(seed));
      const double volume = air.least * std::pow(air.most / air.least, even(seed));
      const double further =
          d.geometry_off * normal(seed) + (behind == Behind::skin ? d.two_skins_off * normal(seed) : 0);
      const double share =
          truth.shape_stiffness / truth.stiffness * std::max(0.0, 1 + d.shape_stiffness_off * normal(seed));
      const double stiff = share + (1 - truth.shape_stiffness / truth.stiffness) * pull * std::exp(further);
      const double f = std::sqrt(in_air(density * volume / (mass * truth.area)) * stiff * d.areal_mass / mass);
      const ToneRead r =
          pull_from_tone(b.top(), &b.bottom(), {Side::top, 1, f * std::exp(0.01 * normal(seed)), 0.01}, d, behind);
      REQUIRE(r.pull);
      const double true_pull = mean_pull(truth) * pull;
      held += true_pull >= r.pull->low && true_pull <= r.pull->high;
    }
    INFO((behind == Behind::open ? "open: " : "skin: ") << held << " of " << jobs);
    CHECK(held >= 0.92 * jobs);
    CHECK(held <= 0.98 * jobs);
  }
}
