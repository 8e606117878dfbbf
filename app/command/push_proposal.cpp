// Before the readings: which weights to hang where.
#include "app/command/push_bench.hpp"
#include "app/text/quoted.hpp"
#include "shop/push_choice.hpp"
#include "viz/words/print.hpp"
#include "viz/words/push_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

namespace evenpull {
namespace {

PushSlip slip_of_choice(const PushBench& b, const PushChoice& choice) {
  PushSlip slip;
  const Case& c = b.the_case();
  slip.title = c.title;
  slip.headline = "Hang these weights, read what moves";
  slip.heads = {"", "weight", "place", "expect (95 of 100)", "read"};
  slip.shares = {0.06, 0.15, 0.27, 0.38, 0.14};
  add_frame_view(b, slip);
  PushMarks marks(b, slip);
  for (const ChosenPush& p : choice.pushes) marks.weight(p.load);
  for (const ChosenPush& p : choice.pushes) {
    const std::string number = marks.read(p.load);
    for (const ChosenRead& r : p.reads) {
      const bool own = &r == &p.reads.front();
      slip.rows.push_back({own ? number : marks.read(r.place), own ? viz::push_weight_text(p.kilograms) : "same",
                           viz::frame_place_text(c, r.place), viz::expected_movement_text(r.down, r.low, r.high),
                           "_____"});
    }
  }
  slip.notes = viz::push_how_to_sentences(b.held, b.errors.reading);
  for (std::string& s : viz::push_choice_sentences(c, choice, b.errors.reading)) slip.notes.push_back(std::move(s));
  return slip;
}

Json json_of_choice(const PushBench& b, const PushChoice& choice, const PushSlip& slip) {
  auto pushes = Json::array();
  for (const ChosenPush& p : choice.pushes) {
    auto reads = Json::array();
    for (const ChosenRead& r : p.reads)
      reads.push_back({{"at", viz::frame_place_text(b.the_case(), r.place)},
                       {"expected_m", json_number(r.down, "expected")},
                       {"low_m", json_number(r.low, "low")},
                       {"high_m", json_number(r.high, "high")}});
    pushes.push_back({{"weight_kg", json_number(p.kilograms, "weight")},
                      {"at", viz::frame_place_text(b.the_case(), p.load)},
                      {"use_of_allowable_stress", json_number(p.use, "use")},
                      {"reads", reads}});
  }
  Json j = push_head_json(b);
  j["proposed"] = pushes;
  j["notes"] = slip.notes;
  return j;
}

std::string next_command(const Request& r, const PushBench& b, const PushChoice& choice) {
  if (choice.pushes.empty()) return "";
  const ChosenPush& p = choice.pushes.front();
  return fmt::format("\n  Then: evenpull push {} --push \"{} kg at {}: {} mm\", one for each weight.\n",
                     shown_file(r.case_file), print_number(p.kilograms), viz::typed_place_text(b.the_case(), p.load),
                     viz::number_text(1e3 * p.reads.front().down, 1));
}

}  // namespace

PushResult propose_pushes(const Request& r, PushBench& b) {
  const PushChoice choice = choose_pushes(b.the_case(), *b.frame, r.push.each_kind, b.errors);
  if (choice.pushes.empty())
    throw CaseFileError(
        r.case_file, {}, "",
        "has no place where even 100 g would load the bare frame to less than a tenth of what it may bear and move "
        "it by less than 15 mm; check sections and units with evenpull survey");
  PushResult out;
  out.slip = slip_of_choice(b, choice);
  out.json = json_of_choice(b, choice, out.slip);
  out.after = next_command(r, b, choice);
  return out;
}

}  // namespace evenpull
