#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/kit/text.hpp"
#include "viz/sheet/sheet.hpp"
#include "viz/words/check_words.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <limits>

using Catch::Matchers::Contains;
using namespace evenpull;
using namespace evenpull::reading;

namespace {

const char* const airworthy = "This does not show that the part is airworthy";

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::vector<std::string> sheet_pages(const Plan& plan, Paper paper = Paper::letter) {
  Folder folder;
  write_sheet(plan, paper, "0.0.0", folder / "plan.pdf");
  return pages(folder / "plan.pdf");
}

std::vector<SampleWish> wishes() {
  SampleWish bow, none, sheets, single, broad;
  bow.tip_bow = true;
  none.no_ceiling = true;
  sheets.two_sheets = true;
  sheets.zones_per_run = 18;
  single.zones_per_run = 1;
  single.bays = 10;
  broad.span = 1.0;
  broad.root_chord = broad.tip_chord = 0.9;
  return {SampleWish{}, bow, none, sheets, single, broad};
}

}  // namespace

TEST_CASE("every page of the sheet says that it does not show the part airworthy") {
  for (const auto& wish : wishes())
    for (Paper paper : {Paper::letter, Paper::a4}) {
      const auto all = sheet_pages(sample_plan(wish), paper);
      REQUIRE(all.size() >= 3);
      for (const auto& page : all) {
        CHECK(has(page, airworthy));
        CHECK(has(page, "of " + std::to_string(all.size())));
      }
    }
}

TEST_CASE("two runs of the same plan give the same bytes") {
  Folder folder;
  const Plan plan = sample_plan();
  write_sheet(plan, Paper::a4, "0.0.0", folder / "one.pdf");
  write_sheet(plan, Paper::a4, "0.0.0", folder / "two.pdf");
  CHECK(bytes(folder / "one.pdf") == bytes(folder / "two.pdf"));
  CHECK_FALSE(std::filesystem::exists(folder / "one.pdf.part"));
}

TEST_CASE("the first page gives the hottest safe stage in both units, the reason and the cautions") {
  const Plan plan = sample_plan();
  const std::string first = sheet_pages(plan).front();
  for (const char* part : {"HOTTEST SAFE STAGE", "300 °F", "149 °C", "0.83", "thermometer", "375 °F", "480", "500 °F",
                           "Ventilate", "licensed"})
    CHECK_THAT(first, Contains(part));
  CHECK_THAT(first + sheet_pages(plan)[1], Contains("Order:"));
}

TEST_CASE("however long the reasons are, nothing but cautions stands in their box") {
  for (int advices = 0; advices < 5; ++advices) {
    Plan plan = sample_plan();
    plan.advice.items.assign(static_cast<std::size_t>(advices), advice::BracingHelps{});
    Folder folder;
    write_sheet(plan, Paper::letter, "0.0.0", folder / "plan.pdf");
    const double top = [&] {
      for (const Word& w : words_of_page(folder / "plan.pdf", 1))
        if (w.text == "Before") return w.top;
      return 0.0;
    }();
    REQUIRE(top > 100);
    for (const Word& w : words_of_page(folder / "plan.pdf", 1)) {
      const bool reading = w.text == "buckling:" || w.text == "unevenness:" || w.text == "stress:" || w.text == "±";
      INFO(advices << " " << w.text);
      if (reading) CHECK(w.bottom < top + 2);
    }
  }
}

TEST_CASE("stages are printed up to the ceiling only") {
  const auto all = sheet_pages(sample_plan());
  int works = 0;
  for (const auto& page : all) {
    works += has(page, "Stage 1 of 2") + has(page, "Stage 2 of 2");
    CHECK_FALSE(has(page, "Stage 3 of"));
  }
  CHECK(works == 2);
}

TEST_CASE("no ironing steps are printed when no stage is safe") {
  SampleWish wish;
  wish.no_ceiling = true;
  const auto all = sheet_pages(sample_plan(wish));
  CHECK(has(all.front(), "NONE"));
  for (const auto& page : all) {
    CHECK_FALSE(has(page, "Pass 1: stay"));
    CHECK_FALSE(has(page, "turn over"));
    CHECK_FALSE(has(page, "CHOSEN"));
  }
}

TEST_CASE("loose cloth stands first on the first page, and the sheet still fits") {
  const auto first_page = [](const Plan& plan) {  // lines may break anywhere
    std::string text = sheet_pages(plan).front(), flat;
    for (const char c : text)
      if (c != '\n' && c != ' ') flat += c;
      else if (!flat.empty() && flat.back() != ' ') flat += ' ';
    return flat;
  };
  const auto stands_first = [](const std::string& page, const std::string& part) {
    return has(page, part) && page.find(part) < page.find("HOTTEST SAFE STAGE");
  };
  SampleWish none;
  none.no_ceiling = true;
  Plan plan = sample_plan(none);
  plan.advice.never_tight = true;
  plan.advice.loose = LooseCloth{0, {}};
  for (std::size_t z = 0; z < plan.panel.zones.size(); ++z)
    if (plan.panel.zones[z].side == Side::top || plan.panel.zones[z].label == "B3")
      plan.advice.loose->zones.push_back(static_cast<int>(z));
  const std::string page = first_page(plan);
  CHECK(stands_first(page, "NOT TIGHT"));
  CHECK(stands_first(page, "all of the top and B3 with next to no pull."));
  CHECK(has(page, "NONE"));
  // On the way to a tight end the sentence stands there as well.
  Plan way = sample_plan();
  way.advice.loose = LooseCloth{0, {0}, 1};
  way.stages[0].loose_zones = {0};
  CHECK(stands_first(first_page(way), "T1 with next to no pull."));
}

