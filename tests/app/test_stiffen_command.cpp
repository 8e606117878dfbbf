// evenpull stiffen: what is put into a case is what was tried, and what cannot be asked says what would be right.
#include "app/command/commands.hpp"
#include "app/input/materials.hpp"
#include "app/output/stiffen_edits.hpp"
#include "shop/stiffen/candidates.hpp"
#include "tests/app/case_text.hpp"

#include <nlohmann/json.hpp>

#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

UsualStock stock() {
  return {find_material("Sitka spruce", 0)->values,
          find_material("6061-T6 tube", 0)->values,
          find_material("4130 tube", 0)->values,
          {0.060}};
}

struct StiffenSaid {
  int code = 0;
  std::string out, err;
};

StiffenSaid ask(const TemporaryFolder& folder, const StiffenRequest& q, const std::string& text = base()) {
  Request r;
  r.job = Request::Job::stiffen;
  r.case_file = folder.write("mine.toml", text);
  r.folder = (folder.path / "result").string();
  r.quiet = false;
  r.stiffen = q;
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

void check_same_shape(const SectionShape& a, const SectionShape& b) {
  CHECK(a.kind == b.kind);
  CHECK(a.outside_diameter == Approx(b.outside_diameter));
  CHECK(a.wall == Approx(b.wall));
  CHECK(a.width == Approx(b.width));
  CHECK(a.height == Approx(b.height));
}

void check_same(const Case& read, const Case& tried) {
  REQUIRE(read.battens.size() == tried.battens.size());
  for (std::size_t i = 0; i < read.battens.size(); ++i) {
    const Batten &a = read.battens[i], &b = tried.battens[i];
    CHECK(std::tuple(a.name, a.rib, a.span_member, a.comes_out) ==
          std::tuple(b.name, b.rib, b.span_member, b.comes_out));
    check_same_shape(a.make.shape, b.make.shape);
    CHECK(read.materials[static_cast<std::size_t>(a.make.material)].youngs_modulus ==
          tried.materials[static_cast<std::size_t>(b.make.material)].youngs_modulus);
  }
  REQUIRE(read.braces.size() == tried.braces.size());
  for (std::size_t i = 0; i < read.braces.size(); ++i) {
    const Brace &a = read.braces[i], &b = tried.braces[i];
    CHECK(std::tuple(a.name, a.from_member, a.from_rib, a.from_mid_bay) ==
          std::tuple(b.name, b.from_member, b.from_rib, b.from_mid_bay));
    CHECK(std::tuple(a.to_member, a.to_rib, a.to_mid_bay, a.comes_out) ==
          std::tuple(b.to_member, b.to_rib, b.to_mid_bay, b.comes_out));
    CHECK(a.from_joint.kind == b.from_joint.kind);
    check_same_shape(a.make.shape, b.make.shape);
  }
  REQUIRE(read.while_ironed.size() == tried.while_ironed.size());
  for (std::size_t i = 0; i < read.while_ironed.size(); ++i) {
    CHECK(read.while_ironed[i].member == tried.while_ironed[i].member);
    CHECK(read.while_ironed[i].hold == tried.while_ironed[i].hold);
    CHECK(read.while_ironed[i].station == Approx(tried.while_ironed[i].station));
  }
  REQUIRE(read.span_members.size() == tried.span_members.size());
  for (std::size_t i = 0; i < read.span_members.size(); ++i) {
    CHECK(read.span_members[i].name == tried.span_members[i].name);
    CHECK(read.span_members[i].chord_fraction == Approx(tried.span_members[i].chord_fraction));
  }
  for (std::size_t i = 0; i < read.ribs.size(); ++i)
    check_same_shape(read.ribs[i].make.shape, tried.ribs[i].make.shape);
  CHECK(read.cloth.areal_mass == Approx(tried.cloth.areal_mass));
  CHECK(read.cloth.curve.back().pull.warp == Approx(tried.cloth.curve.back().pull.warp));
  CHECK(read.in_use.size() == tried.in_use.size());
}

}  // namespace

TEST_CASE("the case with a candidate reads back as the case that was tried, and nothing else of its text changes",
          "[stiffen]") {
  const std::string text = base();
  const Case c = case_of(text);
  const Panel p = build_panel(c, {coarse_nodes});
  for (const Limit limit : {Limit::end_rib_bow, Limit::edge_bow, Limit::twist, Limit::buckling}) {
    StageBar bar;
    bar.over.emplace();
    bar.over->limit = limit, bar.over->use = 1.2;
    const auto all = candidates_for(c, p, bar, stock());
    REQUIRE(!all.empty());
    for (const Candidate& k : all) {
      INFO("limit " << static_cast<int>(limit) << ", kind " << static_cast<int>(k.kind));
      const std::string changed = edited_case(text, edits_of(c, k));
      check_same(case_of(changed), with_candidate(c, k));
      if (!k.areal_mass) CHECK(changed.compare(0, text.size(), text) == 0);
    }
  }
}

TEST_CASE("a stage that the case has not is refused with those it has", "[stiffen]") {
  const TemporaryFolder folder;
  const StiffenSaid said = ask(folder, {"260 degF", {}, "", false});
  CHECK(said.code == 3);
  CHECK_THAT(said.err, Contains("--stage") && Contains("no stage of the case") && Contains("250 °F"));
  CHECK_THAT(ask(folder, {"hot", {}, "", false}).err, Contains("--stage") && Contains("hot"));
}

TEST_CASE("a file that is there is never written over", "[stiffen]") {
  const TemporaryFolder folder;
  const std::string there = folder.write("there.toml", "mine");
  const StiffenSaid said = ask(folder, {"", 1, there, false});
  CHECK(said.code == 5);
  CHECK(read_all(there) == "mine");
}

TEST_CASE("with coats that tauten nothing is offered", "[stiffen]") {
  const TemporaryFolder folder;
  const StiffenSaid said =
      ask(folder, {"", {}, "", false}, with(base(), "[work]\n", "[work]\nfinish = \"tautening\"\n"));
  CHECK(said.code == 3);
  CHECK_THAT(said.err, Contains("tautening") && Contains("approved data"));
}
