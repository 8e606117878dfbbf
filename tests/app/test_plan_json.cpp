#include "app/output/json_number.hpp"
#include "app/output/plan_json.hpp"
#include "sequencer/choice/heat_plan.hpp"
#include "tests/app/case_text.hpp"

#include <limits>

using namespace evenpull;
using namespace evenpull_test;

namespace {

/// A plan with something in every field that the document shows; numbers invented.
Plan some_plan() {
  Plan p;
  p.the_case = case_of(base());
  p.panel.bays = 1;
  p.panel.strips = 1;
  for (const auto side : {Side::top, Side::bottom}) {
    Zone z;
    z.side = side;
    z.label = side == Side::top ? "T1" : "B1";
    p.panel.zones.push_back(z);
  }
  p.ceiling = 0;
  p.setting = p.the_case.stages[0].temperature + 3;
  p.advice.items = {advice::BracingHelps{}};
  p.steps = {{0, 1, 1, 1, 0, 0.25}, {1, 1, 1, 1, 1, 1}};
  p.limits = {{Limit::stress, {}, Moment::released, 1, 1e8, 1.2e8, 0.83, 0.02, 0, true}};
  p.orders.resize(1);
  p.orders[0].chosen = true;
  p.stages.resize(1);
  p.bounds = {{RibTie::free, {0.5}, 0.1, 0.001}};
  p.limits[0].study.mesh = {{0.04, 0.79}, {0.02, 0.82}, {0.01, 0.83}};
  p.limits[0].study.zones = {{2, 0.02, 0.81, -0.01}};
  p.limits[0].study.approach = Approach::settling;
  p.limits[0].study.order = 1.6;
  p.limits[0].study.extrapolated = 0.835;
  p.limits[0].study.mesh_plus_minus = p.limits[0].study.zone_plus_minus = 0.01;
  p.stages[0].slip_study = p.limits[0].study;
  p.study = {{500, 0.04, 1}, {2000, 0.02, 1}, {8000, 0.01, 1}, {2000, 0.02, 2}};
  p.solve.mesh_change = 0.02;
  StageSearch search;
  search.model = SearchModel::influences, search.things = 12, search.cost = 1, search.least_cost = 0.9,
  search.use = 0.8;
  p.searched = {search};
  p.trade_offs = {{{Family::halving}, 6, 0.80, 70, true}, {{Family::one_side}, 2, 0.85, 240, false}};
  p.pass_trials = {{0, {0.25, 1}, 2, 0.8, 70, 1e-3, 0.9, true}};
  p.heat = plan_heat(p.the_case, p.panel);
  return p;
}

}  // namespace

TEST_CASE("the document says how the order was searched and what turn-overs buy", "[json]") {
  const auto j = Json::parse(plan_document(some_plan(), "0"))["search"];
  CHECK(j["stages"][0]["gap_percent"] == 10);
  CHECK(j["stages"][0]["pieces"] == 12);
  CHECK(j["turn_overs_against_load"].size() == 2);
  CHECK(j["turn_overs_against_load"][1]["turn_overs_a_pass"] == 2);
  CHECK(j["passes_tried"][0]["doses"].size() == 2);
  CHECK(j["in_words"]["how_good"].get<std::string>().find("at most 10 % more") != std::string::npos);
}

TEST_CASE("a stage that was done before the plan is told in the document and not said to hold or break a limit",
          "[json]") {
  Plan p = some_plan();
  CHECK(Json::parse(plan_document(p, "0"))["stages"][0]["passes_limits"].is_boolean());
  p.stages[0].done = true;
  const auto stage = Json::parse(plan_document(p, "0"))["stages"][0];
  CHECK(stage["done"] == true);
  CHECK(stage["passes_limits"].is_null());
  CHECK(stage["worst_use"].is_null());
  CHECK_FALSE(stage["mean_pull_N_per_m"]["warp"]["top"].is_null());
}

TEST_CASE("the document says where the frame gave way and how many steps of a search found no equilibrium", "[json]") {
  Plan p = some_plan();
  p.orders[0].gave_way = true;
  p.searched[0].unsolved = 3;
  const auto j = Json::parse(plan_document(p, "0"));
  CHECK(j["orders"][0]["gave_way"] == true);
  for (const auto* stand_in : {"worst_use", "worst_slip_mm", "worst_twist_deg",
                               "worst_pull_difference_chordwise_N_per_m", "worst_pull_difference_spanwise_N_per_m"}) {
    INFO(stand_in);
    CHECK(j["orders"][0][stand_in].is_null());
  }
  CHECK(j["search"]["stages"][0]["model_steps_unsolved"] == 3);
}

