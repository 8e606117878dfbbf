// The command that says how to make a coupon and what its readings mean.
#include "app/command/commands.hpp"
#include "app/command/exit_codes.hpp"
#include "sequencer/numbers/sobol.hpp"
#include "sequencer/sure/scenario.hpp"
#include "tests/app/case_text.hpp"

#include <cmath>
#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

struct CouponSaid {
  int code = 0;
  std::string out, err;
};

CouponSaid say_of(const Request& r) {
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

Request coupon_in(const TemporaryFolder& folder, std::vector<std::string> readings,
                  std::vector<std::string> marks = {}) {
  Request r;
  r.job = Request::Job::coupon;
  r.coupon.readings = std::move(readings);
  r.coupon.marks = std::move(marks);
  r.coupon.inside = "400 mm", r.coupon.disc = "100 mm", r.coupon.boards = "38 mm x 89 mm";
  r.folder = (folder.path / "coupon").string();
  return r;
}

const std::vector<std::string> three = {"250 degF: 0.5 kg = 2.63 mm, 1 kg = 4.9 mm",
                                        "300 degF: 0.5 kg = 1.88 mm, 1 kg = 3.66 mm",
                                        "350 degF: 0.5 kg = 1.34 mm, 1 kg = 2.64 mm"};

}  // namespace

TEST_CASE("without readings the sheet says how to do it", "[coupon]") {
  const TemporaryFolder folder;
  Request r = coupon_in(folder, {});
  r.coupon.inside = r.coupon.disc = r.coupon.boards = "";
  const CouponSaid s = say_of(r);
  CHECK(s.err == "");
  CHECK(s.code == 0);
  CHECK_THAT(s.out,
             Contains("16 in (406.4 mm) inside") && Contains("FLAT") && Contains("two ends") && Contains("1 lb"));
  CHECK_THAT(s.out, !Contains("[[cloth.curve]]"));
  CHECK(std::filesystem::file_size(folder.path / "coupon" / "coupon.pdf") > 1000);
  r.paper = Paper::a4;
  CHECK_THAT(say_of(r).out, Contains("400 mm (15.75 in) inside") && Contains("0.5 kg"));
}

TEST_CASE("readings of all stages give a curve and 0.13 of doubt", "[coupon]") {
  const TemporaryFolder folder;
  const CouponSaid s = say_of(coupon_in(folder, three, {"300 degF: warp 500 mm = 465 mm, fill 500 mm = 470 mm"}));
  CHECK(s.err == "");
  CHECK(s.code == 0);
  CHECK_THAT(s.out, Contains("[[cloth.curve]]") && Contains("# measured") && Contains("13 % (one sigma)"));
  CHECK_THAT(s.out, Contains("warp = \"7.00 %\", fill = \"6.00 %\""));
  CHECK_THAT(read_all(folder.path / "coupon" / "coupon.json"),
             Contains("\"all_stages_measured\": true") && Contains("lines_for_the_case"));
}

TEST_CASE("a case takes the curve, reads, and its scenarios spread as was said", "[coupon]") {
  const TemporaryFolder folder;
  for (const bool all : {true, false}) {
    const std::string file =
        folder.write("case.toml", std::string(template_text()) + "\n[spread]\npull = \"40 %\"  # a guess\n");
    Request r = coupon_in(folder, all ? three : std::vector<std::string>{three[1]});
    r.coupon.into = file;
    const CouponSaid s = say_of(r);
    CHECK(s.err == "");
    CHECK_THAT(s.out, Contains("Put into") && Contains("before-coupon"));
    const Case c = read_case(file);
    REQUIRE(c.cloth.curve.size() == 4);
    // What the scenarios draw for one yarn at each stage: those measured are no wider because another was carried.
    std::vector<double> squares(4, 0.0);
    const int count = 2048;
    for (const auto& point : sobol_points(count, numbers_of(c))) {
      std::vector<double> sigmas;
      for (const double u : point) sigmas.push_back(normal_quantile(u));
      const auto drawn = drawn_case(c, sigmas).cloth.curve;
      for (std::size_t i = 1; i < 4; ++i)
        squares[i] += std::pow(std::log(drawn[i].pull.warp / c.cloth.curve[i].pull.warp), 2) / count;
    }
    for (std::size_t i = 1; i < 4; ++i) {
      const double said = all || i == 2 ? 0.13 : 0.19;
      CHECK(c.spreads.pull_at(c.cloth.curve[i]) == Approx(said).margin(0.004));
      CHECK(c.spreads.pull_at(c.cloth.curve[i]) >= std::hypot(0.10, 0.08));
      CHECK(std::sqrt(squares[i]) == Approx(c.spreads.pull_at(c.cloth.curve[i])).epsilon(0.05));
    }
    CHECK_THAT(read_all(file), !Contains("a guess") && Contains("# --- How it is laid on."));
  }
  CHECK(std::filesystem::exists(folder.path / "case.before-coupon-2.toml"));
}

