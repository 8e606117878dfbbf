#include "app/command/progress.hpp"
#include "sequencer/planner/meter.hpp"
#include "viz/words/part_words.hpp"

#include <catch2/catch.hpp>

#include <initializer_list>

using namespace evenpull;

TEST_CASE("time left is told from what is done so far, and not while that is next to nothing", "[progress]") {
  CHECK(viz::time_left(0.5, 60) == "about 60 s left");
  CHECK(viz::time_left(0.25, 60) == "about 3 min left");
  CHECK(viz::time_left(0.4, 100) == "about 2.5 min left");
  CHECK(viz::time_left(0.9, 18) == "a few seconds left");
  CHECK(viz::time_left(0.01, 10).empty());
  CHECK(viz::time_left(1, 10).empty());
}

TEST_CASE("the line of the progress names what is computed, and fits the terminal", "[progress]") {
  CHECK(progress_line(0.5, "chances", 60, 80) == "[############............]  50 %  chances, about 60 s left");
  CHECK(progress_line(0, "looking for an order", 0, 80) == "[........................]   0 %  looking for an order");
  CHECK(progress_line(2, "chances", 60, 80).find("100 %") != std::string::npos);
  for (int columns : {1, 20, 40}) CHECK(static_cast<int>(progress_line(0.5, "chances", 60, columns).size()) < columns);
}

TEST_CASE("the parts of a plan follow one another from nothing to the whole", "[progress]") {
  for (const Accuracy a : {Accuracy::quick, Accuracy::normal, Accuracy::fine}) {
    double at = 0;
    for (const PlanPart p : {PlanPart::passes, PlanPart::search, PlanPart::ranking, PlanPart::finalists,
                             PlanPart::in_full, PlanPart::chances, PlanPart::setting}) {
      const Span s = span_of(p, a);
      CHECK(s.from == at);
      CHECK(s.to >= s.from);
      at = s.to;
    }
    CHECK(at == 1);
  }
}
