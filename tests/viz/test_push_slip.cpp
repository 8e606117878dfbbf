#include "tests/viz/reading.hpp"
#include "viz/sheet/push_slip.hpp"
#include "viz/words/push_words.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::reading;

namespace {

// An invented rudder of four bays.
PushSlip frame_to_weigh() {
  PushSlip s;
  s.title = "Rudder (invented)";
  s.headline = "Hang these weights, read what moves";
  s.heads = {"", "weight", "place", "expect (95 of 100)", "read"};
  s.shares = {0.06, 0.15, 0.27, 0.38, 0.14};
  s.members = {{{{0, 0}, {0, 1.2}}}, {{{0.5, 0}, {0.42, 1.2}}}};
  for (const double y : {0.0, 0.3, 0.6, 0.9, 1.2}) s.members.push_back({{{0, y}, {0.5, y}}, true});
  s.supports = {{0, 0}, {0, 1.2}};
  for (int i = 1; i <= 3; ++i) {
    s.marks.push_back({0.5, 0.3 * i, std::to_string(i), true});
    s.rows.push_back({std::to_string(i), viz::push_weight_text(1), "trailing edge tube, rib " + std::to_string(i + 1),
                      viz::expected_movement_text(0.9e-3, 0.7e-3, 1.2e-3), "_____"});
  }
  s.notes = viz::push_how_to_sentences(Held::while_ironed, 0.25e-3);
  s.notes.push_back("These weights tell little of the stiffness of the members, the joints (welded).");
  s.notes.push_back("Under 0.08 in (2 mm) read with a dial gauge and say what it is good to: --gauge \"0.03 mm\".");
  return s;
}

}  // namespace

TEST_CASE("three weights on the bare frame fit one half page of either paper, with room to write") {
  for (const Paper paper : {Paper::letter, Paper::a4}) {
    Folder folder;
    write_push_slip(frame_to_weigh(), paper, "0.0.0", folder / "push.pdf");
    CHECK(pages(folder / "push.pdf").size() == 1);
  }
}
