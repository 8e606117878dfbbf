#include "viz/kit/film.hpp"

#include "viz/kit/page_parts.hpp"
#include "viz/words/trouble.hpp"

#include <cairo.h>
#include <zlib.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

namespace evenpull::viz {

namespace {

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
using Context = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;

constexpr std::size_t signature_size = 8;

void put32(std::string& to, std::uint32_t v) {
  for (int shift : {24, 16, 8, 0}) to += static_cast<char>(v >> shift & 0xFF);
}
void put16(std::string& to, std::uint32_t v) {
  for (int shift : {8, 0}) to += static_cast<char>(v >> shift & 0xFF);
}
std::uint32_t get32(const std::string& from, std::size_t at) {
  std::uint32_t v = 0;
  for (std::size_t i = 0; i < 4; ++i) v = v << 8 | static_cast<unsigned char>(from[at + i]);
  return v;
}

void put_chunk(std::string& to, const std::string& kind, const std::string& data) {
  put32(to, static_cast<std::uint32_t>(data.size()));
  const std::string body = kind + data;
  to += body;
  put32(to, static_cast<std::uint32_t>(
                crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size()))));
}

/// All data of the chunks of a kind in a PNG, joined.
std::string chunks(const std::string& png, const std::string& kind) {
  std::string data;
  for (std::size_t at = signature_size; at + 12 <= png.size();) {
    const std::uint32_t size = get32(png, at);
    if (png.compare(at + 4, 4, kind) == 0) data += png.substr(at + 8, size);
    at += 12 + size;
  }
  return data;
}

cairo_status_t append(void* to, const unsigned char* data, unsigned size) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), size);
  return CAIRO_STATUS_SUCCESS;
}

struct Piece {
  int x = 0, y = 0, width = 0, height = 0;
  double seconds = 0;
  std::string png;
};

}  // namespace

struct Film::Inside {
  int width = 0, height = 0;
  Surface now{nullptr, cairo_surface_destroy};
  std::vector<unsigned char> before;
  std::vector<Piece> pieces;

  unsigned char* pixels() const { return cairo_image_surface_get_data(now.get()); }
  int stride() const { return cairo_image_surface_get_stride(now.get()); }

  /// Where the frame differs from the one before; one pixel at least, since a frame may not be empty.
  Piece changed() const {
    if (before.empty()) return {0, 0, width, height, 0, {}};
    int left = width, right = -1, top = height, bottom = -1;
    for (int y = 0; y < height; ++y) {
      const auto* a = reinterpret_cast<const std::uint32_t*>(pixels() + y * stride());
      const auto* b = reinterpret_cast<const std::uint32_t*>(before.data() + y * stride());
      for (int x = 0; x < width; ++x)
        if ((a[x] ^ b[x]) & 0xFFFFFF) {
          left = std::min(left, x);
          right = std::max(right, x);
          top = std::min(top, y);
          bottom = y;
        }
    }
    if (right < 0) return {0, 0, 1, 1, 0, {}};
    return {left, top, right - left + 1, bottom - top + 1, 0, {}};
  }
};

Film::Film(Extent size) : inside_(std::make_unique<Inside>()) {
  inside_->width = static_cast<int>(std::ceil(size.width));
  inside_->height = static_cast<int>(std::ceil(size.height));
  inside_->now.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, inside_->width, inside_->height));
}

Film::~Film() = default;

int Film::frames() const { return static_cast<int>(inside_->pieces.size()); }

void Film::add(double seconds, const std::function<void(cairo_t*)>& draw) {
  Inside& in = *inside_;
  draw_on_image(in.now.get(), draw);
  cairo_surface_flush(in.now.get());
  Piece piece = in.changed();
  piece.seconds = seconds;
  const Surface part(cairo_image_surface_create_for_data(in.pixels() + piece.y * in.stride() + 4 * piece.x,
                                                         CAIRO_FORMAT_RGB24, piece.width, piece.height, in.stride()),
                     cairo_surface_destroy);
  if (cairo_surface_write_to_png_stream(part.get(), append, &piece.png) != CAIRO_STATUS_SUCCESS)
    throw CannotDraw("a frame of the moving picture could not be encoded");
  in.before.assign(in.pixels(), in.pixels() + static_cast<std::size_t>(in.stride()) * in.height);
  in.pieces.push_back(std::move(piece));
}

void Film::write(const std::string& path) const {
  const auto& pieces = inside_->pieces;
  if (pieces.empty()) throw CannotDraw("a moving picture without a frame");
  std::string file = pieces.front().png.substr(0, signature_size);
  put_chunk(file, "IHDR", chunks(pieces.front().png, "IHDR"));
  std::string control;
  put32(control, static_cast<std::uint32_t>(pieces.size()));
  put32(control, 0);  // over and over
  put_chunk(file, "acTL", control);
  std::uint32_t number = 0;
  constexpr std::uint32_t per_second = 1000;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Piece& p = pieces[i];
    std::string frame;
    put32(frame, number++);
    for (int v : {p.width, p.height, p.x, p.y}) put32(frame, static_cast<std::uint32_t>(v));
    put16(frame, static_cast<std::uint32_t>(std::lround(p.seconds * per_second)));
    put16(frame, per_second);
    frame += std::string(2, '\0');  // what was drawn stays, and is drawn over
    put_chunk(file, "fcTL", frame);
    const std::string data = chunks(p.png, "IDAT");
    if (i == 0) {
      put_chunk(file, "IDAT", data);
      continue;
    }
    std::string numbered;
    put32(numbered, number++);
    put_chunk(file, "fdAT", numbered + data);
  }
  put_chunk(file, "IEND", "");
  write_whole(path, file);
}

}  // namespace evenpull::viz
