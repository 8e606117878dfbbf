#include "tests/book/plot.hpp"

#include "tests/book/words.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace evenpull::book {
namespace {

// Places on the sheet [px].
constexpr double width = 720, left = 92, right = 700, top = 52, bottom = 372, legend_from = 442, legend_step = 22;

// Colours told apart by every kind of colour sight (Okabe and Ito, 2008, from memory), dark enough on white; yellow is
// left out. Marker and dashes say the same once more.
struct Style {
  const char* colour;
  const char* dashes;
};
constexpr Style styles[] = {{"#000000", ""},     {"#0072b2", "7 4"}, {"#d55e00", "2 4"},    {"#009e73", "11 4 2 4"},
                            {"#cc79a7", "11 4"}, {"#56b4e9", "4 2"}, {"#e69f00", "7 2 2 2"}};
constexpr int markers = 6;

std::string px(double v) { return decimals(v, 1); }

struct Axes {
  double x_low, x_high;  // log10 of the size
  int y_low, y_high;     // decades
  double x(double size) const { return left + (std::log10(size) - x_low) / (x_high - x_low) * (right - left); }
  double y(double error) const { return bottom - (std::log10(error) - y_low) / (y_high - y_low) * (bottom - top); }
};

// What cannot be told from nothing is drawn at the lower edge.
double drawn(const Record& r, const Level& l) { return std::max(r.error_of(l.value), nothing); }

Axes axes_for(const std::vector<Record>& studies) {
  double small = 1e300, large = 0, least = 1e300, most = 0;
  for (const Record& r : studies)
    for (const Level& l : r.levels) {
      small = std::min(small, l.size), large = std::max(large, l.size);
      least = std::min(least, drawn(r, l)), most = std::max(most, drawn(r, l));
    }
  Axes a;
  constexpr double margin = 0.1;  // decades
  a.x_low = std::log10(small) - margin;
  a.x_high = std::log10(large) + margin;
  a.y_low = static_cast<int>(std::floor(std::log10(least) + 1e-3));
  a.y_high = std::max(static_cast<int>(std::ceil(std::log10(most) - 1e-3)), a.y_low + 1);
  return a;
}

std::string line(double x1, double y1, double x2, double y2, const std::string& look) {
  return "<line x1=\"" + px(x1) + "\" y1=\"" + px(y1) + "\" x2=\"" + px(x2) + "\" y2=\"" + px(y2) + "\" " + look +
         "/>\n";
}

std::string text(double x, double y, const std::string& look, const std::string& words) {
  return "<text x=\"" + px(x) + "\" y=\"" + px(y) + "\" " + look + ">" + escaped(words) + "</text>\n";
}

std::string polygon(const std::vector<std::pair<double, double>>& corners, const std::string& look) {
  std::string out = "<polygon points=\"";
  for (const auto& [x, y] : corners) out += px(x) + "," + px(y) + " ";
  out.back() = '"';
  return out + " " + look + "/>\n";
}

std::string marker(int kind, double x, double y, const std::string& colour) {
  const double r = 5;
  const std::string full = "fill=\"" + colour + "\"";
  const std::string hollow = "fill=\"white\" stroke=\"" + colour + "\" stroke-width=\"2\"";
  switch (kind % markers) {
    case 0: return "<circle cx=\"" + px(x) + "\" cy=\"" + px(y) + "\" r=\"5\" " + full + "/>\n";
    case 1: return polygon({{x - r, y - r}, {x + r, y - r}, {x + r, y + r}, {x - r, y + r}}, hollow);
    case 2: return polygon({{x, y - 1.3 * r}, {x + 1.2 * r, y + r}, {x - 1.2 * r, y + r}}, full);
    case 3: return polygon({{x, y - 1.4 * r}, {x + 1.4 * r, y}, {x, y + 1.4 * r}, {x - 1.4 * r, y}}, hollow);
    case 4: return "<circle cx=\"" + px(x) + "\" cy=\"" + px(y) + "\" r=\"5\" " + hollow + "/>\n";
    default: return polygon({{x - r, y - r}, {x + r, y - r}, {x + r, y + r}, {x - r, y + r}}, full);
  }
}

std::string grid(const Axes& a) {
  const std::string thin = "stroke=\"#c8c8c8\" stroke-width=\"1\"";
  std::string out;
  for (int d = a.y_low; d <= a.y_high; ++d) {
    const double y = a.y(std::pow(10.0, d));
    out += line(left, y, right, y, thin);
    out += text(left - 8, y + 5, "text-anchor=\"end\"", number(100 * std::pow(10.0, d)) + " %");
  }
  for (int d = static_cast<int>(std::floor(a.x_low)); d <= static_cast<int>(std::ceil(a.x_high)); ++d)
    for (double step : {1.0, 2.0, 5.0}) {
      const double size = step * std::pow(10.0, d);
      if (std::log10(size) < a.x_low || std::log10(size) > a.x_high) continue;
      out += line(a.x(size), top, a.x(size), bottom, thin);
      out += text(a.x(size), bottom + 20, "text-anchor=\"middle\"", number(size));
    }
  out += "<rect x=\"" + px(left) + "\" y=\"" + px(top) + "\" width=\"" + px(right - left) + "\" height=\"" +
         px(bottom - top) + "\" fill=\"none\" stroke=\"black\"/>\n";
  return out;
}

// One guide for each slope promised, a little above the highest series that has it.
std::string guides(const std::vector<Record>& studies, const Axes& a) {
  std::map<double, const Record*> highest;
  for (const Record& r : studies) {
    const Record*& so_far = highest[r.theory];
    if (!so_far || drawn(r, r.levels.front()) > drawn(*so_far, so_far->levels.front())) so_far = &r;
  }
  std::string out;
  for (const auto& [slope, r] : highest) {
    const double from = std::pow(10.0, a.x_high), to = std::pow(10.0, a.x_low), power = slope;
    const Level& coarse = r->levels.front();
    const double start = 2 * drawn(*r, coarse);
    const auto at = [&](double size) { return start * std::pow(size / coarse.size, power); };
    out += "<g clip-path=\"url(#inside)\">\n" +
           line(a.x(from), a.y(at(from)), a.x(to), a.y(at(to)), "stroke=\"#707070\" stroke-width=\"1\"") + "</g>\n";
    const double size = coarse.size * std::pow(10.0, -0.12);
    out += text(a.x(size) - 8, std::max(a.y(at(size)) - 8, top + 16), "text-anchor=\"end\" fill=\"#505050\"",
                "slope " + number(slope));
  }
  return out;
}

}  // namespace

