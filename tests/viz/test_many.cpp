// Many of everything: supports, ribs, members, braces, zones, sentences. Nothing grows beyond what can be drawn, nothing is
// lost without a word.
#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/pictures/pictures.hpp"
#include "viz/pictures/survey_picture.hpp"
#include "viz/sheet/sheet.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using namespace evenpull;
using namespace evenpull::reading;

namespace {

// Pixels: Cairo draws no more (32,767), and nobody looks at a quarter of that.
constexpr int tallest = 8000;

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// Survey of the case as PNG and PDF; gives the words.
std::string surveyed(const Case& c, const Panel& panel) {
  Folder folder;
  write_survey_picture(c, panel, folder / "survey.png");
  write_survey_picture(c, panel, folder / "survey.pdf");
  CHECK(image(folder / "survey.png").height < tallest);
  return all_words(folder / "survey.pdf");
}

/// A sentence of so many words that tells itself from others.
std::string sentence(const std::string& name, int words) {
  std::string text = name;
  for (int i = 0; i < words; ++i) text += " w" + std::to_string(i);
  return text + " end" + name + ".";
}

// A note of many words, each a number of its own.
constexpr int first_alpha = 100000, first_gamma = 200000;
Note long_note(int first, int words) {
  RunId run{RunId::Kind::passes};
  for (int i = 0; i < words; ++i) run.doses.push_back(first + i);
  return note::LeftOut{{run}};
}

}  // namespace

TEST_CASE("a thousand supports are drawn, some named and the others counted", "[many]") {
  Case c = sample_case();
  const Support one = c.in_use.front();
  for (std::size_t n : {std::size_t{1}, std::size_t{24}, std::size_t{25}, std::size_t{1000}}) {
    c.in_use.assign(n, one);
    for (std::size_t i = 0; i < n; ++i) c.in_use[i].station = 1.8 * static_cast<double>(i) / static_cast<double>(n);
    const auto words = surveyed(c, sample_panel(c));
    INFO(n);
    CHECK(has(words, "U1, in use"));
    CHECK(has(words, "U24, in use") == (n == 24));
    CHECK(has(words, " more in use") == (n > 24));
    if (n == 1000) CHECK(has(words, "and 977 more in use; survey.json lists all 1000"));
  }
  c.in_use.assign(1000, one);  // all at one place
  CHECK(has(surveyed(c, sample_panel(c)), "+996"));
}

TEST_CASE("many ribs, members, braces and doubts give a picture that can be read", "[many]") {
  SampleWish wish;
  wish.bays = 199;
  wish.columns_per_bay = 2;
  Case c = sample_case(wish);
  Panel panel = sample_panel(c, wish);
  const auto spar = c.span_members[1];
  for (int i = 0; i < 60; ++i) {
    c.span_members.insert(c.span_members.begin() + 1, spar);
    c.span_members[1].name = "spar number " + std::to_string(i);
    c.span_members[1].chord_fraction = 0.29;
  }
  FrameMember brace = panel.members.front();
  brace.role = MemberRole::brace;
  for (int i = 0; i < 500; ++i) {
    brace.name = "brace " + std::to_string(i);
    panel.members.push_back(brace);
  }
  c.doubts.assign(100, "Something is unusual.");
  const auto words = surveyed(c, panel);
  CHECK(has(words, "rib 1"));
  CHECK(has(words, "leading edge"));
  CHECK(has(words, " more doubts"));
  CHECK(has(words, " more while ironed") == false);
  // One brace name where all lie on one another.
  std::size_t braces = 0;
  for (std::size_t at = 0; (at = words.find("brace ", at)) != std::string::npos; ++at) ++braces;
  CHECK(braces == 1);
}

TEST_CASE("a name of two thousand letters does not push the rest out of the picture", "[many]") {
  Case c = sample_case();
  for (auto& m : c.span_members) m.name = std::string(2000, 'x');
  c.in_use.assign(30, c.in_use.front());
  const auto words = surveyed(c, sample_panel(c));
  CHECK(has(words, "mm"));
  CHECK(has(words, "U23, in use"));
}

TEST_CASE("the picture of the frame lists the worst members and counts the others", "[many]") {
  Folder folder;
  Plan plan = sample_plan();
  // Written once with all, once with a thousand more.
  const FrameMember one = plan.panel.members.front();
  for (int i = 0; i < 1000; ++i) plan.panel.members.push_back(one);
  write_pictures(plan, folder.path());
  CHECK(image(folder / "frame_use.png").height < tallest);
}

