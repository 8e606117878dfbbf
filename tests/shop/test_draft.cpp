// Questions of a draft, what is usual, and answers that cannot stand beside each other.
#include "shop/draft/drafted_case.hpp"
#include "shop/draft/measure_first.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;

namespace {

constexpr double in = 0.0254;

DraftAnswers draft_usual(DraftKind kind) {
  DraftAnswers a;
  DraftAnswer k;
  k.value = static_cast<int>(kind);
  a.set(Ask::kind, k);
  for (const DraftQuestion& q : draft_questions())
    if (!a.find(q.ask) && is_asked(q, a)) a.set(q.ask, usual_answer(q, a));
  return a;
}

DraftAnswers with_size(DraftAnswers a, Ask ask, double value) {
  DraftAnswer s;
  s.sizes = {written_like(value, "in")};
  a.set(ask, s);
  return a;
}

DraftAnswers with_places(DraftAnswers a, Ask ask, const std::vector<double>& inches) {
  DraftAnswer s;
  for (const double v : inches) s.sizes.push_back(written_like(v * in, "in"));
  a.set(ask, s);
  return a;
}

DraftAnswers with_word(DraftAnswers a, Ask ask, int value) {
  DraftAnswer w;
  w.value = value;
  a.set(ask, w);
  return a;
}

/// Answers under which a question is asked, made from usual ones.
void ask_for(const DraftQuestion& q, DraftAnswers& a) {
  for (const DraftWhen& w : q.when) {
    const DraftQuestion* earlier = question_of(w.ask, a.kind());
    REQUIRE(earlier);
    ask_for(*earlier, a);
    if (w.differs_from) a = with_size(a, w.ask, 0.9 * a.size(*w.differs_from));
    else a = with_word(a, w.ask, w.is.front());
  }
}

std::optional<DraftClash> clash_of(Ask ask, const DraftAnswers& a) {
  const auto t = trouble_with(ask, a);
  return t ? std::optional(t->clash) : std::nullopt;
}

}  // namespace

TEST_CASE("every question of a draft can be reached by each kind of structure that it is for", "[draft]") {
  for (const DraftQuestion& q : draft_questions())
    for (const DraftKind k : draft_kinds) {
      if (!holds(q.kinds, k)) continue;
      DraftAnswers a = draft_usual(k);
      ask_for(q, a);
      INFO(static_cast<int>(q.ask) << " of kind " << static_cast<int>(k));
      CHECK(is_asked(q, a));
    }
}

TEST_CASE("a question hangs only on answers that were asked before it", "[draft]") {
  std::vector<Ask> before;
  for (const DraftQuestion& q : draft_questions()) {
    const auto known = [&](Ask ask) { return std::find(before.begin(), before.end(), ask) != before.end(); };
    for (const DraftWhen& w : q.when) {
      CHECK(known(w.ask));
      if (w.differs_from) CHECK(known(*w.differs_from));
    }
    for (const DraftUsual& u : q.usual)
      if (u.as) CHECK(known(*u.as));
    before.push_back(q.ask);
  }
}

TEST_CASE("a kind of structure is asked each thing in one way, and has a usual answer that goes with the others",
          "[draft]") {
  for (const DraftKind k : draft_kinds) {
    const DraftAnswers a = draft_usual(k);
    const auto& all = draft_questions();
    for (const DraftQuestion& q : all) {
      if (!holds(q.kinds, k)) continue;
      CHECK(std::count_if(all.begin(), all.end(),
                          [&](const DraftQuestion& o) { return o.ask == q.ask && holds(o.kinds, k); }) == 1);
      CHECK(std::any_of(q.usual.begin(), q.usual.end(), [&](const DraftUsual& u) { return holds(u.kinds, k); }));
      if (is_asked(q, a)) CHECK_FALSE(trouble_with(q.ask, a));
    }
    const DraftedCase d = drafted_case(a);
    CHECK(d.given == 1);
    CHECK(d.usual > 20);
    CHECK(d.profile_at.size() == d.profile_height.size());
    CHECK(d.profile_at.back().size.value == d.chord.size.value);
  }
}

TEST_CASE("usual answers follow those that were given", "[draft]") {
  const DraftAnswers plain = draft_usual(DraftKind::aluminium_tube);
  const DraftAnswers a = with_usual_anew(with_size(with_size(plain, Ask::chord, 18 * in), Ask::span, 120 * in));
  CHECK(a.size(Ask::tip_chord) == Approx(18 * in));
  CHECK(a.at(Ask::bays).value == 10);
  CHECK(a.at(Ask::hinges).sizes.front().text == "12 in");
  CHECK(a.at(Ask::hinges).sizes.back().text == "108 in");
  const DraftAnswers metric = with_usual_anew([&] {
    DraftAnswers m = plain;
    DraftAnswer span;
    span.sizes = {{1.8, "1800 mm"}};
    m.set(Ask::span, span);
    return m;
  }());
  CHECK(metric.at(Ask::hinges).sizes.front().text == "180 mm");
}

