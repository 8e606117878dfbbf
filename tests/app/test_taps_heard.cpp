// The tone of taps in made sounds: found in noise, and not found where there is none.
#include "app/input/document.hpp"
#include "app/sound/taps_heard.hpp"
#include "tests/app/case_text.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>
#include <random>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

constexpr double rate = 16000, pi = 3.14159265358979323846;

struct Sound {
  std::vector<double> at{};  // s, of the taps
  double tone = 83.7;        // Hz
  double ring = 0.25;        // s, to 1/e
  double noise = 0;          // root mean square
  double seconds = 4;
  double loud = 0.5;
  double overtone = 0.5;  // of the loudness, at 1.6 times the tone
  unsigned seed = 1;
};

Recording made(const Sound& s) {
  Recording r;
  r.rate = rate;
  std::mt19937 seed(s.seed);
  std::normal_distribution<double> normal;
  const auto n = static_cast<std::size_t>(s.seconds * rate);
  for (std::size_t i = 0; i < n; ++i) {
    double x = s.noise * normal(seed);
    for (const double t0 : s.at) {
      const double t = static_cast<double>(i) / rate - t0;
      if (t < 0) continue;
      const double fall = s.loud * std::exp(-t / s.ring);
      x += fall * (std::sin(2 * pi * s.tone * t) + s.overtone * std::sin(2 * pi * 1.6 * s.tone * t));
    }
    r.samples.push_back(x);
  }
  return r;
}

/// A WAV file of 16 bits, one channel.
std::string wav_of(const std::vector<double>& samples, int per_second = 16000) {
  const auto put = [](std::string& s, std::uint32_t v, int bytes) {
    for (int i = 0; i < bytes; ++i) s += static_cast<char>((v >> (8 * i)) & 0xff);
  };
  std::string out = "RIFF", head;
  const auto data = static_cast<std::uint32_t>(2 * samples.size());
  put(out, 36 + data, 4);
  out += "WAVEfmt ";
  put(out, 16, 4), put(out, 1, 2), put(out, 1, 2);
  put(out, static_cast<std::uint32_t>(per_second), 4), put(out, static_cast<std::uint32_t>(2 * per_second), 4);
  put(out, 2, 2), put(out, 16, 2);
  out += "data";
  put(out, data, 4);
  for (const double x : samples)
    put(out,
        static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(32767 * std::max(-1.0, std::min(1.0, x))))),
        2);
  return out;
}

}  // namespace

TEST_CASE("a tone of one tap in white noise ten decibels below it is found within 1 %, whatever the noise") {
  for (unsigned seed = 1; seed <= 50; ++seed) {
    Sound s{.at = {0.3}, .noise = 0, .seconds = 1.2, .overtone = 0, .seed = seed};
    // Ten decibels between the power of the tone as it is struck and that of the noise.
    s.noise = s.loud / std::sqrt(2.0) * std::pow(10, -0.5);
    s.tone = 40 + 2.3 * seed;
    const TapsHeard h = listen(made(s));
    INFO("seed " << seed << ", " << s.tone << " Hz");
    REQUIRE(h.trouble == Unheard::nothing);
    CHECK(h.tone == Approx(s.tone).epsilon(0.01));
  }
}

TEST_CASE("several taps give their median and how much they scatter") {
  const TapsHeard h = listen(made({.at = {0.4, 1.3, 2.1, 3.0}, .noise = 0.003}));
  CHECK(h.trouble == Unheard::nothing);
  CHECK(h.taps == 4);
  CHECK(h.tone == Approx(83.7).epsilon(0.005));
  CHECK(h.scatter < 0.005);
  CHECK(h.clear_by > 15);
}

TEST_CASE("of two tones the lower is taken, if it is no ghost of the other") {
  CHECK(listen(made({.at = {0.4, 1.4}, .noise = 0.002, .overtone = 2})).tone == Approx(83.7).epsilon(0.01));
  CHECK(listen(made({
                   .at = {0.4, 1.4},
                   .noise = 0.002,
                   .overtone = 20,
               }))
            .tone == Approx(1.6 * 83.7).epsilon(0.01));
}

TEST_CASE("silence, cut-off sound, noise alone and a snippet are told as what they are") {
  CHECK(listen(made({.loud = 0})).trouble == Unheard::silent);
  CHECK(listen(made({.at = {0.01}, .seconds = 0.05})).trouble == Unheard::too_short);
  for (unsigned seed = 1; seed <= 20; ++seed)
    CHECK(listen(made({.noise = 0.1, .seconds = 2, .seed = seed})).trouble == Unheard::no_tone);
  Recording loud = made({.at = {0.4}});
  loud.clipped_share = 0.01;
  CHECK(listen(loud).trouble == Unheard::clipped);
}

TEST_CASE("a WAV file is read as it was written, and cut-off samples in it are counted") {
  const TemporaryFolder folder;
  const Recording r = made({.at = {0.4, 1.4}, .noise = 0.002, .seconds = 2});
  const Recording back = read_recording(folder.write("taps.wav", wav_of(r.samples)));
  REQUIRE(back.samples.size() == r.samples.size());
  CHECK(back.rate == rate);
  CHECK(back.clipped_share == 0);
  CHECK(back.samples[9000] == Approx(r.samples[9000]).margin(1e-4));
  CHECK(listen(back).tone == Approx(83.7).epsilon(0.01));
  const Recording cut =
      read_recording(folder.write("loud.wav", wav_of(made({.at = {0.4}, .seconds = 1, .loud = 3}).samples)));
  CHECK(cut.clipped_share > 0.01);
  CHECK(listen(cut).trouble == Unheard::clipped);
}

TEST_CASE("what is no recording is refused with one message that says what to give") {
  const TemporaryFolder folder;
  CHECK_THROWS_WITH(read_recording((folder.path / "none.wav").string()), Contains("is not there"));
  CHECK_THROWS_WITH(read_recording(folder.path.string()), Contains("is no file"));
  CHECK_THROWS_WITH(read_recording(folder.write("notes.wav", "bay 2 sounded like E")),
                    Contains("no sound file") && Contains("WAV"));
  CHECK_THROWS_WITH(read_recording(folder.write("cut.wav", wav_of({0.1, 0.2}).substr(0, 20))),
                    Contains("no sound file"));
  std::string slow = wav_of(std::vector<double>(4, 0.1), 50);
  CHECK_THROWS_WITH(read_recording(folder.write("slow.wav", slow)), Contains("50 samples a second"));
  CHECK_THROWS_WITH(read_recording(folder.write("long.wav", wav_of(std::vector<double>(4000 * 121, 0.1), 4000))),
                    Contains("longer than 120 s"));
}
