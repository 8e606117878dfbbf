#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/sheet/iron_card.hpp"
#include "viz/sheet/sheet.hpp"
#include "viz/words/heat_words.hpp"
#include "viz/words/sure_words.hpp"
#include "viz/words/wording.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::reading;
using Catch::Matchers::Contains;

namespace {

IronCard card() {
  IronCard c;
  c.title = "Iron of the left bench (invented)";
  c.stages = {{394.26, "2.8", "236 to 264 °F", "3.4 s, nose 18 s", false},
              {449.82, "4.8", "335 to 365 °F", "3.4 s, nose 16 s", true}};
  c.warnings = {"350 °F: at moments the sole may stand above 400 °F. Let it settle first."};
  c.notes = {"Wait for two clicks of the thermostat after each change. Read again before each job."};
  for (int i = 0; i <= 10; ++i) c.curve.push_back({2 + 0.3 * i, 373 + 7.7 * i, 4 + 0.3 * std::abs(i - 5)});
  c.readings = {{2, 372}, {3, 401}, {5, 450}};
  return c;
}

// With every run of blanks and line ends as one blank: what is asked is what is said, not where lines break.
std::string plain(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (c != ' ' && c != '\n' && c != '\f') out += c;
    else if (!out.empty() && out.back() != ' ') out += ' ';
  return out;
}

std::string all_of(const std::vector<std::string>& sentences) {
  std::string text;
  for (const auto& s : sentences) text += s + "\n";
  return text;
}

}  // namespace

TEST_CASE("the card of an iron check is one page that says mark, band, hold and warnings") {
  for (Paper paper : {Paper::letter, Paper::a4}) {
    Folder folder;
    write_iron_card(card(), paper, "0.0.0", folder / "card.pdf");
    const auto all = pages(folder / "card.pdf");
    REQUIRE(all.size() == 1);
    for (const char* part :
         {"Iron check", "250 °F", "2.8", "236 to 264", "nose 16 s", "400 °F", "two clicks", "airworthy"})
      CHECK_THAT(plain(all[0]), Contains(part));
  }
}

TEST_CASE("a card with more than a page holds goes on on the next, and nothing is lost") {
  IronCard c = card();
  c.title = std::string(3000, 'x');
  for (int i = 0; i < 40; ++i) {
    c.stages.push_back({394.26 + i, "m" + std::to_string(i), "band", "3.4 s", false});
    c.warnings.push_back("Warning number " + std::to_string(i) +
                         ", which is long enough to take more than one line of the card.");
    c.notes.push_back("Note number " + std::to_string(i) + ".");
  }
  c.notes.push_back("Long:");
  for (int i = 0; i < 2000; ++i) c.notes.back() += " n" + std::to_string(i);
  Folder folder;
  write_iron_card(c, Paper::letter, "0.0.0", folder / "card.pdf");
  const auto all = pages(folder / "card.pdf");
  CHECK(all.size() > 2);
  for (const auto& page : all) CHECK_THAT(plain(page), Contains("Iron check") && Contains("airworthy"));
  const auto text = all_words(folder / "card.pdf");
  for (int i = 0; i < 40; ++i) {
    CHECK_THAT(text, Contains(" m" + std::to_string(i) + " "));
    CHECK_THAT(text, Contains("Warning number " + std::to_string(i) + ","));
    CHECK_THAT(text, Contains("Note number " + std::to_string(i) + "."));
  }
  CHECK_THAT(text, Contains(" n0 ") && Contains(" n1000 ") && Contains(" n1999"));
  for (int page = 1; page <= static_cast<int>(all.size()); ++page)
    for (const Word& w : words_of_page(folder / "card.pdf", page)) {
      INFO(w.text);
      CHECK(w.bottom <= 612);
    }
}

TEST_CASE("a card with nothing on it, or a curve over one mark, is a card") {
  Folder folder;
  IronCard c;
  write_iron_card(c, Paper::a4, "0.0.0", folder / "empty.pdf");
  CHECK(pages(folder / "empty.pdf").size() == 1);
  c.curve = {{3, 400, 5}};
  c.readings = {{3, 400}};
  write_iron_card(c, Paper::a4, "0.0.0", folder / "one.pdf");
  CHECK(pages(folder / "one.pdf").size() == 1);
}

