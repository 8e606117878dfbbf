// A panel that is the same from both sides and both ends, worked in a mirrored order, must read mirrored.
#include "tests/solver/small_job.hpp"
#include "tests/support/reference_panel.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>

using namespace evenpull;
using namespace evenpull::check;

namespace {

using ZoneMap = std::function<int(const Zone&)>;

std::vector<int> mapped(const Panel& p, const std::vector<int>& order, const ZoneMap& map) {
  std::vector<int> out;
  for (int z : order) out.push_back(map(p.zones[z]));
  return out;
}

void check_mirrored(const Panel& p, const Readings& a, const Readings& b, const ZoneMap& map) {
  constexpr double same = 1e-6;
  for (std::size_t z = 0; z < p.zones.size(); ++z) {
    const int m = map(p.zones[z]);
    CHECK(b.zones.chord[m] == Approx(a.zones.chord[z]).epsilon(same));
    CHECK(b.zones.span[m] == Approx(a.zones.span[z]).epsilon(same));
  }
  CHECK(b.stress_use.value == Approx(a.stress_use.value).epsilon(same));
  CHECK(b.edge_bow.value == Approx(a.edge_bow.value).epsilon(same));
  CHECK(b.end_rib_bow.value == Approx(a.end_rib_bow.value).epsilon(same));
  CHECK(b.twist == Approx(a.twist).epsilon(same));
  CHECK(b.unevenness == Approx(a.unevenness).epsilon(same));
  CHECK(b.loose_share == Approx(a.loose_share).epsilon(same));
}

// A pocket in the middle bay, joints that give, wires of which some go slack.
Case pocketed() { return reference::small_panels().back().the_case; }

// The same panel seen from the other end. Pocket and supports while it is ironed stand the same from both.
Case from_other_end(Case c) {
  const int last = static_cast<int>(c.ribs.size()) - 1;
  for (Brace& b : c.braces) b.from_rib = last - b.from_rib, b.to_rib = last - b.to_rib;
  return c;
}

void check_same_wires(const Readings& a, const Readings& b) {
  REQUIRE(a.wire_pulls.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) CHECK(b.wire_pulls[i] == Approx(a.wire_pulls[i]).epsilon(1e-5).margin(1e-4));
}

const std::vector<int> some_order = {0, 4, 2, 1};  // zones of a panel of three bays: T1, B2, T3, T2

}  // namespace

TEST_CASE("turning the job over turns its readings over") {
  Job j(one_zone_a_bay(sample::aileron(3, 0.9)), 150, tight());
  const Panel& p = j.panel();
  const ZoneMap over = [&](const Zone& z) {
    return p.zone(z.side == Side::top ? Side::bottom : Side::top, z.bay, z.strip);
  };
  Covering a = j.ironing.begin(), b = a;
  REQUIRE(work(j, a, some_order, 250, 1));
  REQUIRE(work(j, b, mapped(p, some_order, over), 250, 1));
  const Readings ra = j.read(a), rb = j.read(b);
  check_mirrored(p, ra, rb, over);
  CHECK(std::abs(ra.slip.value) > 1e-5);  // m: there is something to mirror
  CHECK(rb.slip.value == Approx(-ra.slip.value).epsilon(1e-6));
  CHECK(rb.difference_chord.value == Approx(-ra.difference_chord.value).epsilon(1e-6));
  CHECK(rb.difference_span.value == Approx(-ra.difference_span.value).epsilon(1e-6));
}

TEST_CASE("starting from the other end mirrors the readings root to tip") {
  Job j(one_zone_a_bay(sample::aileron(3, 0.9)), 150, tight());
  const Panel& p = j.panel();
  const ZoneMap turned = [&](const Zone& z) { return p.zone(z.side, p.bays - 1 - z.bay, z.strip); };
  Covering a = j.ironing.begin(), b = a;
  REQUIRE(work(j, a, some_order, 250, 1));
  REQUIRE(work(j, b, mapped(p, some_order, turned), 250, 1));
  const Readings ra = j.read(a), rb = j.read(b);
  check_mirrored(p, ra, rb, turned);
  CHECK(rb.slip.value == Approx(ra.slip.value).epsilon(1e-6));
}

TEST_CASE("turned over, a panel with a pocket, riveted ribs and wires reads turned over, and its wires pull the same") {
  Job j(pocketed(), 110, tight());
  const Panel& p = j.panel();
  const ZoneMap over = [&](const Zone& z) {
    return p.zone(z.side == Side::top ? Side::bottom : Side::top, z.bay, z.strip);
  };
  Covering a = j.ironing.begin(), b = a;
  REQUIRE(work(j, a, some_order, 250, 1));
  REQUIRE(work(j, b, mapped(p, some_order, over), 250, 1));
  const Readings ra = j.read(a), rb = j.read(b);
  check_mirrored(p, ra, rb, over);
  check_same_wires(ra, rb);
  CHECK(*std::min_element(ra.wire_pulls.begin(), ra.wire_pulls.end()) == 0);  // one has gone slack on the way
  CHECK(rb.slip.value == Approx(-ra.slip.value).epsilon(1e-6));
}

TEST_CASE("built and worked from the other end, a panel with a pocket, riveted ribs and wires reads mirrored") {
  Job j(pocketed(), 110, tight()), k(from_other_end(pocketed()), 110, tight());
  const Panel& p = j.panel();
  const ZoneMap turned = [&](const Zone& z) { return p.zone(z.side, p.bays - 1 - z.bay, z.strip); };
  Covering a = j.ironing.begin(), b = k.ironing.begin();
  REQUIRE(work(j, a, some_order, 250, 1));
  REQUIRE(work(k, b, mapped(p, some_order, turned), 250, 1));
  const Readings ra = j.read(a), rb = k.read(b);
  check_mirrored(p, ra, rb, turned);
  check_same_wires(ra, rb);
  CHECK(rb.slip.value == Approx(ra.slip.value).epsilon(1e-6));
}

TEST_CASE("the same job gives the same numbers to the last bit") {
  const Case c = one_zone_a_bay(sample::aileron(3, 0.9));
  Job a(c, 150), b(c, 150);
  Covering sa = a.ironing.begin(), sb = b.ironing.begin();
  REQUIRE(work(a, sa, some_order, 250, 1));
  REQUIRE(work(b, sb, some_order, 250, 1));
  CHECK(sa.unknowns == sb.unknowns);
  CHECK(pull_apart(sa, sb) == 0);
}
