#include "app/input/order_file.hpp"
#include "app/input/read_measured.hpp"
#include "tests/app/case_text.hpp"

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

const std::string one = "{ stage = \"250 degF\", pass = 1, side = \"top\", bay = 1, strip = 1, dose = 0.25 }";

OrderFile read(const std::string& text) {
  const TemporaryFolder folder;
  return read_order_file(folder.write("order.toml", text), case_of(base()));
}

std::string steps(const std::string& list) { return "format = 1\nsteps = [\n" + list + "\n]\n"; }

Panel six_bays() {
  Panel p;
  p.bays = 6;
  p.strips = 1;
  return p;
}

}  // namespace

TEST_CASE("an order written and read again is the same order", "[order]") {
  const auto c = case_of(base());
  const std::vector<OrderStep> written = {{c.stages[0].temperature, 1, Side::top, 3, 1, 0.25},
                                          {c.stages[0].temperature, 2, Side::bottom, 4, 1, 1},
                                          {c.stages[2].temperature, 1, Side::top, 1, 2, 1}};
  const auto text = order_text(written, {true}, "a heading", c.stages[0].temperature);
  const auto back = read(text);
  REQUIRE(back.steps.size() == written.size());
  for (size_t i = 0; i < written.size(); ++i) {
    CHECK(back.steps[i].temperature == written[i].temperature);
    CHECK(back.steps[i].pass == written[i].pass);
    CHECK(back.steps[i].side == written[i].side);
    CHECK(back.steps[i].bay == written[i].bay);
    CHECK(back.steps[i].strip == written[i].strip);
    CHECK(back.steps[i].dose == written[i].dose);
  }
  CHECK(back.done == std::vector<bool>{true, false, false});
  CHECK(order_text(back.steps, back.done, "a heading", c.stages[0].temperature) == text);
}

TEST_CASE("steps above the hottest safe stage stand under a warning", "[order]") {
  const auto c = case_of(base());
  const std::vector<OrderStep> all = {{c.stages[0].temperature, 1, Side::top, 1, 1, 1},
                                      {c.stages[1].temperature, 1, Side::top, 1, 1, 1}};
  const auto text = order_text(all, {}, "h", c.stages[0].temperature);
  CHECK(text.find("250 degF") < text.find("ABOVE THE HOTTEST SAFE STAGE"));
  CHECK(text.find("ABOVE THE HOTTEST SAFE STAGE") < text.find("300 degF"));
  CHECK(order_text(all, {}, "h", c.stages[1].temperature).find("ABOVE") == std::string::npos);
}

TEST_CASE("a mistake in an order is named with its line", "[order]") {
  CHECK_THROWS_WITH(read(steps(with(one, "250", "260"))),
                    Contains("order.toml:3") && Contains("steps[1].stage") && Contains("is no stage of the case"));
  CHECK_THROWS_WITH(read(steps(with(one, "dose = 0.25", "dose = 2"))),
                    Contains("steps[1].dose") && Contains("at most 1"));
  CHECK_THROWS_WITH(read(steps(with(one, "side", "sde"))), Contains("did you mean \"side\""));
  CHECK_THROWS_WITH(read(steps(with(one, "top", "left"))), Contains("\"top\" or \"bottom\""));
  CHECK_THROWS_WITH(read(steps(with(one, "250", "300") + ",\n" + one)),
                    Contains("order.toml:4") && Contains("stages only rise"));
  CHECK_THROWS_WITH(read(steps(with(one, "pass = 1", "pass = 2") + ",\n" + one)), Contains("earlier pass"));
  CHECK_THROWS_WITH(read("format = 1\n"), Contains("steps"));
  CHECK_THROWS_WITH(read("format = 2\nsteps = []\n"), Contains("format 1"));
}

