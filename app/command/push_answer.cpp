// After the readings: what they say of the frame, and what of it goes into the case.
#include "app/command/push_bench.hpp"
#include "app/input/case_parts.hpp"
#include "app/input/push_words_in.hpp"
#include "app/output/case_in_place.hpp"
#include "app/text/quoted.hpp"
#include "sequencer/sure/frame_range.hpp"
#include "shop/push_suspects.hpp"
#include "solver/frame/joint_turn.hpp"
#include "viz/words/joint_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/push_words.hpp"
#include "viz/words/terminal_text.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

constexpr std::size_t most_pushes_given = 20, most_hints = 3;
// A reading so many times beyond what any frame within four sigmas moves is a slip of the pen or of the unit; wrong
// sections and slack clamps stay within. Judgement.
constexpr double absurd_times = 4, sigmas_of_any = 4;
// Of the allowable stress: beyond it something may have bent for good, and the readings are not small movements.
// Judgement.
constexpr double use_told = 0.5;

int number_of_place(PushBench& b, const FramePlace& p) {
  constexpr double same = 1e-9;  // m
  for (std::size_t i = 0; i < b.places.size(); ++i)
    if (b.places[i].on_rib == p.on_rib && b.places[i].which == p.which && std::abs(b.places[i].at - p.at) < same)
      return static_cast<int>(i);
  b.places.push_back(p);
  return static_cast<int>(b.places.size()) - 1;
}

std::vector<PushTest> tests_of(PushBench& b, const std::vector<TypedPush>& typed) {
  std::vector<PushTest> out;
  for (const TypedPush& t : typed) {
    PushTest test{{number_of_place(b, t.place), t.newtons}, {}};
    for (const TypedReading& r : t.readings) test.readings.push_back({number_of_place(b, r.place), r.down});
    out.push_back(std::move(test));
  }
  b.frame->set_places(b.places);
  return out;
}

std::vector<PushLoad> loads_of(const std::vector<PushTest>& tests) {
  std::vector<PushLoad> out;
  for (const PushTest& t : tests) out.push_back(t.load);
  return out;
}

std::vector<Pushed> at_end_of_range(const PushBench& b, const std::vector<PushTest>& tests, JointEnd end) {
  const Case& c = b.the_case();
  FrameChange change;
  change.stiffness.fill(std::exp((end == JointEnd::softest ? -1 : 1) * sigmas_of_any * c.spreads.member_stiffness));
  return b.frame->push(with_joints_at(c, end), change, loads_of(tests));
}

// Under the weight itself: what moved must be of the size that such a frame moves.
void refuse_absurd(const PushBench& b, const std::vector<TypedPush>& typed, const std::vector<PushTest>& tests) {
  constexpr double mm_in_inch = 25.4;
  const auto soft = at_end_of_range(b, tests, JointEnd::softest), stiff = at_end_of_range(b, tests, JointEnd::stiffest);
  for (std::size_t t = 0; t < tests.size(); ++t) {
    const auto at = static_cast<std::size_t>(tests[t].load.place);
    const double most = soft[t].down[at], least = stiff[t].down[at], read = tests[t].readings.front().down;
    const bool large = read > absurd_times * most + b.errors.reading,
               small = read < least / absurd_times - b.errors.reading;
    if (!large && !small) continue;
    const double other_unit = large ? read / mm_in_inch : read * mm_in_inch;
    const bool unit = other_unit > least / absurd_times && other_unit < absurd_times * most;
    throw CaseFileError(
        "--push", {}, "",
        fmt::format(
            "{} says that the place went down by {}; by this case it goes down by {} to {} under that weight, whatever "
            "its joints. {}",
            in_quotes(typed[t].text), viz::push_movement_text(read), viz::push_movement_text(least),
            viz::push_movement_text(most),
            unit ? (large ? "It looks like millimetres written as inches: check the unit"
                          : "It looks like inches written as millimetres: check the unit")
                 : "Check the weight, its place and the reading, and the sections of the case"));
  }
}

struct Found {
  std::vector<TypedPush> typed;
  std::vector<PushTest> tests;
  PushAnswer answer;
  std::vector<double> expected;  ///< as stated [m]
  double most_use = 0;
  std::vector<PushSuspect> suspects;
  int most_telling = 0;
};

std::vector<TypedPush> typed_pushes(const PushBench& b, const PushRequest& q) {
  if (q.pushes.size() > most_pushes_given)
    throw CaseFileError("--push", {}, "",
                        fmt::format("is given {} times; {} are the most", q.pushes.size(), most_pushes_given));
  std::vector<TypedPush> out;
  for (const std::string& text : q.pushes) out.push_back(push_of_words(text, "--push", b.the_case(), *b.frame));
  return out;
}

