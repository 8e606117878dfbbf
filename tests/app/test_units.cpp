#include "app/text/units.hpp"
#include "viz/words/print.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using Catch::Matchers::Contains;

namespace {

/// Values are rounded to 12 digits, so half a unit there is all that may differ.
Approx about(double v) { return Approx(v).epsilon(1e-11); }

}  // namespace

TEST_CASE("workshop units are read as the trade means them", "[units]") {
  const Units u;
  CHECK(u.parse("0.016 in", Quantity::length) == about(0.0004064));
  CHECK(u.parse("1800 mm", Quantity::length) == about(1.8));
  CHECK(u.parse("6 ft", Quantity::length) == about(1.8288));
  // An ounce of weight, 28.349523125 g exactly, on a square yard, 0.83612736 m^2 exactly.
  CHECK(u.parse("2.7 oz/yd^2", Quantity::area_mass) == about(2.7 * 0.028349523125 / 0.83612736));
  CHECK(u.parse("92 g/m^2", Quantity::area_mass) == about(0.092));
  // Pound-force 4.4482216152605 N exactly, inch 0.0254 m exactly.
  CHECK(u.parse("2 lb/in", Quantity::force_per_width) == about(2 * 4.4482216152605 / 0.0254));
  CHECK(u.parse("2 lbf/in", Quantity::force_per_width) == u.parse("2 lb/in", Quantity::force_per_width));
  CHECK(u.parse("0.35 kN/m", Quantity::force_per_width) == about(350));
  CHECK(u.parse("35 ksi", Quantity::stress) == about(35000 * 4.4482216152605 / (0.0254 * 0.0254)));
  CHECK(u.parse("35000 psi", Quantity::stress) == about(u.parse("35 ksi", Quantity::stress)));
  CHECK(u.parse("241 MPa", Quantity::stress) == about(241e6));
  CHECK(u.parse("170 deg", Quantity::angle) == about(170 * M_PI / 180));
  CHECK(u.parse("35 mm/s", Quantity::speed) == about(0.035));
  CHECK(u.parse("580 mm^4", Quantity::length4) == about(580e-12));
  CHECK(u.parse("1 %", Quantity::fraction) == about(0.01));
  CHECK(u.parse("0.25", Quantity::fraction) == about(0.25));
}

TEST_CASE("every way of writing Fahrenheit is the same temperature", "[units]") {
  const Units u;
  for (const auto* text : {"250 degF", "250 °F", "250 F", "250 deg F", "250°F"})
    CHECK(u.parse(text, Quantity::temperature) == about((250 + 459.67) / 1.8));
  CHECK(u.parse("80 C", Quantity::temperature) == about(353.15));
}

TEST_CASE("a swing in Fahrenheit is a difference", "[units]") {
  const Units u;
  CHECK(u.parse("18 degF", Quantity::temperature_difference) == about(10));
  CHECK(u.parse("10 degC", Quantity::temperature_difference) == about(10));
  CHECK(u.parse("10 K", Quantity::temperature_difference) == about(10));
}

TEST_CASE("workshop fractions are numbers", "[units]") {
  const Units u;
  CHECK(u.parse("3/8 in", Quantity::length) == about(0.375 * 0.0254));
  CHECK(u.parse("1 1/2 in", Quantity::length) == about(1.5 * 0.0254));
  CHECK(u.parse("1/100", Quantity::fraction) == about(0.01));
}

TEST_CASE("a quantity of the wrong kind is named with what was expected", "[units]") {
  const Units u;
  CHECK_THROWS_WITH(u.parse("92 g/m^2", Quantity::length),
                    Contains("is a mass per area") && Contains("expected a length") && Contains("0.016 in"));
  CHECK_THROWS_WITH(u.parse("3 mm", Quantity::temperature),
                    Contains("is a length") && Contains("expected a temperature"));
  CHECK_THROWS_WITH(u.parse("3 mm", Quantity::fraction), Contains("expected a share"));
  CHECK_THROWS_WITH(u.parse("5 %", Quantity::angle), Contains("expected an angle"));
  CHECK_THROWS_WITH(u.parse("5 deg", Quantity::length), Contains("is an angle"));
  CHECK_THROWS_WITH(u.parse("12", Quantity::length), Contains("has no unit"));
  CHECK_THROWS_WITH(u.parse("12 smoots", Quantity::length), Contains("not known") && Contains("smoots"));
  CHECK_THROWS_WITH(u.parse("mm", Quantity::length), Contains("does not begin with a number"));
  CHECK_THROWS_WITH(u.parse("nan mm", Quantity::length), Contains("does not begin with a number"));
  CHECK_THROWS_AS(u.parse("", Quantity::length), UnitError);
}