TEST_CASE("zones left out of a pass are a doubt, zones that are not there an error", "[order]") {
  const auto c = case_of(base());
  const auto doubts = check_order(read(steps(one)), "order.toml", c, six_bays());
  REQUIRE(doubts.size() == 1);
  CHECK_THAT(doubts[0], Contains("leaves out 11 of 12 zones"));
  const auto far = read(steps(with(one, "bay = 1", "bay = 7")));
  CHECK_THROWS_WITH(check_order(far, "order.toml", c, six_bays()), Contains("bay 7") && Contains("6 bays"));
}

TEST_CASE("work half done is what is marked done, and a file without a mark is refused", "[order]") {
  OrderFile order;
  order.steps.resize(3);
  order.steps[0].bay = 1, order.steps[1].bay = 2, order.steps[2].bay = 3;
  order.done = {true, false, true};  // worked out of turn: the order of the file is the order of the work
  const auto done = steps_done(order, "half.toml");
  REQUIRE(done.size() == 2);
  CHECK(done[1].bay == 3);
  order.done = {false, false, false};
  CHECK_THROWS_WITH(steps_done(order, "half.toml"), Contains("half.toml") && Contains("done = true"));
}

TEST_CASE("an order brings its own passes where the case leaves them open, and no more than a case states", "[order]") {
  auto c = case_of(base());
  OrderFile order;
  for (int pass = 1; pass <= 5; ++pass)
    order.steps.push_back({c.stages[0].temperature, pass, Side::top, 1, 1, pass < 5 ? 0.15 : 1});
  order.done.assign(order.steps.size(), false);
  c.stages[0].passes_open = true;
  c.stages[0].doses = {0.25, 0.25, 1};
  take_passes(c, order, "order.toml");
  CHECK(c.stages[0].doses == std::vector<double>{0.15, 0.15, 0.15, 0.15, 1});

  // A log of what was worked leaves the rest as it was; a plan with less is taken at its word.
  order.steps.resize(2);
  order.done.assign(2, true);
  c.stages[0].doses = {0.25, 0.25, 1};
  take_passes(c, order, "order.toml");
  CHECK(c.stages[0].doses == std::vector<double>{0.15, 0.15, 1});
  order.done[1] = false;
  take_passes(c, order, "order.toml");
  CHECK(c.stages[0].doses == std::vector<double>{0.15, 0.15});

  for (int pass = 3; pass <= 5; ++pass) order.steps.push_back({c.stages[0].temperature, pass, Side::top, 1, 1, 1});
  c.stages[0].passes_open = false;
  c.stages[0].doses = {0.25, 0.25, 1};
  CHECK_THROWS_WITH(take_passes(c, order, "order.toml"), Contains("steps[4].pass") && Contains("beyond the 3 passes"));
}

TEST_CASE("a step of an order belongs to the stage that is nearest, not to the first that is near", "[order]") {
  auto c = case_of(base());
  c.stages[1].temperature = c.stages[0].temperature + 2 / 1.8;  // 252 degF, as close as a case may have them
  const TemporaryFolder folder;
  const auto read_stage = [&](const std::string& stage) {
    const auto text = steps("{ stage = \"" + stage + "\", pass = 1, side = \"top\", bay = 1, strip = 1, dose = 0.25 }");
    return read_order_file(folder.write("order.toml", text), c).steps[0].temperature;
  };
  CHECK(read_stage("250.9 degF") == c.stages[0].temperature);
  CHECK(read_stage("251.1 degF") == c.stages[1].temperature);
  CHECK(read_stage("252 degF") == c.stages[1].temperature);
  CHECK(read_stage("122 degC") == c.stages[1].temperature);  // 251.6 degF
  CHECK_THROWS_WITH(read_stage("255 degF"), Contains("is no stage of the case"));
}

TEST_CASE("stages that an order file could not tell apart are refused in the case", "[order]") {
  const auto e = complaint(with(base(), "temperature = \"300 degF\"", "temperature = \"251.9 degF\""));
  CHECK(e.key == "stage[2].temperature");
  CHECK_THAT(e.what(), Contains("at least 2 degF"));
  CHECK(case_of(with(base(), "temperature = \"300 degF\"", "temperature = \"252 degF\"")).stages.size() == 3);
}

