// Readings of the bench as they are typed, and what is refused of them.
#include "app/input/document.hpp"
#include "app/input/tap_readings.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using Catch::Matchers::Contains;

namespace {

Panel panel_of(int bays) {
  Panel p;
  p.bays = bays;
  return p;
}

}  // namespace

TEST_CASE("a tone is read in hertz or as a note, of a bay named either way round") {
  const Panel p = panel_of(6);
  const ToneReading r = read_tone("bay 2 top = 84 Hz", p);
  CHECK(r.side == Side::top);
  CHECK(r.bay == 1);
  CHECK(r.tone == 84);
  CHECK(r.off > 0.01);
  CHECK(read_tone("Bottom bay 6=84.5Hz", p).bay == 5);
  for (const char* words : {"top, bay 2", "bay 2 top", "bay 2, top", "Top  bay 2"})
    CHECK(read_bay(words, p) == std::pair(Side::top, 1));
  CHECK(read_tone("bay 1 bottom = A2", p).tone == Approx(110));
  CHECK(read_tone("bay 1 bottom = E2", p).tone == Approx(82.407).epsilon(1e-4));
  CHECK(read_tone("bay 1 bottom = F#2 -12 cents", p).tone == Approx(92.499 * std::exp2(-0.01)).epsilon(1e-4));
  CHECK(read_tone("bay 1 bottom = Bb1 +30", p).tone == Approx(58.270 * std::exp2(0.025)).epsilon(1e-4));
}

TEST_CASE("nonsense of a tone gets one message that says what would be right") {
  const Panel p = panel_of(6);
  CHECK_THROWS_WITH(read_tone("bay 2 top = 3000 Hz", p),
                    Contains("--tone") && Contains("3000 Hz") && Contains("15 and 700 Hz"));
  CHECK_THROWS_WITH(read_tone("bay 2 top = -84 Hz", p), Contains("is no tone of a bay"));
  CHECK_THROWS_WITH(read_tone("bay 9 top = 84 Hz", p), Contains("names bay 9") && Contains("bays 1 to 6"));
  CHECK_THROWS_WITH(read_tone("bay 0 top = 84 Hz", p), Contains("names bay 0"));
  CHECK_THROWS_WITH(read_tone("bay 2 = 84 Hz", p), Contains("names no bay and side"));
  CHECK_THROWS_WITH(read_tone("bay two top = 84 Hz", p), Contains("names no bay and side"));
  for (const char* text : {"bay 2 top = 84", "bay 2 top 84 Hz", "bay 2 top = H2", "bay 2 top = 84 kHz", "", "=",
                           "bay 2 top = E2 +900 cents"})
    CHECK_THROWS_WITH(read_tone(text, p), Contains("--tone") && Contains("is not a tone of a bay"));
  CHECK_THROWS_WITH(read_tone("bay 2 top = 84 Hz", panel_of(1)), Contains("bay 1 alone"));
}

TEST_CASE("a sag is read with its units, and nonsense of it gets one message") {
  const Panel p = panel_of(6);
  const SagReading s = read_sag("bay 2 top: 1 kg = 3.1 mm", p);
  CHECK(s.weight == Approx(1));
  CHECK(s.sag == Approx(0.0031));
  CHECK(read_sag("top bay 3: 2 lb = 1/8 in", p).weight == Approx(0.90718).epsilon(1e-4));
  CHECK_THROWS_WITH(read_sag("bay 2 top: 1 kg = -3 mm", p), Contains("--sag") && Contains("-3 mm"));
  CHECK_THROWS_WITH(read_sag("bay 2 top: 100 kg = 3 mm", p), Contains("100 kg") && Contains("usually"));
  CHECK_THROWS_WITH(read_sag("bay 2 top: 1 kg = 3 kg", p), Contains("3 kg"));
  CHECK_THROWS_WITH(read_sag("bay 7 top: 1 kg = 3 mm", p), Contains("names bay 7"));
  CHECK_THROWS_WITH(read_sag("bay 2 top 1 kg = 3 mm", p), Contains("is not a sag under a weight"));
}