TEST_CASE("on the page of a stage each zone carries the place at which it is worked") {
  const Plan plan = sample_plan();
  Folder folder;
  write_sheet(plan, Paper::letter, "0.0.0", folder / "plan.pdf");
  const auto all = pages(folder / "plan.pdf");
  const auto work = std::find_if(all.begin(), all.end(), [](const std::string& p) { return has(p, "Stage 1 of 2"); });
  REQUIRE(work != all.end());
  CHECK(has(*work, "Pass 1 and 2 light"));
  const auto words = words_of_page(folder / "plan.pdf", static_cast<int>(work - all.begin()) + 1);
  const auto distance = [](const Word& a, const Word& b) { return std::hypot(a.x() - b.x(), a.y() - b.y()); };
  std::size_t right = 0;
  for (const auto& step : plan.steps) {
    if (step.stage != 0 || step.pass != 1) continue;
    const std::string& label = plan.panel.zones[static_cast<std::size_t>(step.zone)].label;
    INFO(label << " is worked at place " << step.place);
    // The label stands in the list too; in the skins it is the one that has a number beside it in its own zone.
    std::vector<std::string> beside;
    for (const Word& w : words) {
      if (w.text != label) continue;
      const Word* nearest = nullptr;
      for (const Word& n : words)
        if (n.text.find_first_not_of("0123456789") == std::string::npos &&
            (!nearest || distance(w, n) < distance(w, *nearest)))
          nearest = &n;
      REQUIRE(nearest);
      beside.push_back(nearest->text);
    }
    CHECK(beside.size() == 2);
    right += std::count(beside.begin(), beside.end(), std::to_string(step.place)) >= 1;
  }
  CHECK(right == plan.panel.zones.size());
}

TEST_CASE("passes that follow another order get a page of their own") {
  Plan plan = sample_plan();
  // The last pass of the first stage is worked backwards.
  std::vector<std::size_t> last;
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    if (plan.steps[i].stage == 0 && plan.steps[i].pass == 3) last.push_back(i);
  for (std::size_t i = 0; i < last.size() / 2; ++i)
    std::swap(plan.steps[last[i]].zone, plan.steps[last[last.size() - 1 - i]].zone);
  int first_stage = 0;
  for (const auto& page : sheet_pages(plan)) first_stage += has(page, "Stage 1 of 2, pass");
  CHECK(first_stage == 2);
}

TEST_CASE("quick plans and replays are marked on every page") {
  Plan plan = sample_plan();
  plan.accuracy = Accuracy::quick;
  plan.replayed = true;
  for (const auto& page : sheet_pages(plan)) {
    CHECK(has(page, "QUICK"));
    CHECK(has(page, "REPLAY"));
  }
}

TEST_CASE("a few pages suffice") {
  // Our own measure: three stages, seven passes, sixty zones fit a dozen sheets of paper.
  SampleWish wish;
  wish.bays = 10;
  for (int run : {1, 3, 30}) {
    wish.zones_per_run = run;
    Plan plan = sample_plan(wish);
    plan.ceiling = 2;
    CHECK(sheet_pages(plan).size() <= 12);
  }
}

TEST_CASE("no type on the sheet is smaller than 3 mm capitals") {
  // pdftotext states word boxes from ascent to descent; those of DejaVu Sans span at least 1.10 of the type size.
  constexpr double box_share = 1.10;
  Folder folder;
  for (const auto& wish : wishes()) {
    write_sheet(sample_plan(wish), Paper::letter, "0.0.0", folder / "plan.pdf");
    const auto heights = word_heights(folder / "plan.pdf");
    REQUIRE(heights.size() > 300);
    CHECK(*std::min_element(heights.begin(), heights.end()) >= box_share * viz::least_type);
  }
}

TEST_CASE("a long reason pushes the order to a page of its own and loses nothing") {
  Plan plan = sample_plan();
  constexpr std::size_t long_ones = 6;
  plan.advice.items.assign(long_ones, advice::StaysLoose{});
  const auto all = sheet_pages(plan);
  CHECK(has(all[0], "licensed"));
  CHECK_FALSE(has(all[0], "Order:"));
  std::string text;
  for (const auto& page : all) text += page;
  std::size_t found = 0;
  for (std::size_t at = 0; (at = text.find("covering.", at)) != std::string::npos; ++at) ++found;
  CHECK(found == long_ones);
  CHECK(has(text, "Order:"));
}

