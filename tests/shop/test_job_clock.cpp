// The work list: its order, its sums, and what is not known. Numbers invented.
#include "shop/job_clock.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>

using namespace evenpull;

namespace {

Adhesive stated() {
  Adhesive a;
  a.coverage = 10e3, a.coverage_off = 0.25, a.lap = 0.05, a.tuck_round = 0.025;
  a.pre_coats = 2, a.lay_in_coats = 1, a.brush_through_coats = 1;
  a.waiting = 900, a.between = 300;
  return a;
}

Finish finish() {
  Finish f;
  f.times = {1800, 1800, 60, 600, 240, 1800};
  f.tapes = Tapes{0.13, 0.05, 0.05, 0.05, 0.05};
  return f;
}

const PlannedIroning two_stages = {true, {{394.26, 1234, 300, 600, 5}, {422.04, 2345, 120, 600, 2}}};

std::vector<ClockItem> clock_of(const Adhesive& a, const std::optional<PlannedIroning>& stages) {
  const Case c = sample::aileron();
  return job_clock(c, build_panel(c, {300}), a, finish(), stages);
}

double seconds_of(const std::vector<ClockItem>& items, std::initializer_list<JobPart> parts) {
  double sum = 0;
  for (const ClockItem& i : items)
    if (std::find(parts.begin(), parts.end(), i.part) != parts.end()) sum += i.seconds.value_or(0);
  return sum;
}

const ClockItem& first_of(const std::vector<ClockItem>& items, JobPart part) {
  const auto at = std::find_if(items.begin(), items.end(), [&](const ClockItem& i) { return i.part == part; });
  REQUIRE(at != items.end());
  return *at;
}

}  // namespace

TEST_CASE("ironing, turning and cooling of the list add up to the hours of the plan", "[clock]") {
  const auto items = clock_of(stated(), two_stages);
  CHECK(seconds_of(items, {JobPart::iron, JobPart::turn_over, JobPart::cool_and_check}) ==
        Approx(1234 + 300 + 600 + 2345 + 120 + 600));
}

TEST_CASE("each part begins when all before it are over", "[clock]") {
  double so_far = 0;
  for (const ClockItem& i : clock_of(stated(), two_stages)) {
    CHECK(i.begins == Approx(so_far).margin(1e-9));
    CHECK(i.known);
    so_far += i.seconds.value_or(0);
  }
}

TEST_CASE("the iron comes after every coat and its wait, ribs and tapes after the iron, inspection after both",
          "[clock]") {
  const auto items = clock_of(stated(), two_stages);
  std::vector<JobPart> parts;
  for (const ClockItem& i : items) parts.push_back(i.part);
  using P = JobPart;
  CHECK(parts ==
        std::vector<P>{P::frame_check,    P::cut,         P::pre_coat,       P::wait_between,  P::pre_coat,
                       P::wait_between,   P::lay_in,      P::wait_between,   P::brush_through, P::wait_before_iron,
                       P::iron,           P::turn_over,   P::cool_and_check, P::iron,          P::turn_over,
                       P::cool_and_check, P::attach_ribs, P::tapes,          P::inspection,    P::sign_off});
}

TEST_CASE("a wait that nobody stated leaves open when the rest begins", "[clock]") {
  Adhesive a = stated();
  a.waiting.reset();
  const auto items = clock_of(a, two_stages);
  CHECK(first_of(items, JobPart::brush_through).known);
  CHECK(first_of(items, JobPart::wait_before_iron).known);
  CHECK_FALSE(first_of(items, JobPart::iron).known);
  CHECK_FALSE(first_of(items, JobPart::inspection).known);
}

TEST_CASE("without a plan the ironing is left open, and by one that calls no stage safe it is not done", "[clock]") {
  CHECK_FALSE(first_of(clock_of(stated(), {}), JobPart::ironing_not_planned).seconds);
  CHECK_FALSE(first_of(clock_of(stated(), PlannedIroning{}), JobPart::ironing_not_allowed).seconds);
}

TEST_CASE("of a plan whose ironing is all done none is listed, and nothing is barred", "[clock]") {
  for (const ClockItem& i : clock_of(stated(), PlannedIroning{true, {}})) {
    CHECK(i.part != JobPart::iron);
    CHECK(i.part != JobPart::ironing_not_allowed);
  }
}

TEST_CASE("ribs that are glued before are not attached after", "[clock]") {
  Case c = sample::aileron();
  c.blanket.inner_ribs = RibTie::glued;
  for (const ClockItem& i : job_clock(c, build_panel(c, {300}), stated(), finish(), two_stages))
    CHECK(i.part != JobPart::attach_ribs);
}

TEST_CASE("ribs that the case has fastened between stages stand between them, and are not counted again", "[clock]") {
  Case c = sample::aileron();
  REQUIRE(c.ribs.size() > 4);
  Attachment early, late;
  early.how = AttachHow::laced, early.ribs = {1, 2}, early.after = two_stages.stages[0].temperature;
  late.how = AttachHow::glued, late.ribs = {3}, late.after = std::numeric_limits<double>::infinity();
  c.attachments = {early, late};
  const Case plain = sample::aileron();
  const auto items = job_clock(c, build_panel(c, {300}), stated(), finish(), two_stages);
  const auto at = [&](auto wanted) { return std::find_if(items.begin(), items.end(), wanted) - items.begin(); };
  const auto laced = at([](const ClockItem& i) { return i.attachment == 0; });
  const auto glued = at([](const ClockItem& i) { return i.attachment == 1; });
  const auto hotter = at([](const ClockItem& i) { return i.part == JobPart::iron && *i.stage > 400; });
  CHECK(laced < hotter);
  CHECK(hotter < glued);
  CHECK(items[static_cast<std::size_t>(laced)].seconds == Approx(2 * finish().times.attaching));
  const auto before = job_clock(plain, build_panel(plain, {300}), stated(), finish(), two_stages);
  const int all = first_of(before, JobPart::attach_ribs).count;
  const int left = all > 3 ? first_of(items, JobPart::attach_ribs).count : 0;
  CHECK(left == all - 3);
}
