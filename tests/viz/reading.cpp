#include "tests/viz/reading.hpp"

#include <catch2/catch.hpp>

#include <cairo.h>

#include <array>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <sstream>

namespace evenpull::reading {

Folder::Folder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "evenpull_viz_XXXXXX").string();
  REQUIRE(mkdtemp(pattern.data()) != nullptr);
  path_ = pattern;
}

Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string bytes(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string output_of(const std::string& command) {
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string text;
  std::array<char, 4096> buffer;
  while (const std::size_t n = fread(buffer.data(), 1, buffer.size(), pipe)) text.append(buffer.data(), n);
  INFO(command);
  REQUIRE(pclose(pipe) == 0);
  return text;
}

std::vector<std::string> pages(const std::string& pdf) {
  const std::string text = output_of("pdftotext -layout '" + pdf + "' -");
  std::vector<std::string> all;
  std::size_t from = 0;
  for (std::size_t to; (to = text.find('\f', from)) != std::string::npos; from = to + 1)
    all.push_back(text.substr(from, to - from));
  return all;
}

std::vector<Word> words_of_page(const std::string& pdf, int page) {
  const std::string number = std::to_string(page);
  const std::string text = output_of("pdftotext -bbox -f " + number + " -l " + number + " '" + pdf + "' -");
  static const std::regex word(
      R"re(<word xMin="([0-9.-]+)" yMin="([0-9.-]+)" xMax="([0-9.-]+)" yMax="([0-9.-]+)">([^<]*)<)re");
  std::vector<Word> out;
  for (std::sregex_iterator i(text.begin(), text.end(), word), end; i != end; ++i)
    out.push_back({(*i)[5], std::stod((*i)[2]), std::stod((*i)[4]), std::stod((*i)[1]), std::stod((*i)[3])});
  return out;
}

std::string with_single_spaces(const std::string& text) {
  std::istringstream in(text);
  std::string out;
  for (std::string word; in >> word;) out += (out.empty() ? "" : " ") + word;
  return out;
}

std::string all_words(const std::string& pdf) {
  return with_single_spaces(output_of("pdftotext -raw '" + pdf + "' -"));
}

std::vector<double> word_heights(const std::string& pdf) {
  const std::string text = output_of("pdftotext -bbox '" + pdf + "' -");
  static const std::regex word(R"re(<word xMin="([0-9.-]+)" yMin="([0-9.-]+)" xMax="([0-9.-]+)" yMax="([0-9.-]+)">)re");
  std::vector<double> heights;
  for (std::sregex_iterator i(text.begin(), text.end(), word), end; i != end; ++i) {
    heights.push_back(std::stod((*i)[4]) - std::stod((*i)[2]));
  }
  return heights;
}

Image image(const std::string& png) {
  cairo_surface_t* surface = cairo_image_surface_create_from_png(png.c_str());
  REQUIRE(cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS);
  Image result{cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), 0, 0};
  const unsigned char* data = cairo_image_surface_get_data(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  std::set<std::uint32_t> colours;
  double white = 0;
  for (int y = 0; y < result.height; ++y)
    for (int x = 0; x < result.width; ++x) {
      const std::uint32_t pixel = *reinterpret_cast<const std::uint32_t*>(data + y * stride + 4 * x) & 0xFFFFFF;
      colours.insert(pixel);
      white += pixel == 0xFFFFFF;
    }
  cairo_surface_destroy(surface);
  result.colours = colours.size();
  result.white_share = white / (1.0 * result.width * result.height);
  return result;
}

}  // namespace evenpull::reading