TEST_CASE("every item of every list is on the record pages, however long it is", "[many]") {
  Folder folder;
  for (int words : {3, 200, 1500, 6000}) {
    INFO(words);
    Plan plan = sample_plan();
    plan.notes = {long_note(first_alpha, words), note::GivesWay{0}, long_note(first_gamma, words)};
    plan.the_case.doubts = {sentence("Delta", words)};
    plan.the_case.defaults_used.assign(300, {"some.key", "1", "why"});
    plan.the_case.defaults_used.push_back({"last.key", sentence("Epsilon", words), "why"});
    write_sheet(plan, Paper::letter, "0.0.0", folder / "plan.pdf");
    const auto text = all_words(folder / "plan.pdf");
    for (const int last : {first_alpha + words - 1, first_gamma + words - 1}) CHECK(has(text, std::to_string(last)));
    CHECK(has(text, "nothing beyond that was computed."));
    for (const char* name : {"Delta", "Epsilon"}) {
      INFO(name);
      CHECK(has(text, name));
      CHECK(has(text, std::string("end") + name + "."));
    }
    // The last word once for each of the long sentences.
    const std::string last = " w" + std::to_string(words - 1) + " ";
    std::size_t found = 0;
    for (std::size_t at = 0; (at = text.find(last, at)) != std::string::npos; ++at) ++found;
    CHECK(found == 2);
    CHECK(has(text, "last: key"));
  }
}

TEST_CASE("a row of the record longer than a page goes on on the next", "[many]") {
  Folder folder;
  Plan plan = sample_plan();
  plan.limits.front().where = {Place::Kind::along_member, 0, 0.9};
  plan.panel.members.front().name = sentence("Place", 900);
  constexpr std::size_t mirrors = 300;
  plan.orders.front().order.mirrored.assign(mirrors, Mirror::ends);
  write_sheet(plan, Paper::letter, "0.0.0", folder / "plan.pdf");
  const auto text = all_words(folder / "plan.pdf");
  CHECK(has(text, "endPlace. at"));
  std::size_t found = 0;
  for (std::size_t at = 0; (at = text.find("exchanged)", at)) != std::string::npos; ++at) ++found;
  CHECK(found == mirrors);
}

TEST_CASE("reasons longer than the first page go on on the next, and the cautions stay", "[many]") {
  for (bool no_ceiling : {false, true}) {
    SampleWish wish;
    wish.no_ceiling = no_ceiling;
    for (int words : {100, 400, 3000}) {
      INFO(words);
      Folder folder;
      Plan plan = sample_plan(wish);
      plan.panel.members.front().name = sentence("Because", words);
      plan.advice.stops[0].over->where = {Place::Kind::along_member, 0, 0.9};
      plan.advice.items = {advice::StaysLoose{}, advice::BracingHelps{}};
      write_sheet(plan, Paper::letter, "0.0.0", folder / "plan.pdf");
      const auto text = all_words(folder / "plan.pdf");
      for (const char* part : {"endBecause.", "covering.", "bracing is off."}) {
        INFO(part);
        CHECK(has(text, part));
      }
      // Nothing of the reasons lies on the cautions.
      double top = 0;
      for (const Word& w : words_of_page(folder / "plan.pdf", 1))
        if (w.text == "Before") top = w.top;
      REQUIRE(top > 100);
      for (const Word& w : words_of_page(folder / "plan.pdf", 1)) {
        const bool of_reasons = w.text.size() > 1 && w.text[0] == 'w' &&
                                w.text.find_first_not_of("0123456789", 1) == std::string::npos;
        if (of_reasons) CHECK(w.bottom < top + 2);
      }
    }
  }
}

TEST_CASE("of a panel with two hundred ribs every zone stands in the list, on the paper", "[many]") {
  for (int run : {3, 597}) {
    INFO(run);
    SampleWish wish;
    wish.bays = 199;
    wish.columns_per_bay = 1;
    wish.rows_per_strip = 1;
    wish.zones_per_run = run;
    Plan plan = sample_plan(wish);
    plan.ceiling = 0;
    plan.the_case.stages[0].doses = {1};
    plan.steps.erase(
        std::remove_if(plan.steps.begin(), plan.steps.end(), [](const Step& s) { return s.stage > 0 || s.pass > 1; }),
        plan.steps.end());
    plan.snapshots.resize(2);
    plan.stage_end_snapshot = {1};
    Folder folder;
    write_sheet(plan, Paper::letter, "0.0.0", folder / "plan.pdf");
    const auto text = " " + all_words(folder / "plan.pdf") + " ";
    std::size_t there = 0;
    for (const auto& zone : plan.panel.zones) there += has(text, " " + zone.label + " ");
    CHECK(there == plan.panel.zones.size());
    CHECK(has(text, run > 100 ? "lines of one number are one run" : "each line is one run"));
    const int count = static_cast<int>(pages(folder / "plan.pdf").size());
    for (int page = 1; page <= count; ++page)
      for (const Word& w : words_of_page(folder / "plan.pdf", page)) {
        const bool on_paper = w.left >= 0 && w.right <= 792 && w.top >= 0 && w.bottom <= 612;
        if (!on_paper) FAIL_CHECK(w.text << " on page " << page << " is off the paper");
      }
  }
}
