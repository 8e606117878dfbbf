// Mass and moment of a flat rectangular covering, by hand. Numbers invented.
#include "shop/weigh.hpp"
#include "tests/shop/flat_wrap.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check::flat_wrap;

namespace {

constexpr double middle = seam * chord + 0.5 * skin, hinge_at = 0.25 * chord;

Finish finish() {
  Finish f;
  f.tapes = Tapes{0.13, 0.05, 0.05, 0.05, 0.05};
  f.coats = Coats{0.1, 0.25};
  return f;
}

CoveringWeight weigh(const Case& c, const Finish& f) {
  return weigh_covering(c, build_panel(c, {400}), glue(), f, hinge_line(c), true);
}

const Weighed& part(const CoveringWeight& w, WeighedPart p) {
  for (const WeighedItem& i : w.items)
    if (i.part == p) return i.weighed;
  FAIL("not weighed");
  throw std::logic_error("");
}

}  // namespace

TEST_CASE("a flat rectangular covering weighs its areas, and its moment is that of their middles", "[weigh]") {
  const Case c = flat();
  const CoveringWeight w = weigh(c, finish());
  const double cloth = 2 * span * skin * 0.092, coats = 2 * span * skin * 0.1;
  CHECK(part(w, WeighedPart::cloth).mass == Approx(cloth));
  CHECK(part(w, WeighedPart::cloth).moment == Approx(cloth * (middle - hinge_at)));
  CHECK(part(w, WeighedPart::coats).moment == Approx(coats * (middle - hinge_at)));
  // Laps at the seam line, tucks along the end ribs.
  const double laps = 2 * span * lap * 0.092, tucks = 4 * skin * tuck * 0.092, seam_arm = seam * chord - hinge_at;
  CHECK(part(w, WeighedPart::turned_cloth).mass == Approx(laps + tucks));
  CHECK(part(w, WeighedPart::turned_cloth).moment == Approx(laps * seam_arm + tucks * (middle - hinge_at)));
  const double glued_laps = 2 * span * lap * 0.06, glued_ribs = 4 * skin * (flange + tuck) * 0.06;
  CHECK(part(w, WeighedPart::adhesive).moment == Approx(glued_laps * seam_arm + glued_ribs * (middle - hinge_at)));
  const double nose_tape = 2 * span * 0.05 * 0.13, edge_tape = span * 0.05 * 0.13, rib_tape = 14 * skin * 0.05 * 0.13;
  CHECK(part(w, WeighedPart::tapes).mass == Approx(nose_tape + edge_tape + rib_tape));
  CHECK(part(w, WeighedPart::tapes).moment ==
        Approx(nose_tape * seam_arm + edge_tape * (chord - hinge_at) + rib_tape * (middle - hinge_at)));
  double mass = 0, moment = 0;
  for (const WeighedItem& i : w.items) mass += i.weighed.mass, moment += i.weighed.moment;
  CHECK(w.all.mass == Approx(mass));
  CHECK(w.all.moment == Approx(moment));
}

TEST_CASE("what the case does not state is not weighed", "[weigh]") {
  const CoveringWeight w = weigh(flat(), {});
  CHECK(w.items.size() == 3);
}

TEST_CASE("heavier cloth weighs as much more, and everything is off by something", "[weigh]") {
  Case c = flat();
  const CoveringWeight light = weigh(c, finish());
  c.cloth.areal_mass *= 2;
  const CoveringWeight heavy = weigh(c, finish());
  CHECK(part(heavy, WeighedPart::cloth).moment == Approx(2 * part(light, WeighedPart::cloth).moment));
  CHECK(light.all.mass_off > part(light, WeighedPart::coats).mass_off);
  CHECK(light.all.moment_off > 0);
}

TEST_CASE("distance behind a slanted hinge line is square to it", "[weigh]") {
  HingeLine h;
  h.from = {1, 0}, h.to = {1 + std::tan(0.3), 1};
  CHECK(h.behind({1.5, 0}) == Approx(0.5 * std::cos(0.3)));
  CHECK(h.behind({0.5, 0}) == Approx(-0.5 * std::cos(0.3)));
  CHECK(h.behind({1 + 2 * std::tan(0.3), 2}) == Approx(0).margin(1e-12));
}

TEST_CASE("the hinge line goes through the outermost hinges, or along the member that is said to carry them",
          "[weigh]") {
  Case c = flat();
  REQUIRE(hinge_line(c));
  CHECK(hinge_line(c)->between_hinges);
  CHECK(hinge_line(c)->from.x() == Approx(hinge_at));
  c.in_use = {c.in_use[2]};
  CHECK(!hinge_line(c));
  CHECK(weigh(c, finish()).all.has_moment == false);
  c.span_members[1].hinge_line = true;
  REQUIRE(hinge_line(c));
  CHECK(!hinge_line(c)->between_hinges);
  CHECK(hinge_line(c)->from.x() == Approx(chord));
  CHECK(hinge_line(c, 0)->from.x() == Approx(hinge_at));
}

TEST_CASE("new less old is known in moment only where both are", "[weigh]") {
  const CoveringWeight now = weigh(flat(), finish());
  const Weighed same = difference(now.all, weigh_old(now.all.mass, now.all.moment / now.all.mass));
  CHECK(same.mass == Approx(0).margin(1e-12));
  CHECK(same.moment == Approx(0).margin(1e-12));
  CHECK(same.mass_off > now.all.mass_off);
  CHECK(!difference(now.all, weigh_old(0.3, {})).has_moment);
}

TEST_CASE("skin and laps are of one roll: what their weight is off by adds up", "[weigh]") {
  Finish bare = finish();
  bare.tapes.reset(), bare.coats.reset();
  const CoveringWeight w = weigh(flat(), bare);
  const double cloth = part(w, WeighedPart::cloth).mass_off + part(w, WeighedPart::turned_cloth).mass_off;
  CHECK(w.all.mass_off == Approx(std::hypot(cloth, part(w, WeighedPart::adhesive).mass_off)));
}
