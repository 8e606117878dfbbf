#include "viz/page/packed.hpp"
#include "viz/words/trouble.hpp"

#include <zlib.h>
#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace evenpull::viz;

namespace {

/// The inverse of base64, for letters that are known to be good.
std::vector<unsigned char> from_base64(const std::string& text) {
  static const std::string letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::vector<unsigned char> out;
  unsigned bits = 0;
  int n = 0;
  for (char c : text) {
    if (c == '=') break;
    bits = bits << 6 | static_cast<unsigned>(letters.find(c));
    if ((n += 6) < 8) continue;
    n -= 8;
    out.push_back(static_cast<unsigned char>(bits >> n));
  }
  return out;
}

std::vector<unsigned char> unpacked(const Packer& packer) {
  const auto squeezed = from_base64(packer.text());
  std::vector<unsigned char> raw(packer.raw_size());
  uLongf size = raw.size();
  REQUIRE(uncompress(raw.data(), &size, squeezed.data(), squeezed.size()) == Z_OK);
  REQUIRE(size == raw.size());
  return raw;
}

}  // namespace

TEST_CASE("base64 gives the test vectors of RFC 4648, section 10") {
  const auto of = [](const std::string& s) { return base64({s.begin(), s.end()}); };
  CHECK(of("") == "");
  CHECK(of("f") == "Zg==");
  CHECK(of("fo") == "Zm8=");
  CHECK(of("foo") == "Zm9v");
  CHECK(of("foob") == "Zm9vYg==");
  CHECK(of("fooba") == "Zm9vYmE=");
  CHECK(of("foobar") == "Zm9vYmFy");
}

TEST_CASE("a series unpacks to within half a step, falling and rising, below and above zero") {
  const std::vector<float> a{0.0f, -3.26f, 100.1f, 900.0f}, b{0.4f, 3.0f, -100.3f, 900.0f},
      c{-0.3f, 0.0f, 0.0f, -900.0f};
  constexpr double step = 0.25;
  Packer packer;
  packer.bytes("before", {});
  packer.series("values", {&a, &b, &c}, step);
  const auto raw = unpacked(packer);
  const auto& part = packer.parts().back();
  REQUIRE(part.kind == "d16");
  REQUIRE(part.count == 4);
  REQUIRE(part.frames == 3);
  std::vector<std::uint16_t> now(4, 0);
  std::size_t at = part.at;
  for (const auto* frame : {&a, &b, &c}) {
    for (std::size_t i = 0; i < 4; ++i) {
      now[i] = static_cast<std::uint16_t>(now[i] + (raw[at + i] | raw[at + 4 + i] << 8));
      CHECK(std::abs(static_cast<std::int16_t>(now[i]) * step - (*frame)[i]) <= step / 2 + 1e-5);
    }
    at += 8;
  }
  CHECK(at == raw.size());
}

TEST_CASE("states and plain numbers come back as they were") {
  const std::vector<unsigned char> one{0, 1, 2, 2, 0}, two{2, 1, 0, 2, 1};
  Packer packer;
  packer.bytes("state", {&one, &two});
  packer.shorts("zone", {0, 513, 65535});
  const auto raw = unpacked(packer);
  for (std::size_t i = 0; i < 5; ++i) {
    CHECK(raw[i] == one[i]);
    CHECK(static_cast<unsigned char>(raw[i] + raw[5 + i]) == two[i]);
  }
  const std::size_t at = packer.parts().back().at;
  CHECK(at % 4 == 0);
  CHECK((raw[at + 2] | raw[at + 3] << 8) == 513);
}

TEST_CASE("a step is chosen from the largest magnitude of all frames") {
  const std::vector<float> a{1, -8}, b{2, 3}, zero{0, 0};
  CHECK(step_for({&a, &b}, 4000) == Approx(0.002));
  CHECK(step_for({&zero}, 4000) == 1);
}

TEST_CASE("what is no number is not packed, nor frames of different length") {
  const std::vector<float> bad{0, std::numeric_limits<float>::quiet_NaN()}, good{0, 0}, longer{0, 0, 0};
  Packer packer;
  CHECK_THROWS_AS(packer.series("pull", {&good, &bad}, 1), evenpull::CannotDraw);
  CHECK_THROWS_AS(packer.floats("placed", bad), evenpull::CannotDraw);
  CHECK_THROWS_AS(packer.series("pull", {&good, &longer}, 1), evenpull::CannotDraw);
}