TEST_CASE("the document has every key that is promised", "[json]") {
  const auto j = Json::parse(plan_document(some_plan(), "0"));
  for (const auto* key : {"format", "program", "case",          "quick",  "replayed", "hottest_safe", "limits",
                          "orders", "search",  "stages",        "steps",  "heat",     "chances",      "zones",
                          "bounds", "solve",   "defaults_used", "doubts", "notes",    "cautions"})
    CHECK(j.contains(key));
  CHECK(j["hottest_safe"]["stage_degF"] == 250);
  CHECK(j["limits"][0]["stage_degF"] == 300);
  CHECK(j["limits"][0]["use_plus_minus"] == 0.02);
  CHECK(j["accuracy"] == "normal");
  CHECK(j["quick"] == false);
  const auto& study = j["limits"][0]["study"];
  CHECK(study["approach"] == "settling");
  CHECK(study["order"] == 1.6);
  CHECK(study["extrapolated"] == 0.835);
  REQUIRE(study["meshes"].size() == 3);
  CHECK(study["meshes"][2]["edge_mm"] == 10);
  CHECK(study["meshes"][2]["value"] == 0.83);
  CHECK(study["zones"][0]["parts"] == 2);
  CHECK(study["zones"][0]["change"] == -0.01);
  CHECK(study["gave_way"] == false);
  REQUIRE(j["error_bars_from"].size() == 4);
  CHECK(j["error_bars_from"][2]["nodes"] == 8000);
  CHECK(j["error_bars_from"][3]["zone_parts"] == 2);
  // Slip stands in mm, its study too; a number that was not studied has no bar.
  CHECK(j["stages"][0]["worst_slip_plus_minus_mm"] == 20);
  CHECK(j["stages"][0]["studies"]["worst_slip_mm"]["extrapolated"] == 835);
  CHECK(j["stages"][0]["mean_pull_plus_minus_N_per_m"]["chordwise"]["top"].is_null());
  CHECK(j["stages"][0]["studies"]["mean_pull_N_per_m"]["spanwise"]["bottom"].is_null());
  CHECK(j["steps"][0]["zone"] == "T1");
  CHECK(j["steps"][0]["dwell_s"] > 0.1);
  CHECK(j["steps"][0]["dwell_s"] < 2);
  CHECK(j["steps"][1]["dwell_s"] > 2);
  CHECK(j["steps"][1]["dwell_over_nose_s"].is_null());
  CHECK(j["heat"][0]["passes"][0]["dose_asked"] == 0.25);
  CHECK(j["heat"][1]["passes_needed_open"]["share_done_by_passes"].size() == 5);
  CHECK(j["chances"].is_null());
  CHECK(j["steps"][1]["bay"] == 1);
  CHECK(j["solve"]["mesh_change_percent"] == 2);
  CHECK(j["solve"]["zone_change_percent"].is_null());
  for (const auto* key : {"nodes", "steps", "worst_residual_N", "tension_error_bound_N_per_m"})
    CHECK(j["solve"].contains(key));
}

TEST_CASE("a frame that gave way leaves null where there is no number, never 0", "[json]") {
  auto p = some_plan();
  p.stages[0].gave_way = true, p.stages[0].settled = false;
  p.stages[0].worst_use = 2;
  p.limits.push_back({Limit::buckling, {}, Moment::on_the_way, 0, 1, 2, 2, 0, 0, true});
  p.limits.back().gave_way = true;
  p.orders[0].unevenness_final.reset(), p.orders[0].pull_spread_along_span.reset();
  p.bounds = {{RibTie::free, {0.5, std::nullopt}, std::nullopt, 0.001}};
  const auto j = Json::parse(plan_document(p, "0"));
  const auto& s = j["stages"][0];
  CHECK(s["gave_way"] == true);
  for (const auto* key : {"worst_use", "loose_share", "loose_zones", "twist_deg", "buckling_factor", "buckling_shape"})
    CHECK(s[key].is_null());
  for (const auto* way : {"warp", "fill", "chordwise", "spanwise"})
    for (const auto* side : {"top", "bottom"}) CHECK(s["mean_pull_N_per_m"][way][side].is_null());
  for (const auto* way : {"chordwise", "spanwise"}) CHECK(s["unevenness"][way]["top"].is_null());
  for (const auto* key : {"value", "use", "use_plus_minus"}) CHECK(j["limits"].back()[key].is_null());
  CHECK(j["limits"][0]["use"] == 0.83);
  CHECK(j["orders"][0]["unevenness_final"].is_null());
  CHECK(j["orders"][0]["pull_spread_along_span_N_per_m"].is_null());
  CHECK(j["bounds"][0]["worst_use_by_stage"][1].is_null());
}

