#include "tests/app/case_text.hpp"

#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

Case with_spread(const std::string& lines) { return case_of(base() + "\n[spread]\n" + lines + "\n"); }

}  // namespace

TEST_CASE("the spread of the pull is stated whole or in its parts, and not both", "[case]") {
  const Spreads usual = case_of(base()).spreads;
  CHECK(usual.pull() == Approx(0.32).epsilon(0.02));
  const Spreads half = with_spread("pull = \"16 %\"").spreads;
  CHECK(half.pull() == Approx(0.16));
  CHECK(half.pull_of_stage / half.pull_common == Approx(usual.pull_of_stage / usual.pull_common));
  const Spreads parts = with_spread("pull_common = \"5 %\"\npull_of_yarn = \"12 %\"").spreads;
  CHECK(parts.pull_common == Approx(0.05));
  CHECK(parts.pull_of_stage == Approx(0.10));
  CHECK(parts.pull_of_yarn == Approx(0.12));
  CHECK_THROWS_WITH(with_spread("pull = \"30 %\"\npull_of_stage = \"10 %\""),
                    Contains("pull_of_stage") && Contains("state the whole or its parts"));
}

TEST_CASE("cloth slides worse over wood than over metal where the case does not say", "[case]") {
  const Case metal = case_of(base());
  CHECK(metal.blanket.edge_friction == Approx(0.25));
  CHECK(metal.blanket.rib_friction == Approx(0.25));
  const Case wood = read_case(EVENPULL_CASES_DIR "/two_sheet_elevator.toml");
  CHECK(wood.blanket.rib_friction == Approx(0.35));
}

TEST_CASE("what orders are compared by is stated for 100 N/m, and what is left out is usual", "[case]") {
  const auto score = [](const std::string& lines) { return case_of(base() + "\n[score]\n" + lines + "\n").score; };
  const Score usual = case_of(base()).score;
  CHECK(usual.pull_difference == Approx(Score{}.pull_difference));
  CHECK(score("pull_difference = 0.10").pull_difference == Approx(2 * usual.pull_difference));
  const Score dear = score("turn_over = 0.004\nunevenness = 0\nno_rule_turn_overs = 10");
  CHECK(dear.turn_over == Approx(0.004));
  CHECK(dear.unevenness == 0);
  CHECK(dear.no_rule_turn_overs == Approx(10));
  CHECK(dear.pull_difference == Approx(usual.pull_difference));
  CHECK_THROWS_WITH(score("turn_over = 1"), Contains("score.turn_over") && Contains("usually 0.001"));
  CHECK_THROWS_WITH(score("turnover = 0.001"), Contains("turn_over"));
}

TEST_CASE("whatever the template shows of work, spreads, limits and score is read once its # is taken away", "[case]") {
  std::istringstream in(template_text());
  std::string line, table;
  int tried = 0;
  while (std::getline(in, line)) {
    const bool off = line.rfind("# ", 0) == 0;
    const std::string stated = off ? line.substr(2) : line;
    if (stated.rfind('[', 0) == 0) table = stated.substr(0, stated.find(']') + 1);
    const auto equals = stated.find(" = ");
    const bool key = equals != std::string::npos && stated.find(' ') == equals;
    const bool of_these = table == "[work]" || table == "[spread]" || table == "[limits]" || table == "[score]" ||
                          table == "[iron]" || table == "[doses]";
    if (!off || !key || !of_these) continue;
    std::string text = base();
    const std::string with = table + "\n" + stated.substr(0, stated.find('#')) + "\n";
    if (const auto at = text.find(table + "\n"); at != std::string::npos) text.replace(at, table.size() + 1, with);
    else text += "\n" + with;
    INFO(table << " " << stated);
    CHECK_NOTHROW(case_of(text));
    ++tried;
  }
  CHECK(tried > 30);
}

TEST_CASE("crippling and waves have a share and a scatter that can be stated, and nonsense is refused", "[case]") {
  const Case usual = case_of(base());
  CHECK(usual.limits.crippling_share == Approx(2.0 / 3));
  CHECK(usual.limits.waves == 1);
  CHECK(usual.spreads.crippling == Approx(0.15));
  CHECK(with_spread("crippling = \"10 %\"").spreads.crippling == Approx(0.10));
  const auto limits = [](const std::string& lines) { return case_of(base() + "\n[limits]\n" + lines + "\n").limits; };
  CHECK(limits("crippling_share = 0.5").crippling_share == 0.5);
  CHECK(limits("crippling_share = 0").crippling_share == 0);
  CHECK(limits("waves = 0.8").waves == 0.8);
  CHECK_THROWS_WITH(limits("crippling_share = 1.5"), Contains("crippling_share") && Contains("0 leaves it out"));
  CHECK_THROWS_WITH(limits("waves = -1"), Contains("waves"));
}
