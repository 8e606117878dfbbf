#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/kit/page_parts.hpp"
#include "viz/page/page.hpp"
#include "viz/page/page_data.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <filesystem>

using namespace evenpull;
using namespace evenpull::reading;

namespace {

std::string page_of(const Plan& plan) {
  Folder folder;
  write_page(plan, "1.2.3", folder / "plan.html");
  CHECK_FALSE(std::filesystem::exists(folder / "plan.html.part"));
  return bytes(folder / "plan.html");
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

std::string key_in(const std::string& page) {
  const auto at = page.find("data-key=\"");
  return page.substr(at, page.find('"', at + 10) - at);
}

}  // namespace

TEST_CASE("every step up to the hottest safe stage can be ticked off once, and no hotter one") {
  const Plan plan = sample_plan();
  REQUIRE(plan.ceiling);
  REQUIRE(*plan.ceiling + 1 < static_cast<int>(plan.the_case.stages.size()));
  const std::string page = page_of(plan);
  std::size_t safe = 0;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    const bool is_safe = plan.steps[i].stage <= *plan.ceiling;
    safe += is_safe;
    CHECK(count(page, "data-tick=\"step " + std::to_string(i) + "\"") == (is_safe ? 1 : 0));
  }
  CHECK(count(page, "data-tick=\"step ") == safe);
}

TEST_CASE("without a safe stage there is nothing to tick, and the page says so") {
  SampleWish wish;
  wish.no_ceiling = true;
  const std::string page = page_of(sample_plan(wish));
  CHECK(count(page, "data-tick=") == 0);
  CHECK(page.find("Do not iron this panel") != std::string::npos);
}

TEST_CASE("the page says loose cloth before the answer") {
  SampleWish none;
  none.no_ceiling = true;
  Plan plan = sample_plan(none);
  plan.advice.never_tight = true;
  plan.advice.loose = LooseCloth{0, {0}};
  Folder folder;
  write_page(plan, "0", folder / "plan.html");
  const std::string page = bytes(folder / "plan.html");
  const auto headline = page.find("<p class=\"big loose\">NOT TIGHT</p>");
  REQUIRE(headline != std::string::npos);
  CHECK(headline < page.find("Hottest safe stage</h2>"));
  CHECK(page.find("T1 with next to no pull") < page.find("Hottest safe stage</h2>"));
}

TEST_CASE("the page fetches nothing") {
  const std::string page = page_of(sample_plan());
  // The one address is the name of SVG's vocabulary, which nobody opens.
  CHECK(count(page, "http") == count(page, "http://www.w3.org/2000/svg"));
  for (const char* word : {"<link rel=\"stylesheet", "src=", "@import", "fetch(", "XMLHttpRequest", "url("})
    CHECK(page.find(word) == std::string::npos);
}

TEST_CASE("two runs give the same page, another order another key for its ticks") {
  Plan plan = sample_plan();
  const std::string first = page_of(plan);
  CHECK(first == page_of(plan));
  std::swap(plan.steps[0].zone, plan.steps[1].zone);
  CHECK(key_in(page_of(plan)) != key_in(first));
}

TEST_CASE("a title with signs of the page's own language does no harm") {
  Plan plan = sample_plan();
  plan.the_case.title = "</script><b>\"A & B\"";
  const std::string page = page_of(plan);
  CHECK(page.find("</script><b>") == std::string::npos);
  CHECK(page.find("&lt;/script&gt;&lt;b&gt;&quot;A &amp; B&quot;") != std::string::npos);
  const auto data = nlohmann::json::parse(viz::page_data(plan).about);
  CHECK(data["title"] == plan.the_case.title);
}

TEST_CASE("a page's data agree with the plan") {
  const Plan plan = sample_plan();
  const auto data = nlohmann::json::parse(viz::page_data(plan, R"({"extra": 7})").about);
  CHECK(data["labels"].size() == plan.snapshots.size());
  CHECK(data["steps"].size() == plan.steps.size());
  CHECK(data["zones"].size() == plan.panel.zones.size());
  CHECK(data["parts"]["moved"]["count"] == 3 * plan.panel.nodes.size());
  CHECK(data["parts"]["moved"]["frames"] == plan.snapshots.size());
  CHECK(data["more"]["extra"] == 7);
  const auto& difference = data["difference_scale"];
  CHECK(difference["bounds"].size() == difference["colours"].size() + 1);
  CHECK(difference["colours"].size() % 2 == 1);  // one band has zero in its middle
}

TEST_CASE("a page with a mark that has no value, or a value that has no mark, is a mistake of ours") {
  CHECK(viz::filled("a {{b}} c {{b}}", {{"b", "x"}}) == "a x c x");
  CHECK_THROWS_AS(viz::filled("a {{b}}", {}), std::logic_error);
  CHECK_THROWS_AS(viz::filled("a", {{"b", "x"}}), std::logic_error);
}

TEST_CASE("a page that cannot be written is named") {
  CHECK_THROWS_WITH(write_page(sample_plan(), "1", "/nowhere/at/all/plan.html"),
                    Catch::Contains("/nowhere/at/all/plan.html"));
}

TEST_CASE("where readings decide, each bay has a field, and the steps they open stand under their condition") {
  SampleWish wish;
  wish.windows = true;
  const Plan plan = sample_plan(wish);
  const std::string page = page_of(plan);
  CHECK(count(page, "<fieldset class=\"readings\"") == 2);
  CHECK(count(page, "data-reading=") == plan.windows[0].bays.size() + plan.windows[1].bays.size());
  CHECK(count(page, "ONLY IF after 300 °F every bay listed read inside its window.") == 1);
  std::size_t opened = 0, in_page = 0;
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    if (plan.steps[i].stage == *plan.ceiling + 1)
      ++opened, in_page += count(page, "data-tick=\"step " + std::to_string(i) + "\"");
  CHECK(opened > 0);
  CHECK(in_page == opened);
  CHECK(page.find("\"steps_by_reading\":" + std::to_string(opened)) != std::string::npos);
  CHECK(page.find("A hotter stage may follow by what you read: 350 °F only if after 300 °F") != std::string::npos);
}

// For the browser: the page of that plan, where the environment says.
TEST_CASE("the page of a plan with windows is written for the browser", "[.page_of_windows]") {
  SampleWish wish;
  wish.windows = true;
  const char* to = std::getenv("EVENPULL_PAGE_OF_WINDOWS");
  REQUIRE(to);
  write_page(sample_plan(wish), "0.0.0", to);
}
