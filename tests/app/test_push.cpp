// Weights on the bare frame through the command: what is proposed, what is read, what goes into the case, what is
// refused.
#include "app/command/commands.hpp"
#include "app/command/exit_codes.hpp"
#include "shop/push_choice.hpp"
#include "shop/push_frame.hpp"
#include "solver/frame/joint_turn.hpp"
#include "tests/app/case_text.hpp"
#include "viz/words/print.hpp"

#include <nlohmann/json.hpp>

#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

struct PushSaid {
  int code = 0;
  std::string out, err;
};

PushSaid said_by(const Request& r) {
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

// Joints welded: a factor of their own.
std::string welded() { return with(base(), "joints = \"rigid\"", "joints = \"welded\""); }

Request push_of(const TemporaryFolder& folder, const std::string& text, std::vector<std::string> pushes) {
  Request r;
  r.job = Request::Job::push;
  r.case_file = folder.write("panel.toml", text);
  r.push.pushes = std::move(pushes);
  r.folder = (folder.path / "out").string();
  return r;
}

// Movement [mm] under kilograms at y of the trailing edge, with members so many times as stiff.
double moved_mm(const std::string& text, double kilograms, double at, double times, double read_at) {
  const Case c = case_of(text);
  PushFrame f(c, Held::while_ironed);
  f.set_places({{false, 1, at}, {false, 1, read_at}});
  FrameChange change;
  change.stiffness.fill(times);
  return 1e3 * f.push(c, change, {{0, gravity * kilograms}}).front().down[1];
}

std::string complaint_of(const std::string& push) {
  const TemporaryFolder folder;
  const PushSaid said = said_by(push_of(folder, welded(), {push}));
  CHECK(said.code == static_cast<int>(ExitCode::bad_case));
  CHECK(std::count(said.err.begin(), said.err.end(), '\n') == 1);
  CHECK_FALSE(std::filesystem::exists(folder.path / "out"));
  return said.err;
}

}  // namespace

TEST_CASE("without readings push says which weights to hang where, and draws it", "[push]") {
  const TemporaryFolder folder;
  for (const Paper paper : {Paper::letter, Paper::a4}) {
    Request r = push_of(folder, welded(), {});
    r.paper = paper;
    const PushSaid said = said_by(r);
    CHECK(said.err.empty());
    REQUIRE(said.code == 0);
    CHECK_THAT(said.out, Contains("Hang these weights") && Contains("trailing edge tube") && Contains("No cloth"));
    CHECK(std::filesystem::exists(folder.path / "out" / "push.pdf"));
    const auto j = nlohmann::json::parse(read_all(folder.path / "out" / "push.json"));
    REQUIRE(j["proposed"].size() >= 2);
    for (const auto& p : j["proposed"]) CHECK(p["use_of_allowable_stress"].get<double>() <= 0.1);
  }
}

