#include "tests/app/case_text.hpp"

#include <functional>
#include <regex>

using namespace evenpull;
using namespace evenpull_test;

namespace {

/// Every number of a case in one list, so that two cases can be compared bit by bit.
std::vector<double> numbers(const Case& c) {
  std::vector<double> v;
  const auto add = [&](std::initializer_list<double> more) { v.insert(v.end(), more); };
  const auto make = [&](const MemberMake& m) {
    add({m.shape.outside_diameter, m.shape.wall, m.shape.width, m.shape.height, double(m.material)});
  };
  for (const auto& p : c.outline.leading_edge) add({p.x, p.y});
  for (const auto& p : c.outline.trailing_edge) add({p.x, p.y});
  for (const auto& p : c.profile) add({p.chord_fraction, p.top, p.bottom});
  for (const auto& m : c.materials) add({m.youngs_modulus, m.shear_modulus, m.strength});
  for (const auto& m : c.span_members) add({m.chord_fraction}), make(m.make);
  for (const auto& r : c.ribs) add({r.station}), make(r.make);
  for (const auto* list : {&c.while_ironed, &c.in_use})
    for (const auto& s : *list) add({double(s.member), s.station});
  const auto& k = c.cloth;
  add({k.areal_mass, k.stiffness.warp, k.stiffness.fill, k.poisson, k.shear, k.warp_angle, k.looseness.warp,
       k.looseness.fill});
  for (const auto& p : k.curve) add({p.temperature, p.free_shrink.warp, p.pull.warp, p.pull.fill});
  add({c.blanket.seam_chord_fraction, c.blanket.nose_chord_fraction, c.blanket.wrap_angle, c.blanket.edge_friction,
       c.blanket.rib_friction});
  add({c.iron.sole_length, c.iron.sole_width, c.iron.travel_speed, c.iron.cooling_time, c.iron.swing});
  for (const auto& s : c.stages) {
    add({s.temperature});
    v.insert(v.end(), s.doses.begin(), s.doses.end());
  }
  add({c.limits.twist, c.limits.slip, c.limits.bow_per_spacing, c.limits.unevenness});
  return v;
}

std::string replace_each(const std::string& text, const std::regex& what,
                         const std::function<std::string(double)>& how) {
  std::string out;
  auto from = text.cbegin();
  for (std::sregex_iterator it(text.begin(), text.end(), what), end; it != end; ++it) {
    out.append(from, text.cbegin() + it->position());
    out += how(std::stod((*it)[1]));
    from = text.cbegin() + it->position() + it->length();
  }
  return out.append(from, text.cend());
}

std::string printed(double value, const char* unit) {
  char text[64];
  std::snprintf(text, sizeof text, "\"%.15g %s\"", value, unit);
  return text;
}

}  // namespace

TEST_CASE("the same case in inches and Fahrenheit and in millimetres and Celsius is the same to the last bit",
          "[case]") {
  const std::string original = with(base(), "class = \"medium\"", "areal_mass = \"2.7 oz/yd^2\"") +
                               "\n[iron]\nsole_length = \"200 mm\"\nswing = \"25 degF\"\ntravel_speed = \"35 mm/s\"\n";
  const auto metric =
      replace_each(replace_each(replace_each(original, std::regex("\"(\\d+) degF\""),
                                             [](double f) { return printed((f - 32) / 1.8, "degC"); }),
                                std::regex("\"([0-9.]+) in\""), [](double in) { return printed(in * 25.4, "mm"); }),
                   std::regex("\"([0-9.]+) oz/yd\\^2\""),
                   [](double oz) { return printed(oz * 28.349523125 / 0.83612736, "g/m^2"); });
  // A swing is a difference, so it converts without the offset.
  const auto metric_swing =
      with(metric, "swing = " + printed((25 - 32) / 1.8, "degC") + "\n", "swing = " + printed(25 / 1.8, "K") + "\n");
  const auto imperial =
      replace_each(original, std::regex("\"([0-9.]+) mm\""), [](double mm) { return printed(mm / 25.4, "in"); });
  REQUIRE(metric_swing != original);
  REQUIRE(imperial != original);
  const auto expected = numbers(case_of(original));
  CHECK(numbers(case_of(metric_swing)) == expected);
  CHECK(numbers(case_of(imperial)) == expected);
}
