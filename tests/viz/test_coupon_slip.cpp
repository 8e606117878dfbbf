#include "tests/viz/reading.hpp"
#include "viz/sheet/coupon_slip.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::reading;
using Catch::Matchers::Contains;

namespace {

CouponSlip slip(bool results) {
  CouponSlip s;
  s.title = "Left aileron (invented)";
  s.sizes = {0.4, 0.1, 0.038, 0.089};
  s.units = viz::CouponUnits::metric;
  s.to_fill_in = {"250 °F", "300 °F", "350 °F"};
  s.steps = viz::coupon_sheet_steps(s.units);
  s.notes = {viz::usual_sag_words(0.0007, 0.0044, s.units)};
  if (results)
    s.stages = {{"300 °F", "3.4 lb/in (602 N/m)", "2.8 to 4.2 lb/in (495 to 733 N/m)", "7.0 % warp, 6.0 % fill"}};
  return s;
}

std::string all_text(const std::vector<std::string>& pages) {
  std::string out;
  for (const std::string& page : pages)
    for (const char c : page)
      if (c != ' ' && c != '\n' && c != '\f') out += c;
      else if (!out.empty() && out.back() != ' ') out += ' ';
  return out;
}

}  // namespace

TEST_CASE("the sheet of a coupon draws the square to scale and says every step") {
  for (const Paper paper : {Paper::letter, Paper::a4}) {
    Folder folder;
    write_coupon_slip(slip(false), paper, "0.0.0", folder / "coupon.pdf");
    const auto all = pages(folder / "coupon.pdf");
    CHECK(all.size() == 1);
    for (const char* part : {"scale 1 : ", "400 mm", "38 × 89 mm", "FLAT", "twice", "depth gauge", "0.5 kg",
                             "no weight", "250 °F", "airworthy"})
      CHECK_THAT(all_text(all), Contains(part));
  }
}

TEST_CASE("with readings the sheet of a coupon says what came out, on one page") {
  for (const Paper paper : {Paper::letter, Paper::a4}) {
    Folder folder;
    write_coupon_slip(slip(true), paper, "0.0.0", folder / "coupon.pdf");
    const auto all = pages(folder / "coupon.pdf");
    CHECK(all.size() == 1);
    for (const char* part : {"300 °F", "602", "495 to 733", "warp", "airworthy"})
      CHECK_THAT(all_text(all), Contains(part));
  }
}