std::string convergence_plot(const std::vector<Record>& studies) {
  const Axes a = axes_for(studies);
  const double height = legend_from + legend_step * static_cast<double>(studies.size());
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + px(width) + "\" height=\"" + px(height) +
                    "\" font-family=\"sans-serif\" font-size=\"14\">\n";
  out += "<defs><clipPath id=\"inside\"><rect x=\"" + px(left) + "\" y=\"" + px(top) + "\" width=\"" +
         px(right - left) + "\" height=\"" + px(bottom - top) + "\"/></clipPath></defs>\n";
  out += "<rect width=\"" + px(width) + "\" height=\"" + px(height) + "\" fill=\"white\"/>\n";
  out += text(left, 24, "font-size=\"16\" font-weight=\"bold\"", studies.front().check);
  out += text(left, 43, "", "distance from the published number, as a share of it");
  out += grid(a) + guides(studies, a);
  out += text((left + right) / 2, bottom + 42, "text-anchor=\"middle\"", "size of the elements (finer to the left)");
  for (std::size_t i = 0; i < studies.size(); ++i) {
    const Record& r = studies[i];
    const Style& s = styles[i % std::size(styles)];
    const std::string look =
        std::string("stroke=\"") + s.colour + "\" stroke-width=\"2\" stroke-dasharray=\"" + s.dashes + "\"";
    for (std::size_t k = 0; k + 1 < r.levels.size(); ++k)
      out += line(a.x(r.levels[k].size), a.y(drawn(r, r.levels[k])), a.x(r.levels[k + 1].size),
                  a.y(drawn(r, r.levels[k + 1])), look);
    for (const Level& l : r.levels) out += marker(static_cast<int>(i), a.x(l.size), a.y(drawn(r, l)), s.colour);
    const double y = legend_from + legend_step * static_cast<double>(i);
    out += line(left, y - 5, left + 50, y - 5, look) + marker(static_cast<int>(i), left + 25, y - 5, s.colour);
    out += text(left + 62, y, "", r.quantity);
  }
  return out + "</svg>\n";
}

}  // namespace evenpull::book