Found found_of(PushBench& b, const PushRequest& q) {
  Found f;
  const Case& c = b.the_case();
  f.typed = typed_pushes(b, q);
  f.tests = tests_of(b, f.typed);
  refuse_absurd(b, f.typed, f.tests);
  const auto stated = b.frame->push(c, {}, loads_of(f.tests), true);
  for (std::size_t t = 0; t < f.tests.size(); ++t) {
    f.most_use = std::max(f.most_use, stated[t].use);
    for (const PushReading& r : f.tests[t].readings)
      f.expected.push_back(stated[t].down[static_cast<std::size_t>(r.place)]);
  }
  const PushSurface surface(
      b.factors, [&](const Eigen::VectorXd& z) { return push_movements(*b.frame, c, b.factors, f.tests, z); });
  f.answer = what_pushes_say(surface, f.tests, b.errors);
  f.most_telling = most_telling_member(c, *b.frame, b.factors, f.tests, b.errors);
  if (!f.answer.agrees())
    f.suspects = push_suspects(c, *b.frame, b.places, b.factors, surface, f.tests, b.errors, f.answer, most_hints);
  return f;
}

// The stiffness and its spread, and where joints turned out, as [measured_frame] takes them.
struct ForCase {
  double stiffness = 1, off_by = 0;
  struct Joint {
    std::string word;
    double at = 0, low = 0, high = 0;  ///< places in the range; 95 of 100 between
  };
  std::vector<Joint> joints;
};

ForCase for_case(const PushBench& b, const Found& f) {
  ForCase out;
  const double spread = b.the_case().spreads.member_stiffness;
  for (std::size_t i = 0; i < b.factors.size(); ++i) {
    const PushKnown& k = f.answer.factors[i];
    if (b.factors[i].what == PushFactor::What::all_members)
      out.stiffness = std::exp(spread * k.mean), out.off_by = std::max(least_measured_spread, spread * k.deviation);
    if (b.factors[i].what == PushFactor::What::joints)
      out.joints.push_back({viz::joint_word(b.factors[i].joint), place_of_sigmas(k.mean), place_of_sigmas(k.low),
                            place_of_sigmas(k.high)});
  }
  return out;
}

std::string write_into(const Request& r, const PushBench& b, const Found& f) {
  const ForCase found = for_case(b, f);
  const auto edit = [](const char* key, std::string value) {
    return CaseEdit{CaseEdit::Kind::set_key, "measured_frame", key, std::move(value), ""};
  };
  std::vector<CaseEdit> edits{edit("member_stiffness", fmt::format("{:.3f}", found.stiffness)),
                              edit("off_by", fmt::format("\"{:.1f} %\"", std::ceil(1e3 * found.off_by) / 10))};
  if (!found.joints.empty()) {
    std::string value;
    // Ends outwards: what is written is never narrower than what was found.
    for (const ForCase::Joint& j : found.joints)
      value += fmt::format("{}\"{}\" = {{ at = \"{:.0f} %\", low = \"{:.0f} %\", high = \"{:.0f} %\" }}",
                           value.empty() ? "" : ", ", j.word, 100 * j.at, std::floor(100 * j.low),
                           std::ceil(100 * j.high));
    edits.push_back(edit("joints", "{ " + value + " }"));
  }
  return put_case_in_place(changed_case(r.push.into, edits, "what the weights said of the frame"), "push").string();
}