TEST_CASE("loose cloth has keys of its own: the sentence at the answer, the zones at their stage", "[json]") {
  auto p = some_plan();
  auto j = Json::parse(plan_document(p, "0"));
  CHECK(j["hottest_safe"]["loose_cloth"].is_null());
  CHECK(j["stages"][0]["loose_zones"] == Json::array());
  p.advice.loose = LooseCloth{0, {1}};
  p.stages[0].loose_zones = {1};
  j = Json::parse(plan_document(p, "0"));
  CHECK(j["hottest_safe"]["loose_cloth"] ==
        "Loose cloth after 250 °F (121 °C): all of the bottom with next to no pull.");
  CHECK(j["stages"][0]["loose_zones"] == Json::array({"B1"}));
}

TEST_CASE("a number whose frame gave way on another mesh has no bar, and says so", "[json]") {
  auto p = some_plan();
  p.stages[0].slip_study.gave_way = true;
  const auto j = Json::parse(plan_document(p, "0"));
  CHECK(j["stages"][0]["worst_slip_plus_minus_mm"].is_null());
  CHECK(j["stages"][0]["studies"]["worst_slip_mm"]["gave_way"] == true);
}

TEST_CASE("a wavering number has no order", "[json]") {
  auto p = some_plan();
  p.limits[0].study.approach = Approach::wavering;
  p.limits[0].study.order = 0;
  const auto j = Json::parse(plan_document(p, "0"));
  CHECK(j["limits"][0]["study"]["approach"] == "wavering");
  CHECK(j["limits"][0]["study"]["order"].is_null());
}

TEST_CASE("steps above the hottest safe stage are marked as not to be ironed", "[json]") {
  auto p = some_plan();
  auto j = Json::parse(plan_document(p, "0"));
  CHECK(j["steps"][0]["to_be_ironed"] == true);
  CHECK(j["steps"][1]["to_be_ironed"] == false);
  p.ceiling.reset();
  j = Json::parse(plan_document(p, "0"));
  CHECK(j["hottest_safe"]["stage_degF"].is_null());
  CHECK(j["steps"][0]["to_be_ironed"] == false);
}

TEST_CASE("the same plan gives the same bytes, wherever its case lies", "[json]") {
  auto p = some_plan(), q = some_plan();
  p.the_case.file = "here/case.toml";
  q.the_case.file = "there/case.toml";
  CHECK(plan_document(p, "0") == plan_document(q, "0"));
}

TEST_CASE("a result that is no number never becomes a document", "[json]") {
  auto p = some_plan();
  p.limits[0].use = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(plan_document(p, "0"), std::logic_error);
  p = some_plan();
  p.solve.worst_residual = std::numeric_limits<double>::infinity();
  CHECK_THROWS_AS(plan_document(p, "0"), std::logic_error);
}

TEST_CASE("numbers are kept to six digits", "[json]") {
  CHECK(json_number(1.0 / 3, "third").dump() == "0.333333");
  CHECK(json_number(-0.0, "zero").dump() == "0.0");
  CHECK(json_number(250.0, "stage").dump() == "250.0");
}

TEST_CASE("a stage says how the frame would buckle and what the profile loses, or that there is nothing to say",
          "[json]") {
  auto p = some_plan();
  auto stage = Json::parse(plan_document(p, "0"))["stages"][0];
  CHECK(stage["buckling_shape"].is_null());
  CHECK(stage["sag_between_ribs"]["worst"].is_null());
  p.stages[0].buckling_mode = BucklingMode{3.5, Moment::released, {Place::Kind::trailing_edge}, {}, {}, 1e-9, true};
  p.stages[0].thickness_loss = {0.004, 0.003, 0.001, 0.04, 2, 0.25};
  p.stages[0].thickness_loss_by_bay = {p.stages[0].thickness_loss};
  stage = Json::parse(plan_document(p, "0"))["stages"][0];
  CHECK(stage["buckling_shape"]["factor"] == 3.5);
  CHECK(stage["buckling_shape"]["moves_most"] == "trailing edge at 0.0 in (0 mm) from the root");
  CHECK(stage["buckling_shape"]["least_proven"] == true);
  const auto sag = stage["sag_between_ribs"]["worst"];
  CHECK(sag["loss_mm"] == 4);
  CHECK(sag["share_of_thickness_percent"] == 10);
  CHECK(sag["bay"] == 3);
  CHECK(sag["chord_percent"] == 25);
  CHECK(stage["sag_between_ribs"]["by_bay"].size() == 1);
}
