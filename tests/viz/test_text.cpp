// Words that do not fit, and bytes that are no words.
#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/kit/text.hpp"
#include "viz/pictures/survey_picture.hpp"
#include "viz/sheet/sheet.hpp"

#include <catch2/catch.hpp>

#include <chrono>

using namespace evenpull;
using namespace evenpull::reading;
using namespace evenpull::viz;

namespace {

void on_paper(const std::function<void(cairo_t*)>& work) { draw_nowhere({800, 600}, work); }

}  // namespace

TEST_CASE("bytes that are no letters become a sign or a space, letters of any script stay", "[text]") {
  for (const std::string& same : {std::string("plain"), std::string("two\nlines"), std::string("Flügel ±°"),
                                  std::string("גלגל"), std::string("翼 ✈ 👍🏽")})
    CHECK(readable(same) == same);
  CHECK(readable("a\tb\x01"
                 "c\x7f"
                 "d") == "a b c d");
  CHECK(readable(std::string("a\0b", 3)) == "a b");
  CHECK(readable("caf\xe9!") == "caf\uFFFD!");
  CHECK(readable("\xff\xfe") == "\uFFFD\uFFFD");
  CHECK(readable("cut \xe2\x82") == "cut \uFFFD\uFFFD");
}

TEST_CASE("what is cut to a width fits it, is as long as it can be, and is cut between letters", "[text]") {
  on_paper([](cairo_t* cr) {
    const std::string once = "Ä long title ✈ ";
    std::string text;
    while (text.size() < 5000) text += once;
    for (double room : {20.0, 90.0, 300.0, 700.0}) {
      const std::string cut = cut_to_width(cr, text, {}, room);
      INFO(cut);
      CHECK(measure_text(cr, cut).width <= room);
      REQUIRE(cut.size() >= 3);
      CHECK(cut.substr(cut.size() - 3) == "…");
      CHECK(readable(cut) == cut);
      const std::string kept = cut.substr(0, cut.size() - 3);
      CHECK(text.rfind(kept, 0) == 0);
      CHECK(measure_text(cr, text.substr(0, kept.size() + 4) + "…").width > room);
    }
    CHECK(cut_to_width(cr, "short", {}, 300) == "short");
    CHECK(cut_to_width(cr, "two\nlines", {}, 300) == "two lines");
  });
}

TEST_CASE("what is split by height comes back whole, each piece low enough", "[text]") {
  on_paper([](cairo_t* cr) {
    std::string text;
    for (int i = 0; i < 500; ++i) text += (i ? " word" : "word") + std::to_string(i);
    const TextStyle style{.width = 200};
    std::string whole;
    for (const auto& piece : split_by_height(cr, text, style, 100)) {
      CHECK(measure_text(cr, piece, style).height <= 100);
      whole += (whole.empty() ? "" : " ") + piece;
    }
    CHECK(whole == text);
    CHECK(split_by_height(cr, "short", style, 100) == std::vector<std::string>{"short"});
    CHECK(split_by_height(cr, "", style, 100) == std::vector<std::string>{""});
    CHECK(split_by_height(cr, "higher than the room, and of more than one line of this width", style, 1).size() > 1);
  });
}

TEST_CASE("titles of any length, script and content give a sheet and a survey picture in a moment", "[text]") {
  std::string endless, controls = "Tail";
  while (endless.size() < 10000) endless += "Aileron left ";
  for (char c = 1; c < 32; ++c) controls += c;
  for (const std::string& title :
       {endless, std::string(10000, 'W'), controls + "\n\nplane", std::string("הגה ימין"),
        std::string("👨‍👩‍👧 ✈"), std::string("caf\xe9"), std::string("</script><b>"), std::string()}) {
    INFO(title.substr(0, 60));
    Folder folder;
    Plan plan = sample_plan();
    plan.the_case.title = title;
    const auto begin = std::chrono::steady_clock::now();
    write_sheet(plan, Paper::letter, "0.0.0", folder / "plan.pdf");
    write_survey_picture(plan.the_case, plan.panel, folder / "survey.pdf");
    // Generous: it took half a minute when the words were measured once a letter.
    CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds(15));
    const auto all = pages(folder / "plan.pdf");
    REQUIRE(all.size() >= 3);
    for (const auto& page : all) CHECK(page.find("INVENTED DEMO") != std::string::npos);
    CHECK(all_words(folder / "survey.pdf").find("INVENTED DEMO") != std::string::npos);
  }
}