TEST_CASE("readings of a stiffer frame say so, and go into the case with the rest of it as it was", "[push]") {
  const TemporaryFolder folder;
  const std::string text = welded();
  const auto push_words = [&](double at, const std::string& place) {
    return "1 kg at trailing edge, " + place + ": " + print_number(moved_mm(text, 1, at, 1.15, at)) +
           " mm; trailing edge, rib 3: " + print_number(moved_mm(text, 1, at, 1.15, 0.6)) + " mm";
  };
  Request r = push_of(folder, text, {push_words(0.75, "750 mm"), push_words(0.9, "rib 4")});
  r.push.gauge = "0.03 mm";
  r.push.into = r.case_file;
  const PushSaid said = said_by(r);
  CHECK(said.err.empty());
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out, Contains("stiffness of the members") && Contains("Written into"));
  const auto j = nlohmann::json::parse(read_all(folder.path / "out" / "push.json"));
  CHECK(j["agrees"].get<bool>());
  CHECK(j["factors"][0]["times_stated"].get<double>() == Approx(1.15).epsilon(0.06));
  const std::string now = read_all(r.case_file);
  CHECK(now.rfind(text, 0) == 0);  // all of it, byte for byte, and the table behind it
  CHECK_THAT(now.substr(text.size()),
             Contains("[measured_frame]") && Contains("member_stiffness") && Contains("welded"));
  CHECK(read_all(folder.path / "panel.before-push.toml") == text);
  const Case c = read_case(r.case_file), before = case_of(text);
  CHECK(c.materials[0].youngs_modulus ==
        Approx(before.materials[0].youngs_modulus * j["factors"][0]["times_stated"].get<double>()).epsilon(1e-3));
  CHECK(c.spreads.member_stiffness < before.spreads.member_stiffness);
  CHECK(c.spreads.member_stiffness >= 0.03);
  REQUIRE(c.ribs[0].front_joint.at);
  REQUIRE(c.ribs[0].front_joint.told_up);
  const JointTold told = *c.ribs[0].front_joint.told_up;
  CHECK(told.spread >= 0.97 * j["factors"][1]["sigmas_deviation"].get<double>());
  CHECK(told.spread <= 1);
  CHECK(place_of_sigmas(told.mean - 2 * told.spread) <= *c.ribs[0].front_joint.at);
  CHECK(place_of_sigmas(told.mean + 2 * told.spread) >= *c.ribs[0].front_joint.at);
  // The same weights once more begin from what the case stated, not from what was found: nothing is counted twice.
  const PushSaid again = said_by(r);
  REQUIRE(again.code == 0);
  CHECK(read_all(r.case_file) == now);
  CHECK(std::filesystem::exists(folder.path / "panel.before-push-2.toml"));
}

TEST_CASE("readings that no such frame gives are told, and nothing is written into the case", "[push]") {
  const TemporaryFolder folder;
  const std::string text = base();
  // The trailing edge reads as one of twice the wall would, the leading edge as stated.
  const std::string thick = with(
      text,
      "role = \"trailing edge\"\nsection = { shape = \"tube\", outside_diameter = \"1/2 in\", wall = \"0.035 in\" }",
      "role = \"trailing edge\"\nsection = { shape = \"tube\", outside_diameter = \"3/4 in\", wall = \"0.065 in\" }");
  std::vector<std::string> pushes;
  for (const double at : {0.75, 1.05})
    pushes.push_back("1 kg at trailing edge, " + print_number(1e3 * at) +
                     " mm: " + print_number(moved_mm(thick, 1, at, 1, at)) +
                     " mm; trailing edge, rib 2: " + print_number(moved_mm(thick, 1, at, 1, 0.3)) + " mm");
  Request r = push_of(folder, text, pushes);
  r.push.gauge = "0.03 mm";
  r.push.into = r.case_file;
  const PushSaid said = said_by(r);
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out, Contains("contradict") && Contains("Read again") && !Contains("Written into"));
  CHECK(read_all(r.case_file) == text);
}

TEST_CASE("what a person types wrongly of a weight gets one message that says what would be right", "[push]") {
  CHECK_THAT(complaint_of("2 kg at trailing edge, rib 4"), Contains("does not say what moved"));
  CHECK_THAT(complaint_of("2 kg: 3 mm"), Contains("where the weight hung"));
  CHECK_THAT(complaint_of("500 kg at trailing edge, rib 4: 3.2 mm"), Contains("500 kg") && Contains("0.5 to 10 kg"));
  CHECK_THAT(complaint_of("2 kg at trailing egde, rib 4: 3.2 mm"),
             Contains("did you mean") && Contains("trailing edge tube"));
  CHECK_THAT(complaint_of("2 kg at spar, rib 4: 3.2 mm"), Contains("no member"));
  CHECK_THAT(complaint_of("2 kg at tube, rib 4: 3.2 mm"), Contains("more than one member"));
  CHECK_THAT(complaint_of("2 kg at trailing edge, rib 14: 3.2 mm"), Contains("ribs 1 to 7"));
  CHECK_THAT(complaint_of("2 kg at trailing edge: 3.2 mm"), Contains("no place") && Contains("a member and a rib"));
  CHECK_THAT(complaint_of("2 kg at trailing edge, 2400 mm: 3.2 mm"), Contains("goes from 0 to 1800 mm"));
  CHECK_THAT(complaint_of("2 kg at leading edge, rib 1: 3.2 mm"), Contains("on a support"));
  CHECK_THAT(complaint_of("1 kg at trailing edge, rib 4: -2 mm"), Contains("did not go down"));
  CHECK_THAT(complaint_of("1 kg at trailing edge, rib 4: 2 mm up"), Contains("did not go down"));
  CHECK_THAT(complaint_of("1 kg at trailing edge, rib 4: 2"), Contains("\"2\""));
  CHECK_THAT(complaint_of("1 kg at trailing edge, rib 4: 2.8 in"), Contains("millimetres written as inches"));
  CHECK_THAT(complaint_of("1 kg at trailing edge, rib 4: 0.11 mm"), Contains("inches written as millimetres"));
  CHECK_THAT(complaint_of("1 kg at trailing edge, rib 4: 60 mm"), Contains("goes down by"));
  CHECK_THAT(complaint_of("1 kg at trailing edge, rib 4: 2.8 mm; leading edge, rib 7: 0.1 mm"),
             Contains("where a support holds"));
}

