// A moving picture: an animated PNG (PNG specification, third edition, section 11.3.4: acTL, fcTL, fdAT). Viewers that
// know nothing of it show its first frame. Cairo encodes each frame; here only its pieces are put together.
#pragma once

#include "viz/kit/canvas.hpp"

#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace evenpull::viz {

class Film {
 public:
  explicit Film(Extent size);
  ~Film();
  Film(const Film&) = delete;
  Film& operator=(const Film&) = delete;

  /// Draws the next frame on white. Only the rectangle in which it differs from the one before is kept.
  void add(double seconds, const std::function<void(cairo_t*)>& draw);
  /// Writes aside and renames; it runs over and over. Throws CannotWriteFile that names the file.
  void write(const std::string& path) const;
  int frames() const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace evenpull::viz
