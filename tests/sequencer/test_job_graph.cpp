#include "sequencer/orders/families.hpp"
#include "sequencer/orders/job_graph.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

struct Job {
  Case the_case = sample::aileron(3, 0.9, 0.3);
  Panel panel = build_panel(the_case, {120});
  std::vector<Step> steps = steps_of(the_case, panel, order_families(panel)[1]);
};

}  // namespace

TEST_CASE("the graph of a job has a layer for every pass and leads only forward") {
  const Job j;
  const JobGraph g = job_graph(j.the_case, j.panel, 2);
  const std::size_t zones = j.panel.zones.size(), layers = 3 + 2 + 2;
  REQUIRE(boost::num_vertices(g) == layers * zones);
  // Within a layer each zone may follow each other one, and each may begin the next layer.
  CHECK(boost::num_edges(g) == layers * zones * (zones - 1) + (layers - 1) * zones * zones);
  for (auto [arc, end] = boost::edges(g); arc != end; ++arc) {
    const std::size_t from = boost::source(*arc, g) / zones, to = boost::target(*arc, g) / zones;
    REQUIRE((to == from || to == from + 1));
  }
}

TEST_CASE("a job's way through its graph has the turn-overs of its steps") {
  const Job j;
  const Route r = route_through(job_graph(j.the_case, j.panel, 2), j.the_case, j.panel, j.steps);
  CHECK(r.turn_overs == turn_overs(j.panel, j.steps, 2));
  CHECK(r.travel > 0);
  CHECK(r.seconds > r.turn_overs * turn_over_time(j.the_case));
}

TEST_CASE("steps that go back to an earlier pass are no way through the graph") {
  Job j;
  std::swap(j.steps.front(), j.steps.back());
  CHECK_THROWS_AS(route_through(job_graph(j.the_case, j.panel, 2), j.the_case, j.panel, j.steps),
                  std::invalid_argument);
}

TEST_CASE("turning over costs nothing where both sides can be reached, and more for a clamped or larger panel") {
  Case c = sample::aileron(3, 0.9, 0.3);
  const double clamped = turn_over_time(c);
  for (Support& s : c.while_ironed) s.kind = SupportKind::hinge;
  const double loose = turn_over_time(c);
  CHECK(loose < clamped);
  CHECK(turn_over_time(sample::aileron(6, 1.8, 0.6)) > clamped);
  c.both_sides_reachable = true;
  CHECK(turn_over_time(c) == 0);
}

TEST_CASE("the drawing of the order names every zone of every pass that is ironed and numbers its steps") {
  const Job j;
  Plan plan;
  plan.the_case = j.the_case;
  plan.panel = j.panel;
  plan.steps = j.steps;
  plan.ceiling = 0;
  const auto label = [](const PassZone& v) {
    return "stage " + std::to_string(v.stage) + " pass " + std::to_string(v.pass);
  };
  const std::string dot = order_graph(plan, label);
  const std::size_t ironed = 3 * j.panel.zones.size();
  CHECK(dot.rfind("digraph", 0) == 0);
  std::size_t nodes = 0;
  for (std::size_t at = dot.find("pass "); at != std::string::npos; at = dot.find("pass ", at + 1)) ++nodes;
  CHECK(nodes >= ironed);
  CHECK(dot.find("label=\"" + std::to_string(ironed - 1) + "\"") != std::string::npos);
  CHECK(dot.find("label=\"" + std::to_string(ironed) + "\"") == std::string::npos);
  CHECK(dot.find("stage 2") == std::string::npos);
  plan.ceiling.reset();
  CHECK(order_graph(plan, label).find("pass 1") == std::string::npos);  // nothing is to be ironed
}
