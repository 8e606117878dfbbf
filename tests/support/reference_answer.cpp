#include "tests/support/reference_answer.hpp"

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace evenpull::reference {
namespace {

constexpr double mm = 1e-3;

// Compilers and mathematics libraries differ in the last digits, a changed mesh by far more.
constexpr double same_number = 1e-9;

Eigen::Vector3d three(std::istream& in) {
  Eigen::Vector3d v;
  in >> v[0] >> v[1] >> v[2];
  return v;
}

bool same(const std::string& a, const std::string& b) {
  if (a == b) return true;
  char *end_a = nullptr, *end_b = nullptr;
  const double x = std::strtod(a.c_str(), &end_a), y = std::strtod(b.c_str(), &end_b);
  const bool numbers = end_a != a.c_str() && *end_a == 0 && end_b != b.c_str() && *end_b == 0;
  return numbers && std::abs(x - y) <= same_number * std::max(1e-6, std::max(std::abs(x), std::abs(y)));
}

}  // namespace

std::string stored_text(const std::string& panel, const std::string& which) {
  const std::string path = EVENPULL_SOURCE_DIR "/tests/reference/" + panel + "_" + which + ".txt";
  std::ifstream in(path);
  if (!in) throw std::runtime_error("cannot read " + path);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

std::vector<Answer> read_answers(const std::string& panel) {
  std::vector<Answer> out;
  std::istringstream text(stored_text(panel, "answer"));
  for (std::string line; std::getline(text, line);) {
    std::istringstream in(line);
    std::string word;
    in >> word;
    if (word == "step") {
      int index = 0;
      in >> index >> out.emplace_back().kind;
    }
    if (out.empty()) continue;
    Answer& a = out.back();
    if (word == "energy") in >> a.cloth_energy >> a.frame_energy;
    if (word == "use") in >> a.use;
    if (word == "mean")
      for (double& v : a.mean) in >> v;
    if (word == "slip")
      for (double v; in >> v;) a.slip.push_back(v * mm);
    if (word == "wire")
      for (double v; in >> v;) a.wires.push_back(v);
    if (word == "pull") a.pull.push_back(three(in));
    if (word == "joint") a.joints.push_back(mm * three(in));
    if (word == "node") a.nodes.push_back(mm * three(in));
  }
  return out;
}

std::string first_difference(const std::string& stored, const std::string& now) {
  std::istringstream a(stored), b(now);
  std::string line_a, line_b;
  for (int number = 1;; ++number) {
    const bool more_a = static_cast<bool>(std::getline(a, line_a)), more_b = static_cast<bool>(std::getline(b, line_b));
    if (!more_a && !more_b) return "";
    std::istringstream words_a(more_a ? line_a : ""), words_b(more_b ? line_b : "");
    while (true) {
      std::string x, y;
      words_a >> x;
      words_b >> y;
      if (x.empty() && y.empty()) break;
      if (!same(x, y)) return "line " + std::to_string(number) + ": stored '" + line_a + "', now '" + line_b + "'";
    }
  }
}

}  // namespace evenpull::reference
