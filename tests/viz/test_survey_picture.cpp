#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/pictures/survey_picture.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::reading;

TEST_CASE("the survey picture names members, ribs, supports and dimensions in both units") {
  Folder folder;
  const Case c = sample_case();
  write_survey_picture(c, sample_panel(c), folder / "survey.pdf");
  const auto all = pages(folder / "survey.pdf");
  REQUIRE(all.size() == 1);
  for (const char* part : {"leading edge", "main spar", "trailing edge", "rib 1", "rib 7", "70.87 in", "1800 mm",
                           "hinge", "rest on the", "while ironed", "in use", "420 mm (16.54 in)", "thick", "INVENTED"})
    CHECK(all[0].find(part) != std::string::npos);
}

TEST_CASE("the survey picture is written as PNG too, tip bow or not") {
  Folder folder;
  SampleWish bow;
  bow.tip_bow = true;
  for (const auto& wish : {SampleWish{}, bow}) {
    const Case c = sample_case(wish);
    write_survey_picture(c, sample_panel(c, wish), folder / "survey.png");
    const Image picture = image(folder / "survey.png");
    CHECK(picture.colours > 10);
    CHECK(picture.white_share < 0.97);
  }
}