TEST_CASE("lines that are printed read as a case when they are pasted", "[coupon]") {
  const TemporaryFolder folder;
  const CouponSaid s = say_of(coupon_in(folder, {three[1]}));
  const auto from = s.out.find("[[cloth.curve]]\n"), to = s.out.find("\n  Sheet to print");
  REQUIRE(from != std::string::npos);
  const Case c = case_of(base() + "\n" + s.out.substr(from, to - from));
  CHECK(c.cloth.curve.size() == 4);
  CHECK(c.spreads.pull() == Approx(0.13).margin(0.004));
  CHECK(c.spreads.pull_at(c.cloth.curve[3]) == Approx(0.19).margin(0.004));
}

TEST_CASE("a case that would not read, a link to it and the case itself stay as they were", "[coupon]") {
  const TemporaryFolder folder;
  // So soft that this pull would stretch the cloth by more than it shrinks.
  const std::string soft = with(base(), "class = \"medium\"", "class = \"medium\"\nstiffness = \"9 kN/m\"");
  const std::string file = folder.write("case.toml", soft);
  Request r = coupon_in(folder, {"350 degF: 0.5 kg = 0.9 mm"});
  r.coupon.into = file;
  const CouponSaid s = say_of(r);
  CHECK(s.code == static_cast<int>(ExitCode::bad_case));
  CHECK_THAT(s.err, Contains("nothing was changed"));
  CHECK(read_all(file) == soft);
  CHECK_FALSE(std::filesystem::exists(folder.path / "coupon"));
}

TEST_CASE("bad readings of a coupon are told with what would be right", "[coupon]") {
  const TemporaryFolder folder;
  const auto refused = [&](const std::vector<std::string>& readings, const char* part) {
    const CouponSaid s = say_of(coupon_in(folder, readings));
    CHECK(s.code == static_cast<int>(ExitCode::bad_case));
    CHECK_THAT(s.err, Contains("--reading") && Contains(part));
    CHECK(s.err.find('\n') + 1 == s.err.size());
    CHECK_FALSE(std::filesystem::exists(folder.path / "coupon"));
  };
  refused({"300 degF 0.5 kg = 1.84 mm"}, "is not understood");
  refused({"300 degF: 0.5 kg 1.84 mm"}, "is not understood");
  refused({"300 degF: "}, "is not understood");
  refused({"300 degF: 0.5 kg = 1.84"}, "has no unit");
  refused({"300 degF: 0.5 kg = 1,84 mm"}, "decimals stand behind a point");
  refused({"300: 0.5 kg = 1.84 mm"}, "has no unit");
  refused({"300 degF: 1.84 mm = 0.5 kg"}, "expected a");
  refused({"warm: 0.5 kg = 1.84 mm"}, "expected a temperature");
  refused({"150 degF: 0.5 kg = 1.84 mm"}, "makes no sense here");
  refused({"450 degF: 0.5 kg = 1.84 mm"}, "loses its pull");
  refused({"300 degF: 50 kg = 1.84 mm"}, "makes no sense here");
  refused({"300 degF: 0.5 kg = 1.84 m"}, "makes no sense here");
  refused({"300 degF: 0.5 kg = -1 mm"}, "");
  refused({"300 degF: 0.5 kg = 0.2 mm"}, "Ironed cloth pulls");
  refused({"300 degF: 0.5 kg = 18.4 mm"}, "Ironed cloth pulls");
  refused({"300 degF: 0.5 kg = 1.84 mm, 1 kg = 2.4 mm"}, "contradict each other");
  refused({"300 degF: 0.5 kg = 3 mm, 1 kg = 2 mm"}, "There is no result");
  refused({three[1], "300 degF: 1 kg = 3.7 mm"}, "twice");
  refused({"300 degF: 1 kg = 3 mm, 1 kg = 3 mm, 1 kg = 3 mm, 1 kg = 3 mm, 1 kg = 3 mm, 1 kg = 3 mm, 1 kg = 3 mm"},
          "more than 6");
  refused(std::vector<std::string>(9, three[0]), "given 9 times");
  refused({"300 degF\x1b[2J: 1 kg = 3 mm"}, "\\x1b[2J");
}