TEST_CASE("a push is written into the case that was read, with readings, and one factor", "[push]") {
  const TemporaryFolder folder;
  Request r = push_of(folder, welded(), {});
  r.push.into = r.case_file;
  CHECK_THAT(said_by(r).err, Contains("--push"));
  r.push.pushes = {"1 kg at trailing edge, rib 4: 2.8 mm"};
  r.push.each_kind = true;
  CHECK_THAT(said_by(r).err, Contains("--each-kind"));
  r.push.each_kind = false;
  r.push.into = folder.write("other.toml", welded());
  CHECK_THAT(said_by(r).err, Contains("another file"));
  r.push.into.clear();
  r.push.gauge = "5 mm";
  CHECK_THAT(said_by(r).err, Contains("--gauge") && Contains("dial gauge"));
}

TEST_CASE("a frame that was measured is read from its table, and a case without one is as before", "[push]") {
  const std::string table =
      "\n[measured_frame]\nmember_stiffness = 1.08\noff_by = \"4 %\"\njoints = { \"welded\" = \"30 %\" }\n";
  const Case c = case_of(welded() + table), before = case_of(welded());
  CHECK(c.materials[0].youngs_modulus == Approx(1.08 * before.materials[0].youngs_modulus));
  CHECK(c.materials[0].shear_modulus == Approx(1.08 * before.materials[0].shear_modulus));
  CHECK(c.spreads.member_stiffness == 0.04);
  REQUIRE(c.ribs[2].rear_joint.at);
  CHECK(*c.ribs[2].rear_joint.at == 0.30);
  CHECK_FALSE(before.ribs[2].rear_joint.at);
  CHECK_FALSE(c.ribs[2].rear_joint.told_up);  // a place alone does not say how surely
  const std::string narrow = with(table, "\"30 %\"", "{ at = \"30 %\", low = \"16 %\", high = \"50 %\" }");
  const Case narrower = case_of(welded() + narrow);
  CHECK(*narrower.ribs[2].rear_joint.at == 0.30);
  CHECK(narrower.ribs[2].rear_joint.told_up->spread == Approx(0.9945 / 3.92).epsilon(0.01));
  CHECK_THAT(complaint(welded() + with(narrow, "16 %", "31 %")).what(), Contains("low") && Contains("`at`"));
  CHECK_THAT(complaint(welded() + with(narrow, "high", "hihg")).what(), Contains("did you mean"));
  CHECK_THAT(complaint(base() + table).what(), Contains("welded") && Contains("push it anew"));
  CHECK_THAT(complaint(welded() + with(table, "4 %", "1 %")).what(), Contains("3 %"));
  CHECK_THAT(complaint(welded() + with(table, "1.08", "108")).what(), Contains("usually 0.8 to 1.2"));
  CHECK_THAT(complaint(welded() + with(table, "off_by", "of_by")).what(), Contains("did you mean"));
}