TEST_CASE("inches and millimetres round to one number", "[units]") {
  const Units u;
  for (int i = 1; i < 400; ++i) {
    const auto in = std::to_string(i) + "/64 in";
    char mm[64];
    std::snprintf(mm, sizeof mm, "%.17g mm", i * 25.4 / 64);
    CHECK(u.parse(in, Quantity::length) == u.parse(mm, Quantity::length));
  }
}

TEST_CASE("a stage in Fahrenheit comes back as the number that was typed", "[units]") {
  const Units u;
  for (int f = 200; f <= 400; ++f) CHECK(to_degF(u.parse(std::to_string(f) + " degF", Quantity::temperature)) == f);
}

TEST_CASE("nothing is a unit but words of a workshop, put together plainly", "[units]") {
  const Units u;
  const auto refused = [&](const char* text, Quantity kind) {
    INFO(text);
    CHECK_THROWS_AS(u.parse(text, kind), UnitError);
  };
  // UDUNITS-2 understands all of these (its manual, section "Grammar"): reciprocals, offsets, logarithms, dates, prefixes,
  // numbers within a unit, powers without a sign.
  for (const auto* text : {"1795 mm @ -5",
                           "1795 mm from 5",
                           "1795 mm after 5",
                           "1795 mm since 2020-01-01",
                           "1795 mm ref 5",
                           "1 lg(re 1 mm)",
                           "1 ln(re 1 m)",
                           "1 lb(re 1 m)",
                           "0.07 kin",
                           "1 mft",
                           "1 Mm",
                           "1 pm",
                           "1 hm",
                           "0.5 1/m",
                           "2 1/(1/m)",
                           "1 m 2",
                           "1 2m",
                           "1 (2 m)",
                           "1 m^2/m^0",
                           "1 m^0",
                           "1 m^12",
                           "1 ((m))",
                           "1 (m",
                           "1 m)",
                           "1 /m",
                           "1 m/",
                           "1 m//m",
                           "1 ^2",
                           "1 m^",
                           "1 %",
                           "1 m%",
                           "1 ft in",
                           "1 light_year",
                           "1 m m",
                           "1 meterm"})
    refused(text, Quantity::length);
  for (const auto* text : {"5 Hz", "5 1/s", "0.2 /s", "5 s^-1", "5 s 2000-01-01"}) refused(text, Quantity::time);
  for (const auto* text : {"250 degF^1", "250 degF mm/mm", "250 degF/1", "250 K @ 10", "250 degF degF/degF", "250 deg"})
    refused(text, Quantity::temperature);
  for (const auto* text : {"1 dBm", "1 dBZ", "1 lg(re 1 mW)", "1 VA s/s"}) refused(text, Quantity::power);
  refused("2 in/lb", Quantity::force_per_width);  // the reciprocal
  refused("0.01 yd^2/oz", Quantity::area_mass);
  refused("1e200/1e-200 m", Quantity::length);
  refused("1e200/1e-200", Quantity::fraction);
}

TEST_CASE("units are put together as people write them", "[units]") {
  const Units u;
  for (const auto* text : {"2.7 oz/yd^2", "2.7 oz/yd2", "2.7 oz/yd²", "2.7 oz per sq yd", "2.7 oz / sq yd",
                           "2.7 ounces per square yard", "2.7 oz/(yd yd)", "2.7oz/yd^2", "2.7 oz yd^-2"})
    CHECK(u.parse(text, Quantity::area_mass) == about(2.7 * 0.028349523125 / 0.83612736));
  for (const auto* text : {"92 g/m^2", "92 gsm", "92 g m-2", "92 g·m^-2", "0.092 kg/m²"})
    CHECK(u.parse(text, Quantity::area_mass) == about(0.092));
  for (const auto* text : {"400 W/m^2/K", "400 W/(m^2 K)", "400 W/(m² K)", "400 W m^-2 K^-1", "400 W/m^2/degC"})
    CHECK(u.parse(text, Quantity::conductance) == about(400));
  for (const auto* text : {"18 in", "18 in.", "18\"", "18 inches", "1.5 ft", "1.5'", "457.2 mm", "18000 mil"})
    CHECK(u.parse(text, Quantity::length) == about(0.4572));
  for (const auto* text : {"2 lb/in", "2 lbs/in", "2 lb per in", "2 pounds per inch", "2 lbf/in"})
    CHECK(u.parse(text, Quantity::force_per_width) == about(2 * 4.4482216152605 / 0.0254));
  CHECK(u.parse("30 kJ/mol", Quantity::molar_energy) == about(30000));
  CHECK(u.parse("2 min", Quantity::time) == about(120));
  CHECK(u.parse("+3 mm", Quantity::length) == about(0.003));
  CHECK(u.parse("1 in/s", Quantity::speed) == about(0.0254));
}
