// Field values small enough to carry in a page: rounded to whole steps, differences from one moment to the next,
// compressed (zlib), written as text (base64). viz/page/unpack.js reads it back.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace evenpull::viz {

/// Where a row of numbers lies in the unpacked bytes, and how to read it. Little endian.
struct PackedPart {
  std::string name;
  std::string kind;       ///< "f32", "u16": as they are; "d16", "d8": differences to the frame before, see `Packer`
  std::size_t at = 0;     ///< first byte
  std::size_t count = 0;  ///< numbers a frame
  std::size_t frames = 1;
  double step = 1;  ///< d16: what a difference of 1 means, in the unit of the values
};

class Packer {
 public:
  void floats(const std::string& name, const std::vector<float>& values);
  void shorts(const std::string& name, const std::vector<std::uint16_t>& values);

  /// Frames of one quantity, each rounded to `step` and stored as the difference to the frame before, modulo 2^16:
  /// first the low bytes of a frame, then the high ones, so that what hardly changes is mostly zeros. Throws
  /// CannotDraw for a value that is no number, and where frames differ in length.
  void series(const std::string& name, const std::vector<const std::vector<float>*>& frames, double step);
  /// The same for small counts (states).
  void bytes(const std::string& name, const std::vector<const std::vector<unsigned char>*>& frames);

  const std::vector<PackedPart>& parts() const { return parts_; }
  std::size_t raw_size() const { return raw_.size(); }
  /// Everything compressed, as text.
  std::string text() const;

 private:
  PackedPart& begin(const std::string& name, const std::string& kind, std::size_t count, std::size_t frames);

  std::vector<unsigned char> raw_;
  std::vector<PackedPart> parts_;
};

/// The step that takes the largest magnitude of all frames to `steps` steps; 1 if all is zero.
double step_for(const std::vector<const std::vector<float>*>& frames, int steps);

std::string base64(const std::vector<unsigned char>& bytes);

}  // namespace evenpull::viz