TEST_CASE("readings stand in an order file, are written again, and are refused where they cannot be", "[order]") {
  const std::string done =
      "{ stage = \"250 degF\", pass = 1, side = \"top\", bay = 1, strip = 1, dose = 1, done = true }";
  const auto with = [&](const std::string& step, const std::string& reading) {
    return read(steps(step) + "measured = [\n" + reading + "\n]\n");
  };
  const std::string good = "{ stage = \"250 degF\", side = \"bottom\", bay = 2, weight = \"500 g\", sag = \"3.2 mm\" }";
  const OrderFile order = with(done, good);
  REQUIRE(order.measured.size() == 1);
  CHECK(order.measured[0].side == Side::bottom);
  CHECK(order.measured[0].bay == 1);
  CHECK(order.measured[0].stage == 0);
  CHECK(order.measured[0].weight == Approx(0.5));
  CHECK(order.measured[0].sag == Approx(3.2e-3));
  const auto c = case_of(base());
  Plan plan;
  plan.the_case = c;
  plan.read.readings.push_back({order.measured[0], {}, false});
  const auto text = order_text(order.steps, order.done, "h", c.stages[0].temperature, {}, measured_lines(plan));
  CHECK(read(text).measured.size() == 1);
  CHECK(read(text).measured[0].sag == Approx(3.2e-3));

  using Catch::Matchers::Contains;
  const std::string bow = "{ stage = \"250 degF\", what = \"trailing edge bow\", value = \"0.03 in\" }";
  const OrderFile shape = with(done, bow);
  REQUIRE(shape.measured.size() == 1);
  CHECK(shape.measured[0].shape == Limit::edge_bow);
  CHECK(shape.measured[0].value == Approx(0.03 * 0.0254));
  CHECK(with(done, measured_lines(c, shape.measured).front()).measured[0].value == Approx(0.03 * 0.0254));
  const OrderFile tone = with(done, "{ stage = \"250 degF\", side = \"top\", bay = 1, tone = \"84 Hz\" }");
  REQUIRE(tone.measured.size() == 1);
  CHECK(tone.measured[0].tone == Approx(84));
  CHECK(with(done, measured_lines(c, tone.measured).front()).measured[0].tone == Approx(84));
  CHECK_THROWS_WITH(with(done, "{ stage = \"250 degF\", side = \"top\", bay = 1, tone = \"84 m\" }"),
                    Contains("tone") && Contains("usually 40 to 150"));
  CHECK_THROWS_WITH(with(done, "{ stage = \"250 degF\", what = \"bow\", value = \"0.03 in\" }"),
                    Contains("what") && Contains("trailing edge bow"));
  CHECK_THROWS_WITH(with(done, "{ stage = \"250 degF\", side = \"top\", what = \"twist\", value = \"1 mm\" }"),
                    Contains("side") && Contains("give what and value alone"));
  CHECK_THROWS_WITH(with(one, good), Contains("is not done yet") && Contains("measured"));
  const auto changed = [&](const std::string& from, const std::string& to) {
    std::string text = good;
    text.replace(text.find(from), from.size(), to);
    return text;
  };
  CHECK_THROWS_WITH(with(done, changed("3.2 mm", "3.2 in")), Contains("sag") && Contains("usually 1 to 10 mm"));
  CHECK_THROWS_WITH(with(done, changed("500 g", "500 kg")), Contains("weight") && Contains("usually 0.1 to 2 kg"));
  CHECK_THROWS_WITH(with(done, changed("3.2 mm", "3.2 g")), Contains("sag"));
  CHECK_THROWS_WITH(with(done, changed("250 degF", "275 degF")), Contains("is no stage of the case"));
  Panel one_bay = six_bays();
  one_bay.bays = 1;
  CHECK_THROWS_WITH(check_order(order, "order.toml", c, one_bay),
                    Contains("was read in bay 2") && Contains("has 1 bays"));
}
