// A frame that does not stand, members in one place, a solve that is given up: what the commands say.
#include "app/command/commands.hpp"
#include "tests/app/case_text.hpp"

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

struct Said {
  int code = 0;
  std::string error;
};

Said said(Request::Job job, const std::string& text) {
  const TemporaryFolder folder;
  Request r;
  r.job = job;
  r.case_file = folder.write("case.toml", text);
  r.folder = (folder.path / "out").string();
  r.quiet = true;
  r.accuracy = Accuracy::quick;
  std::ostringstream out, err;
  Said s;
  s.code = run_request(r, out, err);
  CHECK_FALSE(std::filesystem::exists(r.folder));
  s.error = err.str();
  const auto at = s.error.find(folder.path.string());
  return at == std::string::npos ? s : Said{s.code, s.error.erase(at, folder.path.string().size())};
}

const std::string horn = "[[supports.in_use]]\nmember = \"leading edge tube\"\nat = \"inboard end\"\nas = \"horn\"\n";
const std::string clamps = "as = \"clamp\"";

}  // namespace

TEST_CASE("the survey refuses a frame that nothing holds in the words of the plan, under either set of supports") {
  for (const auto& text : {with(base(), horn, ""), with(base(), clamps, "as = \"rest\"")}) {
    const auto survey = said(Request::Job::survey, text), plan = said(Request::Job::plan, text);
    CHECK(survey.code == 3);
    CHECK_THAT(survey.error, Contains("nothing holds") && Contains("supports."));
    CHECK(plan.code == survey.code);
    CHECK(plan.error == survey.error);
  }
}

TEST_CASE("two members practically in one place are named with their distance where the second is stated") {
  const std::string second = "[[member]]\nname = \"trailing edge tube\"";
  const auto text =
      with(base(), second,
           "[[member]]\nname = \"front spar\"\nrole = \"spar\"\nat = \"30 %\"\nsection = { shape = \"tube\", "
           "outside_diameter = \"3/4 in\", wall = \"0.035 in\" }\nmaterial = \"6061-T6 tube\"\n\n"
           "[[member]]\nname = \"other spar\"\nrole = \"spar\"\nat = \"30.1 %\"\nsection = { shape = \"tube\", "
           "outside_diameter = \"3/4 in\", wall = \"0.035 in\" }\nmaterial = \"6061-T6 tube\"\n\n" +
               second);
  const auto e = complaint(text);
  CHECK_THAT(e.what(), Contains("\"other spar\" stands") && Contains("from \"front spar\" (line ") &&
                           Contains("0.35 mm") && Contains("one place"));
  CHECK(e.place.line == line_of(text, "at = \"30.1 %\""));
}

TEST_CASE("a solve that is given up is told with the test it missed, in that test's own unit") {
  Request r;
  r.case_file = "mine.toml";
  const NotConverged uncertain("the pull of the cloth is not certain enough", "250 F, pass 1, T1", 12,
                               {"bound on the error of the pull", 2.6, 2, "N/m"}, "check cloth.looseness");
  CHECK(not_converged_text(r, uncertain) ==
        "mine.toml: the pull of the cloth is not certain enough, so there is no plan\n"
        "  where: 250 F, pass 1, T1; 12 iterations; bound on the error of the pull 2.6 N/m, allowed 2 N/m\n"
        "  what to try: check cloth.looseness");
  const NotConverged rough("no equilibrium was found", "250 F, pass 1, T1", 400,
                           {"friction off its law, as a share of its limit", 0.01, 0.0002, ""}, "");
  CHECK_THAT(not_converged_text(r, rough), Contains("limit 0.01, allowed 0.0002\n") && Contains("evenpull survey"));
}