PushSlip slip_of_answer(const PushBench& b, const Found& f) {
  PushSlip slip;
  const Case& c = b.the_case();
  const Panel& panel = b.frame->panel();
  slip.title = c.title;
  slip.headline = f.answer.agrees() ? "What the readings say" : "The readings contradict the case";
  slip.heads = {"", "weight", "place", "read [mm]", "as stated", "best fit"};
  slip.shares = {0.06, 0.17, 0.32, 0.15, 0.15, 0.15};
  slip.emphasised = -1;
  add_frame_view(b, slip);
  PushMarks marks(b, slip);
  for (const TypedPush& t : f.typed) marks.weight(t.place);
  std::size_t i = 0;
  const auto mm = [](double down) { return viz::number_text(1e3 * down, 2); };
  for (const TypedPush& t : f.typed) {
    const std::string number = marks.read(t.place);
    for (const TypedReading& r : t.readings) {
      const bool own = &r == &t.readings.front();
      slip.rows.push_back({own ? number : marks.read(r.place),
                           own ? viz::push_weight_text(t.newtons / gravity) : "same", viz::frame_place_text(c, r.place),
                           mm(r.down), mm(f.expected[i]), mm(f.answer.explained[i])});
      ++i;
    }
  }
  slip.factor_heads = {"unknown", "before (95 of 100)", "now (95 of 100)"};
  for (std::size_t k = 0; k < b.factors.size() && f.answer.agrees(); ++k) {
    const viz::PushFactorRow row = viz::push_factor_row(c, panel, b.factors[k], f.answer.factors[k]);
    slip.factors.push_back({row.what, row.before, row.now});
  }
  slip.warnings = viz::push_misfit_sentences(c, panel, b.held, f.answer, f.suspects, f.most_telling);
  if (f.most_use > use_told)
    slip.warnings.push_back(
        fmt::format("A weight loads a member to {} of what it may bear by this case: look whether it went back "
                    "to where it was. What is bent for good counts as soft here.",
                    viz::percent_text(f.most_use)));
  if (f.answer.agrees()) slip.notes = viz::push_factor_sentences(c, panel, b.factors, f.answer);
  slip.notes.push_back(fmt::format("Held {}. A reading counts as good to {} and 2 % (one sigma); down is positive.",
                                   viz::push_held_text(b.held), print_length(b.errors.reading)));
  return slip;
}

Json json_of_answer(const PushBench& b, const Found& f, const PushSlip& slip) {
  auto readings = Json::array(), factors = Json::array();
  std::size_t i = 0;
  for (const TypedPush& t : f.typed)
    for (const TypedReading& r : t.readings) {
      readings.push_back({{"weight_kg", json_number(t.newtons / gravity, "weight")},
                          {"hung_at", viz::frame_place_text(b.the_case(), t.place)},
                          {"read_at", viz::frame_place_text(b.the_case(), r.place)},
                          {"down_m", json_number(r.down, "down")},
                          {"sigma_m", json_number(f.answer.off[i], "sigma")},
                          {"as_stated_m", json_number(f.expected[i], "as_stated")},
                          {"best_fit_m", json_number(f.answer.explained[i], "best_fit")}});
      ++i;
    }
  for (std::size_t k = 0; k < b.factors.size(); ++k) {
    const PushKnown& known = f.answer.factors[k];
    const viz::PushFactorRow row = viz::push_factor_row(b.the_case(), b.frame->panel(), b.factors[k], known);
    factors.push_back({{"what", row.what},
                       {"sigmas_mean", json_number(known.mean, "mean")},
                       {"sigmas_deviation", json_number(known.deviation, "deviation")},
                       {"sigmas_low", json_number(known.low, "low")},
                       {"sigmas_high", json_number(known.high, "high")}});
    if (b.factors[k].what == PushFactor::What::all_members || b.factors[k].what == PushFactor::What::group)
      factors.back()["times_stated"] =
          json_number(std::exp(b.the_case().spreads.member_stiffness * known.mean), "times");
    if (b.factors[k].what == PushFactor::What::joints) {
      const auto alpha = [&](double z) {
        return viz::alpha_of_joints(b.the_case(), b.frame->panel(), b.factors[k].joint, z);
      };
      factors.back()["over_member_low"] = json_number(alpha(known.low), "low");
      factors.back()["over_member_high"] = json_number(alpha(known.high), "high");
    }
  }
  Json j = push_head_json(b);
  j["readings"] = readings;
  j["agrees"] = f.answer.agrees();
  j["misfit"] = json_number(f.answer.misfit, "misfit");
  j["misfit_allowed"] = json_number(f.answer.allowed, "allowed");
  j["factors"] = factors;
  j["warnings"] = slip.warnings;
  j["notes"] = slip.notes;
  return j;
}

}  // namespace

PushResult answer_pushes(const Request& r, PushBench& b) {
  const Found f = found_of(b, r.push);
  PushResult out;
  out.slip = slip_of_answer(b, f);
  out.json = json_of_answer(b, f, out.slip);
  if (r.push.into.empty() || !f.answer.agrees()) return out;
  const std::string kept = write_into(r, b, f);
  out.json["wrote"] = true;
  out.after = fmt::format(
      "\n  Written into {}; as it was: {}. Give all weights of one frame in one go: what an earlier push wrote "
      "does not count in the next.\n",
      shown_file(r.push.into), on_one_line(kept));
  return out;
}

}  // namespace evenpull