TEST_CASE("a few reasons that page 1 has no room for stand above the order, not on a page of their own") {
  for (std::size_t n = 1; n < 10; ++n) {
    Plan plan = sample_plan();
    plan.advice.items.assign(n, advice::StaysLoose{});
    for (const auto& page : sheet_pages(plan))
      if (has(page, "Why, continued")) {
        CHECK(has(page, "Order:"));
        return;
      }
  }
  FAIL("no page goes on with reasons");
}

TEST_CASE("a plan with nothing but an answer still gives a sheet") {
  Plan plan = sample_plan();
  plan.limits.clear();
  plan.orders.clear();
  plan.stages.clear();
  plan.bounds.clear();
  plan.snapshots.clear();
  plan.stage_end_snapshot.clear();
  plan.notes.clear();
  plan.the_case.doubts.clear();
  plan.the_case.defaults_used.clear();
  const auto all = sheet_pages(plan);
  CHECK(has(all.front(), "300 °F"));
  CHECK(all.size() >= 5);
}

TEST_CASE("no page shows a number that is none") {
  Plan plan = sample_plan();
  for (auto& r : plan.limits)
    if (r.limit == Limit::buckling) {
      r.value = std::numeric_limits<double>::infinity();
      r.use = 0;
    }
  for (const auto& page : sheet_pages(plan))
    for (const char* word : {"nan", " inf ", "-0.00"}) CHECK_FALSE(has(page, word));
}

TEST_CASE("a folder that does not exist is named and nothing is left behind") {
  Folder folder;
  const std::string path = folder / "missing/plan.pdf";
  CHECK_THROWS_WITH(write_sheet(sample_plan(), Paper::letter, "0.0.0", path), Catch::Contains(path));
  CHECK(std::filesystem::is_empty(folder.path()));
}

TEST_CASE(
    "an order under which the frame gave way is said so among the orders, without a number that stands for too much") {
  Plan plan = sample_plan();
  auto& o = plan.orders.back();
  o.gave_way = true;
  o.chosen = false;
  o.worst_use = 7.77, o.worst_slip = 0.0777;  // stand-ins that must not be read as measured
  std::string text, otherwise;
  for (const auto& page : sheet_pages(plan)) text += page;
  for (const auto& page : sheet_pages(sample_plan())) otherwise += page;
  CHECK(has(text, "gave"));  // its column is narrow: the words break
  CHECK_FALSE(has(otherwise, "gave"));
  CHECK_FALSE(has(text, "7.77"));
  CHECK_FALSE(has(text, "3.06"));  // the slip in inches
}

TEST_CASE("a limit at which the frame gave way is marked as over, whatever stands in for its use") {
  Plan plan = sample_plan();
  auto& l = plan.limits.front();
  l.limit = Limit::buckling, l.allowed = 1, l.value = 1;
  l.use = 1, l.use_plus_minus = 0, l.gave_way = true, l.stage = 0;
  std::string text;
  for (const auto& page : sheet_pages(plan)) text += page;
  CHECK(has(text, "OVER: buckling"));
}

TEST_CASE("the sheet asks for readings before it goes on, and what only they open says so") {
  SampleWish wish;
  wish.windows = true;
  const Plan plan = sample_plan(wish);
  for (Paper paper : {Paper::letter, Paper::a4}) {
    const auto all = sheet_pages(plan, paper);
    const auto page_with = [&](const std::string& words) {
      return std::count_if(all.begin(), all.end(), [&](const std::string& p) { return has(p, words); });
    };
    CHECK(page_with("After 250 °F: going on to 300 °F?") == 1);
    CHECK(page_with("After 300 °F: going on to 350 °F?") == 1);
    CHECK(page_with("ONLY IF after 300 °F") >= 1);
    CHECK(has(all[0], "A hotter stage may follow by what you read: 350 °F"));
    const auto go_on =
        std::find_if(all.begin(), all.end(), [](const std::string& p) { return has(p, "going on to 350"); });
    REQUIRE(go_on != all.end());
    // 2.8 to 4.9 mm, each end rounded inward.
    CHECK(has(*go_on, "0.115 to 0.190 in"));
    CHECK(has(*go_on, "2.8 to 4.9 mm"));
    CHECK(has(*go_on, "all inside: go on to 350 °F"));
  }
}

TEST_CASE("a check says what to expect and where to stop, never past the limit and never finer than the ruler") {
  SampleWish wish;
  wish.windows = true;
  Plan plan = sample_plan(wish);
  const auto check = [&](const std::string& words) {
    for (const std::string& c : viz::checks_after_stage(plan, 0))
      if (has(c, words)) return true;
    return false;
  };
  CHECK(check("slip expected 0.04 in (0.9 mm); stop at 0.08 in (2.1 mm)"));
  for (ShapeReading& r : plan.chances.shapes)
    if (r.limit == Limit::slip) r.seldom_more = 1;  // a metre
  CHECK(check("stop at 0.19 in (4.8 mm)"));         // the limit of 5 mm less a quarter of a millimetre
  for (ShapeReading& r : plan.chances.shapes)
    if (r.limit == Limit::slip) r.expected = r.seldom_more = 1e-5;
  CHECK(check("slip expected next to nothing; stop at 0.02 in (0.5 mm)"));
}
