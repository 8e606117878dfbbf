// Glue lines against a flat rectangular panel, of which length and area are plain products. Numbers invented.
#include "shop/glue_lines.hpp"
#include "tests/shop/flat_wrap.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check::flat_wrap;

namespace {

double area_at(const std::vector<GlueLine>& lines, LineAt at) {
  double sum = 0;
  for (const GlueLine& l : lines) sum += l.at == at ? l.area() : 0;
  return sum;
}

std::vector<GlueLine> lines_of(const Case& c) { return glue_lines(c, build_panel(c, {400}), glue()); }

}  // namespace

TEST_CASE("a flat full wrap is glued along both seam lines and round both end ribs, and nowhere else", "[glue]") {
  const auto lines = lines_of(flat());
  CHECK(area_at(lines, LineAt::leading_edge) == Approx(2 * span * 0.05));
  CHECK(area_at(lines, LineAt::end_rib) == Approx(4 * skin * (flange + 0.025)));
  CHECK(glue_need(lines, glue()).area == Approx(2 * span * 0.05 + 4 * skin * (flange + 0.025)));
}

TEST_CASE("where the seam lies on the leading edge the two ends share one lap", "[glue]") {
  Case c = flat();
  c.blanket.seam_chord_fraction = 0;
  double turned = 0;
  for (const GlueLine& l : lines_of(c))
    if (l.at == LineAt::leading_edge) turned += l.length * l.turned;
  CHECK(turned == Approx(span * 0.05));
}

TEST_CASE("glued inner ribs and two sheets add their lines", "[glue]") {
  Case c = flat();
  c.blanket.inner_ribs = RibTie::glued;
  CHECK(area_at(lines_of(c), LineAt::inner_rib) == Approx(2 * 5 * 0.75 * chord * flange));  // behind the nose
  c.blanket.kind = BlanketKind::two_sheets;
  CHECK(area_at(lines_of(c), LineAt::trailing_edge) == Approx(2 * span * 0.05));
}

TEST_CASE("a pocket takes its stretch of nothing away from the seam and adds its front and sides", "[glue]") {
  Case c = sample::light_rudder(6);
  c.profile = {{0, 0.05, 0.05}, {1, 0.05, 0.05}};
  Pocket p;
  p.name = "tab", p.from = 0.6, p.to = 1.2, p.depth = 0.08, p.make = c.ribs.front().make;
  c.pockets = {p};
  const auto lines = lines_of(c);
  const double face = 12.7e-3;  // a tube counts as wide as its diameter
  CHECK(area_at(lines, LineAt::pocket_front) == Approx(2 * 0.6 * (face + 0.025)));
  CHECK(area_at(lines, LineAt::pocket_side) == Approx(2 * 2 * 0.08 * (face + 0.025)));
  CHECK(area_at(lines, LineAt::leading_edge) == Approx(2 * span * 0.05));
}

TEST_CASE("the volume is area times coats over coverage, what is lost on top, and its range that of the coverage",
          "[glue]") {
  const Adhesive a = glue();
  GlueLine l;
  l.length = 2, l.width = 0.1;
  const GlueNeed need = glue_need({l}, a);
  CHECK(need.pre_coat.likely == Approx(0.2 / 10e3));
  CHECK(need.in_all.likely == Approx(3 * 0.2 / 10e3 / 0.8));
  CHECK(std::log(need.in_all.high / need.in_all.low) == Approx(2 * 1.96 * 0.25));
}

TEST_CASE("tapes over edges and ribs are as long as these", "[glue]") {
  const Case c = flat();
  double edges = 0, ribs = 0;
  for (const ClothLine& l : edge_and_rib_lines(c, build_panel(c, {400})))
    (l.at == LineAt::leading_edge || l.at == LineAt::trailing_edge ? edges : ribs) += l.length;
  CHECK(edges == Approx(3 * span));  // two seams at the nose, one trailing edge
  CHECK(ribs == Approx(2 * 7 * skin));
}