TEST_CASE("two cards of the same check give the same bytes") {
  Folder folder;
  write_iron_card(card(), Paper::a4, "0.0.0", folder / "one.pdf");
  write_iron_card(card(), Paper::a4, "0.0.0", folder / "two.pdf");
  CHECK(bytes(folder / "one.pdf") == bytes(folder / "two.pdf"));
}

TEST_CASE("the sheet says dwell, passes, chances and zones at risk") {
  Folder folder;
  const Plan plan = sample_plan();
  write_sheet(plan, Paper::letter, "0.0.0", folder / "plan.pdf");
  const auto all = pages(folder / "plan.pdf");
  CHECK_THAT(plain(all.front()), Contains("bend something for good"));
  const auto text = plain(all_of(all));
  for (const char* part : {"on each spot", "The iron: dwell and passes", "How sure: chances"})
    CHECK_THAT(text, Contains(part));
  CHECK_THAT(all_of(viz::heat_sentences(plan)),
             Contains("of the area done after 1, 2, 3 full passes") && Contains("light pass"));
  CHECK_THAT(all_of(viz::sure_sentences(plan)), Contains("runs drawn where the fit puts the edge") &&
                                                    Contains("pull of the cloth (± 25 %): 71 % (62 % to 79 %)") &&
                                                    Contains("20 % off the mean: T1") && Contains("95 %"));
}

TEST_CASE("passes worked alike are said together, and each pass is said") {
  const Plan plan = sample_plan();
  const auto words = viz::dwell_words(plan, 0, {1, 2, 3});
  CHECK_THAT(words, Contains("Pass 1 and 2: ") && Contains("Pass 3: stay"));
}

TEST_CASE("without a study the sheet says so instead of a chance") {
  Plan plan = sample_plan();
  plan.chances = {};
  CHECK(viz::sure_words(plan).empty());
  CHECK_THAT(viz::sure_sentences(plan).front(), Contains("Not studied"));
}

TEST_CASE("what the swing adds over several passes is said where the job ends, and only there") {
  Plan plan = sample_plan();
  plan.ceiling = 1;
  REQUIRE(std::lround(viz::fahrenheit(plan.the_case.stages[1].temperature)) == 300);
  plan.the_case.iron.swing = 25 / 1.8;
  // By what is worked: three full passes on one zone are enough to be said.
  std::erase_if(plan.steps, [](const Step& step) { return step.stage == 1; });
  for (const int pass : {1, 2, 3}) {
    Step step;
    step.stage = 1, step.pass = pass;
    plan.steps.push_back(step);
  }
  const auto text = all_of(viz::heat_sentences(plan));
  CHECK_THAT(
      text,
      Contains("300 °F: 3 full passes with a swing of ± 25 °F (± 14 °C) leave the cloth as 315 °F (157 °C) would"));
  CHECK_THAT(text, !Contains("250 °F: 1 full pass"));
  plan.the_case.iron.swing = 1;
  CHECK_THAT(all_of(viz::heat_sentences(plan)), !Contains("leave the cloth as"));
}

TEST_CASE("a light pass says how it is had: moving, or at a lower setting") {
  Plan plan = sample_plan();
  REQUIRE(!plan.heat.empty());
  PassHeat& pass = plan.heat[0].passes.at(0);
  pass.asked = 0.25;
  pass.way = PassWay::touch;
  CHECK(viz::pass_words(plan, 0, 1, 0.25) == "light, keep moving");
  pass.way = PassWay::setting;
  pass.sole_temperature = (201 + 459.67) / 1.8;
  CHECK(viz::pass_words(plan, 0, 1, 0.25) == "light, at 201 °F");
  CHECK(viz::pass_words(plan, 0, 1, 1) == "full");       // worked with another dose than the pass has
  CHECK(viz::pass_words(plan, 0, 99, 0.25) == "light");  // a pass that the plan does not have
}