TEST_CASE("bad marks and sizes of a coupon are told with what would be right", "[coupon]") {
  const TemporaryFolder folder;
  const auto refused = [&](const Request& r, const char* part) {
    const CouponSaid s = say_of(r);
    CHECK(s.code == static_cast<int>(ExitCode::bad_case));
    CHECK_THAT(s.err, Contains(part));
  };
  const auto marks = [&](std::vector<std::string> m) { return coupon_in(folder, {}, std::move(m)); };
  refused(marks({"300 degF: warp 500 mm = 465 mm"}), "says nothing of the fill");
  refused(marks({"300 degF: weft 500 mm = 465 mm, fill 500 mm = 470 mm"}), "neither warp nor fill");
  refused(marks({"300 degF: warp 465 mm = 500 mm, fill 500 mm = 470 mm"}), "the length before stands first");
  refused(marks({"300 degF: warp 500 mm = 300 mm, fill 500 mm = 470 mm"}), "free shrink of 40.0 %");
  refused(marks({"300 degF: warp 500 mm = 465 mm, warp 500 mm = 470 mm"}), "twice");
  refused(marks({"250 degF: warp 500 mm = 465 mm, fill 500 mm = 470 mm",
                 "300 degF: warp 500 mm = 470 mm, fill 500 mm = 470 mm"}),
          "does not grow back");
  Request r = coupon_in(folder, three);
  r.coupon.disc = "10 mm";
  refused(r, "--disc");
  r.coupon.disc = "20 mm";
  refused(r, "too small for the formula");
  r.coupon.disc = "200 mm";
  refused(r, "too large for the formula");
  r = coupon_in(folder, three);
  r.coupon.boards = "10 mm x 20 mm";
  refused(r, "would give way");
  r.coupon.boards = "89 mm";
  refused(r, "how high they lie");
  r = coupon_in(folder, three);
  r.coupon.inside = "4 m";
  refused(r, "--inside");
  r = coupon_in(folder, {});
  r.coupon.into = "case.toml";
  refused(r, "nothing to put in");
  r = coupon_in(folder, three);
  r.coupon.into = r.case_file = "case.toml";
  refused(r, "names the case already");
}

TEST_CASE("boards that are thinner than they should cost what they cost, and that is said", "[coupon]") {
  const TemporaryFolder folder;
  Request r = coupon_in(folder, {three[1]});
  const CouponSaid stiff = say_of(r);
  r.coupon.boards = "25 mm x 60 mm";
  const CouponSaid thin = say_of(r);
  CHECK(thin.code == 0);
  CHECK_THAT(thin.out, Contains("more than it should be"));
  CHECK_THAT(stiff.out, !Contains("more than it should be"));
  CHECK_THAT(stiff.out, !Contains("since not said"));
  r.coupon.readings.clear();
  CHECK_THAT(say_of(r).out, Contains("will give way"));
  r.coupon.disc = "";
  r.coupon.readings = {three[1]};
  CHECK_THAT(say_of(r).out, Contains("Say --disc where yours differ"));
}

TEST_CASE("a pull that falls is a warning, and nothing is put into a case", "[coupon]") {
  const TemporaryFolder folder;
  const std::vector<std::string> falling = {"300 degF: 0.5 kg = 1.5 mm, 1 kg = 3.0 mm",
                                            "350 degF: 0.5 kg = 2.6 mm, 1 kg = 5.0 mm"};
  const CouponSaid s = say_of(coupon_in(folder, falling));
  CHECK(s.code == 0);
  CHECK_THAT(s.out, Contains("WARNING: the pull falls"));
  Request r = coupon_in(folder, falling);
  r.coupon.into = folder.write("case.toml", base());
  const CouponSaid into = say_of(r);
  CHECK(into.code == static_cast<int>(ExitCode::bad_case));
  CHECK_THAT(into.err, Contains("nothing was put in"));
  CHECK(read_all(r.coupon.into) == base());
}

TEST_CASE("a reading in inches and pounds is the same as in metric", "[coupon]") {
  const TemporaryFolder folder;
  const CouponSaid metric = say_of(coupon_in(folder, {"300 degF: 453.59237 g = 1.778 mm"}));
  const CouponSaid inch = say_of(coupon_in(folder, {"300 degF: 1 lb = 0.070 in"}));
  CHECK(inch.err == "");
  CHECK(metric.out == inch.out);
}