TEST_CASE("answers that no panel can have together are told of the later one", "[draft]") {
  const DraftAnswers tube = draft_usual(DraftKind::steel_tube), wing = draft_usual(DraftKind::wing_bay);
  const DraftAnswers sheet = draft_usual(DraftKind::sheet_metal);
  CHECK(clash_of(Ask::leading_wall, with_size(tube, Ask::leading_wall, 0.6 * in)) == DraftClash::wall_over_half);
  CHECK(clash_of(Ask::tip_chord, with_size(tube, Ask::tip_chord, 40 * in)) == DraftClash::tip_chord_far_off);
  CHECK(clash_of(Ask::thickest, with_size(tube, Ask::thickest, 0.75 * in)) == DraftClash::thinner_than_member);
  CHECK(clash_of(Ask::thickest, with_size(tube, Ask::thickest, 9 * in)) == DraftClash::far_too_thick);
  CHECK(clash_of(Ask::horn, with_size(tube, Ask::horn, 61 * in)) == DraftClash::beyond_span);
  CHECK(clash_of(Ask::hinges, with_places(tube, Ask::hinges, {6, 61})) == DraftClash::beyond_span);
  CHECK(clash_of(Ask::hinges, with_places(tube, Ask::hinges, {54, 6})) == DraftClash::twice_there);
  CHECK(clash_of(Ask::rests, with_places(tube, Ask::rests, {0, 30})) == DraftClash::at_the_end);
  CHECK(clash_of(Ask::bays, with_word(with_size(tube, Ask::span, 10 * in), Ask::bays, 60)) ==
        DraftClash::bays_too_narrow);
  CHECK(clash_of(Ask::nose_depth, with_size(sheet, Ask::nose_depth, 13 * in)) == DraftClash::nose_out_of_range);
  CHECK(clash_of(Ask::seam, with_size(sheet, Ask::seam, 4 * in)) == DraftClash::seam_behind_nose);
  CHECK(clash_of(Ask::rear_spar_at, with_size(wing, Ask::rear_spar_at, 7 * in)) == DraftClash::not_behind);
  CHECK(clash_of(Ask::rear_spar_at, with_size(wing, Ask::rear_spar_at, 48 * in)) == DraftClash::beyond_chord);
  CHECK(clash_of(Ask::front_thickness, with_size(wing, Ask::front_thickness, 4 * in)) ==
        DraftClash::thinner_than_member);
}

TEST_CASE("ribs stand from 0 to the span, rising, and no closer than ribs can", "[draft]") {
  const DraftAnswers tube = with_word(draft_usual(DraftKind::steel_tube), Ask::even, draft_no);
  const auto of = [&](const std::vector<double>& y) {
    return clash_of(Ask::stations, with_places(tube, Ask::stations, y));
  };
  CHECK_FALSE(of({0, 20, 45, 60}));
  CHECK(of({1, 20, 60}) == DraftClash::first_station_not_zero);
  CHECK(of({0, 20, 20, 60}) == DraftClash::stations_not_rising);
  CHECK(of({0, 20, 20.5, 60}) == DraftClash::stations_too_close);
  CHECK(of({0, 20, 59}) == DraftClash::last_station_not_span);
  CHECK(of({0, 20, 60.5}) == DraftClash::last_station_not_span);
}

TEST_CASE("each size is changed by what a tape reads off wrong, and what follows from it goes along", "[draft]") {
  const DraftAnswers a = draft_usual(DraftKind::steel_tube);
  const auto changes = tape_changes(a);
  const auto of = [&](Ask ask) {
    const auto at = std::find_if(changes.begin(), changes.end(), [&](const TapeChange& c) { return c.ask == ask; });
    REQUIRE(at != changes.end());
    return *at;
  };
  CHECK(of(Ask::leading_wall).by == Approx(0.002 * in));
  CHECK(of(Ask::leading_tube).by == Approx(in / 64));
  CHECK(of(Ask::leading_tube).answers.size(Ask::thickest) == Approx(in + in / 64));
  CHECK(of(Ask::chord).by == Approx(in / 8));
  CHECK(of(Ask::cloth).by == Approx(0.32).margin(0.005));  // the spread of docs/data.md
  const TapeChange bay = of(Ask::stations);
  const auto& y = bay.answers.at(Ask::stations).sizes;
  CHECK(y[static_cast<std::size_t>(bay.rib)].value - y[static_cast<std::size_t>(bay.rib) - 1].value ==
        Approx(12 * in + in / 8));
  for (const TapeChange& c : changes)
    for (const DraftQuestion* q : asked_questions(c.answers)) CHECK_FALSE(trouble_with(q->ask, c.answers));
}

TEST_CASE("a change that clashes is taken the other way round", "[draft]") {
  // As thick as the tube already: a thicker tube would stand out.
  const DraftAnswers a = with_size(draft_usual(DraftKind::aluminium_tube), Ask::thickest, in);
  for (const TapeChange& c : tape_changes(a)) {
    if (c.ask == Ask::leading_tube) CHECK(c.by == Approx(-in / 64));
  }
}
