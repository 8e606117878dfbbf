// Drawings at true size, read back by readers of others: DXF by GDAL, SVG by libxml2. In a program of its own, since GDAL
// takes long to load.
#include "viz/kit/one_to_one.hpp"

#include <catch2/catch.hpp>

#include <gdal_priv.h>
#include <libxml/parser.h>
#include <libxml/tree.h>
#include <ogrsf_frmts.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <memory>
#include <sstream>

using namespace evenpull::viz;

namespace {

constexpr double within = 1e-3;  // share: 1:1 as promised

TrueDrawing drawing() {
  TrueDrawing d;
  d.title = "Rudder <invented> & more";
  d.width = 1500, d.height = 900;
  d.lines.push_back({"CUT", {{10, 20}, {1244.56, 45.5}, {1240.1, 610.25}, {12, 700}}, true});
  d.lines.push_back({"GLUE-LINE", {{40, 60}, {1200, 80}}, false});
  d.labels.push_back({"NAMES", 300, 300, 12, "A, höhe"});
  add_check_bar(d, 30, 880, "100 mm");
  return d;
}

double length_of(const TrueLine& l) {
  double sum = 0;
  const std::size_t n = l.points.size();
  for (std::size_t i = 0; i + (l.closed ? 0 : 1) < n; ++i) {
    const auto &a = l.points[i], &b = l.points[(i + 1) % n];
    sum += std::hypot(b.first - a.first, b.second - a.second);
  }
  return sum;
}

struct ReadBack {
  std::multimap<std::string, double> lengths;  ///< of the lines of a layer
  std::map<std::string, std::pair<double, double>> low, high;
  std::vector<std::string> words;
};

ReadBack read_dxf(const std::string& text) {
  const auto path =
      std::filesystem::temp_directory_path() / ("evenpull-true-size-" + std::to_string(getpid()) + ".dxf");
  std::ofstream(path, std::ios::binary) << text;
  GDALAllRegister();
  const std::unique_ptr<GDALDataset> data(GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR));
  REQUIRE(data);
  ReadBack out;
  for (const auto& feature : *data->GetLayer(0)) {
    const std::string layer = feature->GetFieldAsString("Layer");
    const OGRGeometry* g = feature->GetGeometryRef();
    REQUIRE(g);
    OGREnvelope box;
    g->getEnvelope(&box);
    out.low[layer] = {box.MinX, box.MinY};
    out.high[layer] = {box.MaxX, box.MaxY};
    if (const char* words = feature->GetFieldAsString("Text"); *words) out.words.push_back(words);
    if (wkbFlatten(g->getGeometryType()) == wkbLineString) out.lengths.emplace(layer, g->toLineString()->get_Length());
  }
  std::filesystem::remove(path);
  return out;
}

std::string attribute(xmlNode* node, const char* name) {
  xmlChar* text = xmlGetProp(node, reinterpret_cast<const xmlChar*>(name));
  const std::string out = text ? reinterpret_cast<const char*>(text) : "";
  xmlFree(text);
  return out;
}

double path_length(const std::string& d) {
  std::istringstream in(d);
  TrueLine line;
  std::string word;
  double x = 0, y = 0;
  while (in >> word) {
    if (word == "Z") line.closed = true;
    else if (word == "L") continue;
    else {
      x = std::stod(word[0] == 'M' || word[0] == 'L' ? word.substr(1) : word);
      in >> y;
      line.points.push_back({x, y});
    }
  }
  return length_of(line);
}

}  // namespace

TEST_CASE("a DXF of a drawing holds every line at its true size, upright, and its words") {
  const TrueDrawing d = drawing();
  const ReadBack back = read_dxf(dxf_of(d));
  CHECK(back.lengths.find("CUT")->second == Approx(length_of(d.lines[0])).epsilon(within));
  CHECK(back.lengths.find("GLUE-LINE")->second == Approx(length_of(d.lines[1])).epsilon(within));
  CHECK(back.lengths.count(check_bar_layer) == 3);
  double longest = 0;
  const auto bars = back.lengths.equal_range(check_bar_layer);
  for (auto it = bars.first; it != bars.second; ++it) longest = std::max(longest, it->second);
  CHECK(longest == Approx(check_bar).epsilon(within));
  CHECK(back.low.at("CUT").first == Approx(10));
  CHECK(back.high.at("CUT").second == Approx(900 - 20));  // what was up is up
  CHECK(std::count(back.words.begin(), back.words.end(), "A, h?he") == 1);
}

TEST_CASE("an SVG of a drawing is as many millimetres wide as it says, and its lines as long") {
  const TrueDrawing d = drawing();
  const std::string text = svg_of(d);
  const std::unique_ptr<xmlDoc, decltype(&xmlFreeDoc)> doc(
      xmlReadMemory(text.data(), static_cast<int>(text.size()), "drawing.svg", nullptr, XML_PARSE_NONET), xmlFreeDoc);
  REQUIRE(doc);
  xmlNode* root = xmlDocGetRootElement(doc.get());
  CHECK(attribute(root, "width") == "1500.00mm");
  CHECK(attribute(root, "height") == "900.00mm");
  CHECK(attribute(root, "viewBox") == "0 0 1500.00 900.00");
  std::map<std::string, double> longest;
  for (xmlNode* node = root->children; node; node = node->next)
    if (node->type == XML_ELEMENT_NODE && std::string(reinterpret_cast<const char*>(node->name)) == "path") {
      double& l = longest[attribute(node, "class")];
      l = std::max(l, path_length(attribute(node, "d")));
    }
  CHECK(longest.at("cut") == Approx(length_of(d.lines[0])).epsilon(within));
  CHECK(longest.at("check-bar") == Approx(check_bar).epsilon(within));
}
