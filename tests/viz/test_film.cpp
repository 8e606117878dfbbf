#include "tests/viz/reading.hpp"
#include "viz/kit/film.hpp"

#include <cairo.h>
#include <zlib.h>
#include <catch2/catch.hpp>

#include <cstdint>
#include <cstring>
#include <filesystem>

using namespace evenpull::viz;
using namespace evenpull::reading;

namespace {

struct Chunk {
  std::string kind, data;
};

std::uint32_t number(const std::string& from, std::size_t at) {
  std::uint32_t v = 0;
  for (std::size_t i = 0; i < 4; ++i) v = v << 8 | static_cast<unsigned char>(from.at(at + i));
  return v;
}

std::vector<Chunk> chunks_of(const std::string& file) {
  REQUIRE(file.substr(0, 8) == "\x89PNG\r\n\x1a\n");
  std::vector<Chunk> list;
  for (std::size_t at = 8; at < file.size();) {
    const std::uint32_t size = number(file, at);
    const std::string body = file.substr(at + 4, size + 4);
    CHECK(number(file, at + 8 + size) ==
          crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size())));
    list.push_back({body.substr(0, 4), body.substr(4)});
    at += 12 + size;
  }
  return list;
}

void four(std::string& to, std::uint32_t v) {
  for (int shift : {24, 16, 8, 0}) to += static_cast<char>(v >> shift & 0xFF);
}
void put(std::string& to, const std::string& kind, const std::string& data) {
  four(to, static_cast<std::uint32_t>(data.size()));
  to += kind + data;
  const std::string body = kind + data;
  four(to, static_cast<std::uint32_t>(
               crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size()))));
}

cairo_status_t feed(void* from, unsigned char* data, unsigned size) {
  auto& left = *static_cast<std::string*>(from);
  if (left.size() < size) return CAIRO_STATUS_READ_ERROR;
  std::memcpy(data, left.data(), size);
  left.erase(0, size);
  return CAIRO_STATUS_SUCCESS;
}

/// Plays an animated PNG to its end as a viewer does: each frame decoded by itself and laid over what is there.
std::vector<std::uint32_t> played(const std::vector<Chunk>& chunks, std::uint32_t& width, std::uint32_t& height) {
  const std::string header = chunks.front().data;
  width = number(header, 0);
  height = number(header, 4);
  std::vector<std::uint32_t> canvas(static_cast<std::size_t>(width) * height, 0);
  std::string control;
  for (const auto& c : chunks) {
    if (c.kind == "fcTL") control = c.data;
    if (c.kind != "IDAT" && c.kind != "fdAT") continue;
    std::string own = header, png = "\x89PNG\r\n\x1a\n";
    own.replace(0, 8, control.substr(4, 8));
    put(png, "IHDR", own);
    put(png, "IDAT", c.kind == "IDAT" ? c.data : c.data.substr(4));
    put(png, "IEND", "");
    auto* frame = cairo_image_surface_create_from_png_stream(feed, &png);
    REQUIRE(cairo_surface_status(frame) == CAIRO_STATUS_SUCCESS);
    const std::uint32_t w = number(control, 4), h = number(control, 8), x0 = number(control, 12),
                        y0 = number(control, 16);
    REQUIRE(x0 + w <= width);
    REQUIRE(y0 + h <= height);
    for (std::uint32_t y = 0; y < h; ++y) {
      const auto* row = reinterpret_cast<const std::uint32_t*>(cairo_image_surface_get_data(frame) +
                                                               y * cairo_image_surface_get_stride(frame));
      for (std::uint32_t x = 0; x < w; ++x) canvas[(y0 + y) * width + x0 + x] = row[x] & 0xFFFFFF;
    }
    cairo_surface_destroy(frame);
  }
  return canvas;
}

void draw_square(cairo_t* cr, int at) { fill_box(cr, {10.0 + 7 * at, 5.0 + 3 * at, 12, 9}, value_colour(0.2 * at)); }

}  // namespace

TEST_CASE("a film played to its end shows its last frame, and every chunk carries its check sum") {
  Folder folder;
  Film film({90, 60});
  for (int i = 0; i < 5; ++i) film.add(0.2, [&](cairo_t* cr) { draw_square(cr, i); });
  film.add(1.5, [&](cairo_t* cr) { draw_square(cr, 4); });  // nothing changes
  film.write(folder / "film.png");
  Film last({90, 60});
  last.add(1, [&](cairo_t* cr) { draw_square(cr, 4); });
  last.write(folder / "last.png");
  std::uint32_t w = 0, h = 0;
  const auto film_end = played(chunks_of(bytes(folder / "film.png")), w, h);
  CHECK(w == 90);
  CHECK(h == 60);
  CHECK(film_end == played(chunks_of(bytes(folder / "last.png")), w, h));
}

TEST_CASE("frames are counted and numbered without a gap, and last as long as was said") {
  Folder folder;
  Film film({60, 40});
  for (int i = 0; i < 4; ++i) film.add(i == 3 ? 2.0 : 0.25, [&](cairo_t* cr) { draw_square(cr, i); });
  CHECK(film.frames() == 4);
  film.write(folder / "film.png");
  std::uint32_t next = 0;
  std::vector<double> seconds;
  const auto chunks = chunks_of(bytes(folder / "film.png"));
  CHECK(chunks[1].kind == "acTL");
  CHECK(number(chunks[1].data, 0) == 4);
  for (const auto& c : chunks) {
    if (c.kind != "fcTL" && c.kind != "fdAT") continue;
    CHECK(number(c.data, 0) == next++);
    if (c.kind == "fcTL") {
      const auto two = [&](std::size_t at) {
        return 256 * static_cast<unsigned char>(c.data[at]) + static_cast<unsigned char>(c.data[at + 1]);
      };
      seconds.push_back(static_cast<double>(two(20)) / two(22));
    }
  }
  CHECK(seconds == std::vector<double>{0.25, 0.25, 0.25, 2.0});
  CHECK(image(folder / "film.png").width == 60);  // a viewer that knows nothing of films shows the first frame
}
