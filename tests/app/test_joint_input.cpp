// Joints of ribs and braces as a case states them.
#include "tests/app/case_text.hpp"

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

Case with_joints(const std::string& joints) { return case_of(with(base(), "joints = \"rigid\"", joints)); }

std::string refused(const std::string& joints) {
  try {
    with_joints(joints);
  } catch (const CaseFileError& e) {
    return e.what();
  }
  return "";
}

bool is_default(const Case& c, const std::string& key) {
  return std::any_of(c.defaults_used.begin(), c.defaults_used.end(),
                     [&](const DefaultUsed& d) { return d.key == key; });
}

}  // namespace

TEST_CASE("joints are stated in a word for both ends of all ribs", "[case]") {
  for (const auto& [word, kind] :
       {std::pair{"rigid", JointKind::rigid}, std::pair{"pinned", JointKind::pinned},
        std::pair{"welded", JointKind::welded}, std::pair{"Welded to a wide tube", JointKind::welded_thin},
        std::pair{"one rivet or bolt", JointKind::single}, std::pair{"glued_gusset", JointKind::glued_gusset},
        std::pair{"glued block", JointKind::glued_block}, std::pair{"tied", JointKind::tied},
        std::pair{"slid in and riveted", JointKind::slid_in}}) {
    const Case c = with_joints("joints = \"" + std::string(word) + "\"");
    for (const Rib& r : c.ribs) CHECK((r.front_joint.kind == kind && r.rear_joint.kind == kind));
    CHECK_FALSE(is_default(c, "ribs.joints"));
  }
}

TEST_CASE("the trailing edge, the inner ribs and one rib may be joined otherwise", "[case]") {
  Case c = with_joints("joints = \"welded\"\nrear_joints = \"slid in and riveted\"");
  CHECK(c.ribs[2].front_joint.kind == JointKind::welded);
  CHECK(c.ribs[2].rear_joint.kind == JointKind::slid_in);
  c = case_of(with(base(), "[ribs.inner]", "[ribs.inner]\nrear_joints = \"tied\""));
  CHECK(c.ribs[0].rear_joint.kind == JointKind::rigid);
  CHECK(c.ribs[1].front_joint.kind == JointKind::rigid);
  CHECK(c.ribs[1].rear_joint.kind == JointKind::tied);
  c = case_of(base() + "\n[[ribs.single]]\nnumber = 4\nrear_joints = \"glued block\"\n");
  CHECK(c.ribs[3].front_joint.kind == JointKind::rigid);
  CHECK(c.ribs[3].rear_joint.kind == JointKind::glued_block);
}

TEST_CASE("a gusset states its rivets, and with them what they give", "[case]") {
  Case c = with_joints("joints = { as = \"riveted gusset\", rivets = 3 }");
  CHECK(c.ribs[1].rear_joint.fasteners == 3);
  CHECK(c.ribs[1].rear_joint.fastener_diameter == 0);
  CHECK_FALSE(c.ribs[1].rear_joint.upright);
  c = with_joints(
      "joints = { as = \"riveted gusset\", rivets = 2, rivet = \"3 mm\", apart = \"20 mm\", stands = \"upright\" }");
  CHECK(c.ribs[1].rear_joint.fastener_diameter == 0.003);
  CHECK(c.ribs[1].rear_joint.fastener_spacing == 0.02);
  CHECK(c.ribs[1].rear_joint.upright == true);
}

TEST_CASE("joints that are not stated are told among the defaults", "[case]") {
  const Case c = with_joints("");
  CHECK(c.ribs[1].rear_joint.kind == JointKind::unstated);
  CHECK(is_default(c, "ribs.joints"));
}

TEST_CASE("what a support gives is how far it moved over what it was pushed with", "[case]") {
  const Case c =
      case_of(with(base(), "as = \"clamp\"", "as = \"clamp\"\ngive = { force = \"100 N\", movement = \"0.2 mm\" }"));
  for (const Support& s : c.while_ironed) CHECK(s.give == Approx(2e-6));
  for (const Support& s : c.in_use) CHECK(s.give == 0);
}

TEST_CASE("joints that cannot be meant are refused with what would be right", "[bad input]") {
  CHECK_THAT(refused("joints = \"wellded\""), Contains("did you mean \"welded\""));
  CHECK_THAT(refused("joints = \"riveted gusset\""), Contains("rivets = 3"));
  CHECK_THAT(refused("joints = { as = \"riveted gusset\" }"), Contains("rivets") && Contains("is missing"));
  CHECK_THAT(refused("joints = { as = \"riveted gusset\", rivets = 0 }"), Contains("from 1 to 20"));
  CHECK_THAT(refused("joints = { as = \"riveted gusset\", rivets = 3, rivet = \"3 mm\" }"), Contains("state both"));
  CHECK_THAT(refused("joints = { as = \"riveted gusset\", rivets = 3, rivet = \"3 mm\", apart = \"5 mm\" }"),
             Contains("less than 3 rivets"));
  CHECK_THAT(refused("joints = { as = \"riveted gusset\", rivets = 1, rivet = \"3 mm\", apart = \"5 mm\" }"),
             Contains("leave `rivet` and `apart` out"));
  CHECK_THAT(refused("joints = { as = \"welded\", rivets = 3 }"), Contains("only for a riveted gusset"));
  CHECK_THAT(refused("joints = { as = \"tied\", stands = \"flat\" }"), Contains("only for a gusset"));
  CHECK_THAT(refused("joints = { kind = \"tied\" }"), Contains("not known"));
  CHECK_THAT(refused("joints = 3"), Contains("must be text in quotes"));
}
