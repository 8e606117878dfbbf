#include "viz/kit/one_to_one.hpp"

#include "viz/kit/page_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace evenpull::viz {
namespace {

constexpr double tick = 3, label_height = 5;  // mm
constexpr double capital_share = 0.729;       // of the type size, DejaVu Sans

// To the hundredth of a millimetre, without a minus before nothing.
std::string true_mm(double v) {
  const double r = std::round(v * 100) / 100;
  return fmt::format("{:.2f}", r == 0 ? 0.0 : r);
}

// Release 12 has no letters beyond ASCII.
std::string in_ascii(const std::string& text) {
  std::string out;
  for (const unsigned char c : text) {
    if (c >= 0x80 && c < 0xC0) continue;  // the rest of a letter
    out += c >= 0x80 || c < 0x20 ? '?' : static_cast<char>(c);
  }
  return out;
}

std::string lower_case(std::string s) {
  std::transform(s.begin(), s.end(), s.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return s;
}

std::set<std::string> layers_of(const TrueDrawing& d) {
  std::set<std::string> out;
  for (const TrueLine& l : d.lines) out.insert(l.layer);
  for (const TrueLabel& l : d.labels) out.insert(l.layer);
  return out;
}

/// Groups of a code and a value, each on a line of its own.
class Groups {
 public:
  Groups& put(int code, const std::string& value) {
    text_ += fmt::format("{:>3}\n{}\n", code, value);
    return *this;
  }
  Groups& put(int code, double mm) { return put(code, true_mm(mm)); }
  Groups& put(int code, int value) { return put(code, std::to_string(value)); }
  Groups& place(int code, double x, double y) { return put(code, x).put(code + 10, y).put(code + 20, 0.0); }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

void put_header(Groups& g, const TrueDrawing& d) {
  g.put(0, "SECTION").put(2, "HEADER").put(9, "$ACADVER").put(1, "AC1009");
  g.put(9, "$EXTMIN").place(10, 0, 0).put(9, "$EXTMAX").place(10, d.width, d.height).put(0, "ENDSEC");
  const auto layers = layers_of(d);
  g.put(0, "SECTION").put(2, "TABLES").put(0, "TABLE").put(2, "LTYPE").put(70, 1);
  g.put(0, "LTYPE").put(2, "CONTINUOUS").put(70, 0).put(3, "Solid line").put(72, 65).put(73, 0).put(40, 0.0);
  g.put(0, "ENDTAB").put(0, "TABLE").put(2, "LAYER").put(70, static_cast<int>(layers.size()));
  int colour = 0;
  for (const std::string& layer : layers)
    g.put(0, "LAYER").put(2, layer).put(70, 0).put(62, 1 + colour++ % 7).put(6, "CONTINUOUS");
  g.put(0, "ENDTAB").put(0, "ENDSEC");
}

}  // namespace

void add_check_bar(TrueDrawing& d, double x, double y, const std::string& words) {
  d.lines.push_back({check_bar_layer, {{x, y}, {x + check_bar, y}}, false});
  for (const double end : {x, x + check_bar})
    d.lines.push_back({check_bar_layer, {{end, y - tick}, {end, y + tick}}, false});
  d.labels.push_back({check_bar_layer, x, y - tick - 1, label_height, words});
}

std::string svg_of(const TrueDrawing& d) {
  std::string out = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n"
      "<title>{2}</title>\n<style>path {{ fill: none; stroke: #000; stroke-width: 0.5 }} .cut {{ stroke-width: 1 }} "
      ".glue-line {{ stroke-dasharray: 8 4 }} .ribs {{ stroke-width: 0.25 }} text {{ font-family: sans-serif "
      "}}</style>\n",
      true_mm(d.width), true_mm(d.height), escaped(d.title));
  for (const TrueLine& l : d.lines) {
    out += fmt::format("<path class=\"{}\" d=\"", lower_case(l.layer));
    for (std::size_t i = 0; i < l.points.size(); ++i)
      out += fmt::format("{}{} {}", i == 0 ? "M" : " L", true_mm(l.points[i].first), true_mm(l.points[i].second));
    out += l.closed ? " Z\"/>\n" : "\"/>\n";
  }
  for (const TrueLabel& l : d.labels)
    out += fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\" font-size=\"{}\">{}</text>\n", lower_case(l.layer),
                       true_mm(l.x), true_mm(l.y), true_mm(l.height / capital_share), escaped(l.text));
  return out + "</svg>\n";
}

// There y runs up.
std::string dxf_of(const TrueDrawing& d) {
  Groups g;
  put_header(g, d);
  g.put(0, "SECTION").put(2, "ENTITIES");
  for (const TrueLine& l : d.lines) {
    g.put(0, "POLYLINE").put(8, l.layer).put(66, 1).place(10, 0, 0).put(70, l.closed ? 1 : 0);
    for (const auto& [x, y] : l.points) g.put(0, "VERTEX").put(8, l.layer).place(10, x, d.height - y);
    g.put(0, "SEQEND").put(8, l.layer);
  }
  for (const TrueLabel& l : d.labels)
    g.put(0, "TEXT").put(8, l.layer).place(10, l.x, d.height - l.y).put(40, l.height).put(1, in_ascii(l.text));
  g.put(0, "ENDSEC").put(0, "EOF");
  return g.text();
}

}  // namespace evenpull::viz
