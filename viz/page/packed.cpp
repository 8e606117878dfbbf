#include "viz/page/packed.hpp"

#include "viz/words/trouble.hpp"

#include <zlib.h>

#include <algorithm>
#include <cmath>
#include <cstring>

namespace evenpull::viz {

namespace {

[[noreturn]] void not_a_number(const std::string& name) {
  throw CannotDraw("the page cannot be made: " + name + " holds what is not a number");
}

template <class Frame>
std::size_t common_length(const std::string& name, const std::vector<const Frame*>& frames) {
  const std::size_t n = frames.empty() ? 0 : frames.front()->size();
  for (const auto* f : frames)
    if (f->size() != n) throw CannotDraw("the page cannot be made: frames of " + name + " differ in length");
  return n;
}

}  // namespace

PackedPart& Packer::begin(const std::string& name, const std::string& kind, std::size_t count, std::size_t frames) {
  while (raw_.size() % 4 != 0) raw_.push_back(0);  // typed arrays of a browser want aligned beginnings
  parts_.push_back({name, kind, raw_.size(), count, frames, 1});
  return parts_.back();
}

void Packer::floats(const std::string& name, const std::vector<float>& values) {
  const auto& part = begin(name, "f32", values.size(), 1);
  for (float v : values)
    if (!std::isfinite(v)) not_a_number(name);
  raw_.resize(part.at + 4 * values.size());
  if (!values.empty()) std::memcpy(raw_.data() + part.at, values.data(), 4 * values.size());
}

void Packer::shorts(const std::string& name, const std::vector<std::uint16_t>& values) {
  begin(name, "u16", values.size(), 1);
  for (auto v : values) {
    raw_.push_back(static_cast<unsigned char>(v & 0xFF));
    raw_.push_back(static_cast<unsigned char>(v >> 8));
  }
}

void Packer::series(const std::string& name, const std::vector<const std::vector<float>*>& frames, double step) {
  const std::size_t n = common_length(name, frames);
  begin(name, "d16", n, frames.size()).step = step;
  std::vector<std::uint16_t> before(n, 0), difference(n);
  constexpr double most = 32767;
  for (const auto* frame : frames) {
    for (std::size_t i = 0; i < n; ++i) {
      if (!std::isfinite((*frame)[i])) not_a_number(name);
      const double rounded = std::clamp(std::round((*frame)[i] / step), -most, most);
      const auto now = static_cast<std::uint16_t>(static_cast<std::int16_t>(rounded));
      difference[i] = static_cast<std::uint16_t>(now - before[i]);
      before[i] = now;
    }
    for (auto d : difference) raw_.push_back(static_cast<unsigned char>(d & 0xFF));
    for (auto d : difference) raw_.push_back(static_cast<unsigned char>(d >> 8));
  }
}

void Packer::bytes(const std::string& name, const std::vector<const std::vector<unsigned char>*>& frames) {
  const std::size_t n = common_length(name, frames);
  begin(name, "d8", n, frames.size());
  std::vector<unsigned char> before(n, 0);
  for (const auto* frame : frames)
    for (std::size_t i = 0; i < n; ++i) {
      raw_.push_back(static_cast<unsigned char>((*frame)[i] - before[i]));
      before[i] = (*frame)[i];
    }
}

std::string Packer::text() const {
  // Nearly all of what the best level gains is had at the usual one, in a fraction of the time.
  constexpr int level = 6;
  uLongf size = compressBound(static_cast<uLong>(raw_.size()));
  std::vector<unsigned char> out(size);
  if (compress2(out.data(), &size, raw_.data(), static_cast<uLong>(raw_.size()), level) != Z_OK)
    throw CannotDraw("the page cannot be made: its fields could not be compressed");
  out.resize(size);
  return base64(out);
}

double step_for(const std::vector<const std::vector<float>*>& frames, int steps) {
  double most = 0;
  for (const auto* f : frames)
    for (float v : *f) most = std::max(most, std::abs(static_cast<double>(v)));
  return most > 0 && std::isfinite(most) ? most / steps : 1;
}

// RFC 4648, section 4.
std::string base64(const std::vector<unsigned char>& bytes) {
  static constexpr char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve(4 * (bytes.size() + 2) / 3);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t left = bytes.size() - i;
    const unsigned three = (bytes[i] << 16u) | (left > 1 ? bytes[i + 1] << 8u : 0u) |
                           (left > 2 ? unsigned{bytes[i + 2]} : 0u);
    text += letters[three >> 18u];
    text += letters[(three >> 12u) & 63u];
    text += left > 1 ? letters[(three >> 6u) & 63u] : '=';
    text += left > 2 ? letters[three & 63u] : '=';
  }
  return text;
}

}  // namespace evenpull::viz
