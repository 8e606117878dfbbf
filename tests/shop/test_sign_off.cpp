// What stands open before a sign-off.
#include "shop/sign_off.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;

namespace {

double F(double fahrenheit) { return (fahrenheit + 459.67) / 1.8; }

Adhesive stated() {
  Adhesive a;
  a.hottest = F(300), a.waiting = 900;
  return a;
}

// Planned, worked and read as expected; invented.
SignOffFacts whole_job() {
  SignOffFacts f;
  f.plan = PlanDigest{};
  f.plan->hottest_safe = F(250);
  f.work = WorkSoFar{};
  f.work->steps = {{F(250), 1, Side::top, 1, 1, 1}};
  f.work->readings = {{F(250), {}, 1}};
  f.standing = JobStanding{};
  f.standing->move = NextMove::finished;
  ReadingJudged r;
  r.says = ReadingSays::inside;
  f.standing->readings = {r};
  return f;
}

bool is_open(const SignOffFacts& f, OpenItem item, const Adhesive& a = stated(), const Case& c = sample::aileron()) {
  const auto all = open_items(c, a, f);
  return std::find(all.begin(), all.end(), item) != all.end();
}

}  // namespace

TEST_CASE("a job planned, finished and read as expected has nothing open on paper", "[signoff]") {
  CHECK(open_items(sample::aileron(), stated(), whole_job()).empty());
}

TEST_CASE("what is missing is open: plan, log, readings, adhesive", "[signoff]") {
  const SignOffFacts nothing;
  CHECK(is_open(nothing, OpenItem::no_plan));
  CHECK(is_open(nothing, OpenItem::no_log));
  SignOffFacts unread = whole_job();
  unread.work->readings.clear();
  CHECK(is_open(unread, OpenItem::no_reading));
  CHECK(is_open(whole_job(), OpenItem::adhesive_not_stated, {}));
  CHECK(is_open(whole_job(), OpenItem::waiting_not_stated, {}));
}

TEST_CASE("heat beyond the adhesive or the approved data is open, and comes first", "[signoff]") {
  SignOffFacts f = whole_job();
  f.work->steps.push_back({F(350), 1, Side::bottom, 1, 1, 1});
  Case c = sample::aileron();
  c.approved_last_stage = F(300);
  CHECK(open_items(c, stated(), f).front() == OpenItem::hotter_than_adhesive);
  CHECK(is_open(f, OpenItem::after_approved_stage, stated(), c));
  CHECK_FALSE(is_open(whole_job(), OpenItem::after_approved_stage, stated(), c));
  CHECK(is_open(whole_job(), OpenItem::below_approved_stage, stated(), c));
  CHECK_FALSE(is_open(f, OpenItem::below_approved_stage, stated(), c));
}

TEST_CASE("every standing but a finished one is open", "[signoff]") {
  const std::pair<NextMove, OpenItem> all[] = {{NextMove::work, OpenItem::work_left},
                                               {NextMove::read_first, OpenItem::readings_left},
                                               {NextMove::work_again, OpenItem::work_again},
                                               {NextMove::stop, OpenItem::stopped},
                                               {NextMove::plan_anew, OpenItem::off_the_plan}};
  for (const auto& [move, item] : all) {
    SignOffFacts f = whole_job();
    f.standing->move = move;
    CHECK(is_open(f, item));
  }
}

TEST_CASE("a first look, a plan of no safe stage, a damaged log and a reading outside are open", "[signoff]") {
  SignOffFacts f = whole_job();
  f.plan->first_look = true;
  CHECK(is_open(f, OpenItem::first_look_only));
  f = whole_job();
  f.plan->hottest_safe.reset();
  CHECK(is_open(f, OpenItem::no_stage_safe));
  f = whole_job();
  f.log_damaged = true;
  CHECK(is_open(f, OpenItem::log_damaged));
  for (const ReadingSays says : {ReadingSays::less, ReadingSays::more, ReadingSays::far_off}) {
    f = whole_job();
    f.standing->readings[0].says = says;
    CHECK(is_open(f, OpenItem::reading_outside));
  }
}
