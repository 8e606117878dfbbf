// coupon: how to make a square of cloth; from its sags to the curve of that cloth, printed or put into a case.
#include "app/command/commands.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/cloth_defaults.hpp"
#include "app/input/coupon_text.hpp"
#include "app/input/typed.hpp"
#include "app/output/case_in_place.hpp"
#include "app/output/json_number.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/quoted.hpp"
#include "app/text/version.hpp"
#include "shop/coupon_curve.hpp"
#include "viz/sheet/coupon_slip.hpp"
#include "viz/words/print.hpp"
#include "viz/words/terminal_text.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace evenpull {
namespace {

constexpr double gravity_here = 9.80665;  // m/s^2, standard
// Usual sizes; what may be stated.
constexpr double inside_letter = 16 * 0.0254, inside_a4 = 0.4, disc_letter = 4 * 0.0254, disc_a4 = 0.1;
constexpr Range inside_range{0.15, 1.2, "400 mm (16 in) is usual"};
constexpr Range disc_range{0.015, 0.5, "100 mm (4 in) is usual"};
// As work.sag_reading.
constexpr Range sag_error_range{0.00002, 0.003, "0.1 mm (0.004 in) with a depth gauge, 0.5 mm with a rule are usual"};
// Two sigma of the pull of a cloth that nobody measured (docs/data.md).
constexpr double usual_low = 0.53, usual_high = 1.9;

/// What is worked on: sizes, and the cloth as it is known so far.
struct CouponJob {
  std::string title = "a square of your own cloth";
  viz::CouponSizes sizes;
  viz::CouponUnits units = viz::CouponUnits::inch;
  bool inside_assumed = false, disc_assumed = false, boards_assumed = false;
  double sag_error = coupon_error::sag;
  double stiffness = cloth_defaults::stiffness, poisson = cloth_defaults::poisson;
  std::vector<ShrinkPoint> curve;
  bool curve_stated = false, spread_stated_whole = false;
  std::optional<Case> the_case;
  WeightedSquare square() const { return {sizes.inside, sizes.disc / 2}; }
};

struct FoundStage {
  CouponStage stage;
  CouponPull read;  ///< before the boards
  double heaviest = 0;
  double low() const { return *stage.pull * std::exp(-sigmas_of_95 * stage.sigma); }
  double high() const { return *stage.pull * std::exp(sigmas_of_95 * stage.sigma); }
};

[[noreturn]] void refuse_coupon(const char* option, const std::string& sentence) {
  throw CaseFileError(option, {}, "", sentence);
}

void take_cloth(CouponJob& job, const std::string& file) {
  if (file.empty()) {
    const Units units;
    for (const auto& p : cloth_defaults::curve)
      job.curve.push_back(
          {units.parse(p.temperature, Quantity::temperature), {p.free_shrink, p.free_shrink}, {p.pull, p.pull}});
    return;
  }
  CaseFile read = read_case_file(file);
  job.title = read.value.title;
  job.curve = read.value.cloth.curve;
  job.curve_stated = read.places.at.count("cloth.curve") > 0;
  job.spread_stated_whole = read.places.at.count("spread.pull") > 0;
  job.stiffness = std::sqrt(read.value.cloth.stiffness.warp * read.value.cloth.stiffness.fill);
  job.poisson = read.value.cloth.poisson;
  job.the_case = std::move(read.value);
}

void take_sizes(CouponJob& job, const Request& r) {
  const CouponRequest& c = r.coupon;
  const bool a4 = r.paper == Paper::a4;
  job.units = a4 ? viz::CouponUnits::metric : viz::CouponUnits::inch;
  auto& s = job.sizes;
  s.inside = c.inside.empty() ? (a4 ? inside_a4 : inside_letter)
                              : Typed("--inside", c.inside).quantity(Quantity::length, inside_range);
  s.disc = c.disc.empty() ? (a4 ? disc_a4 : disc_letter)
                          : Typed("--disc", c.disc).quantity(Quantity::length, disc_range);
  if (s.disc < 2 * least_disc * s.inside || s.disc > 2 * largest_disc * s.inside)
    refuse_coupon("--disc", viz::disc_words(s, 2 * least_disc * s.inside, 2 * largest_disc * s.inside));
  const CouponBoards stiff = boards_for(s.inside, job.stiffness, job.poisson);
  const CouponBoards boards = c.boards.empty() ? stiff : coupon_boards(c.boards);
  s.board_height = boards.height, s.board_width = boards.width;
  const double cost = cost_of_boards(s.inside, boards, job.stiffness, job.poisson).expected;
  if (cost > boards_cost_too_much)
    refuse_coupon("--boards", viz::boards_too_thin_words(s, cost, boards_cost_too_much, stiff.width));
  if (!c.sag_reading.empty())
    job.sag_error = Typed("--sag-reading", c.sag_reading).quantity(Quantity::length, sag_error_range);
  job.inside_assumed = c.inside.empty(), job.disc_assumed = c.disc.empty(), job.boards_assumed = c.boards.empty();
}

CouponBoards boards_of(const CouponJob& job) { return {job.sizes.board_width, job.sizes.board_height}; }

CostOfBoards cost_of(const CouponJob& job) {
  return cost_of_boards(job.sizes.inside, boards_of(job), job.stiffness, job.poisson);
}

void refuse_implausible(const CouponJob& job, double temperature, const WeightReading& w) {
  const double pull = pull_of_reading(job.square(), w, job.stiffness);
  if (pull >= least_coupon_pull && pull <= most_coupon_pull) return;
  const auto sag = [&](double n) {
    return sag_of_square(job.square(), w.mass * gravity_here, n, pull_by_sagging(job.square(), job.stiffness));
  };
  refuse_coupon("--reading", viz::implausible_words({temperature, w.mass, w.sag, pull, least_coupon_pull,
                                                     most_coupon_pull, sag(most_coupon_pull), sag(least_coupon_pull)}));
}

FoundStage found_at(const CouponJob& job, const CouponWeights& given) {
  for (const WeightReading& w : given.weights) refuse_implausible(job, given.temperature, w);
  FoundStage out;
  out.read = coupon_pull(job.square(), given.weights, job.stiffness, job.sag_error);
  if (out.read.contradicts) {
    std::vector<viz::CouponSays> each;
    for (const WeightReading& w : given.weights)
      each.push_back({w.mass, w.sag, pull_of_reading(job.square(), w, job.stiffness)});
    refuse_coupon("--reading", viz::contradiction_words(given.temperature, each));
  }
  const CostOfBoards boards = cost_of(job);
  out.stage.temperature = given.temperature;
  out.stage.pull = out.read.pull / (1 - boards.expected);
  out.stage.sigma = std::hypot(out.read.sigma, boards.sigma);
  for (const WeightReading& w : given.weights) out.heaviest = std::max(out.heaviest, w.mass);
  return out;
}

std::vector<FoundStage> all_found(const CouponJob& job, const CouponRequest& c) {
  std::vector<FoundStage> out;
  for (const CouponWeights& w : coupon_readings(c.readings)) out.push_back(found_at(job, w));
  for (const CouponMarks& m : coupon_marks(c.marks)) {
    auto at = std::find_if(out.begin(), out.end(), [&](const FoundStage& f) {
      return std::abs(f.stage.temperature - m.temperature) < one_stage_within;
    });
    if (at == out.end()) {
      at = out.insert(out.end(), FoundStage{});
      at->stage.temperature = m.temperature;
    }
    at->stage.free_shrink = Yarns{1 - *m.warp_after / *m.warp_before, 1 - *m.fill_after / *m.fill_before};
  }
  std::sort(out.begin(), out.end(),
            [](const FoundStage& a, const FoundStage& b) { return a.stage.temperature < b.stage.temperature; });
  const double onset = job.curve.front().temperature;
  if (!out.empty() && out.front().stage.temperature <= onset)
    refuse_coupon(c.readings.empty() ? "--marks" : "--reading",
                  fmt::format("{} is not above {}, where the curve of the case begins to shrink",
                              viz::degrees_both(out.front().stage.temperature), viz::degrees_both(onset)));
  return out;
}

std::vector<std::string> falls_of(const std::vector<FoundStage>& found) {
  std::vector<std::string> out;
  const FoundStage* last = nullptr;
  for (const FoundStage& f : found) {
    if (!f.stage.pull) continue;
    if (last && falls_surely(last->read, f.read))
      out.push_back(viz::falling_words(last->stage.temperature, *last->stage.pull, f.stage.temperature, *f.stage.pull));
    last = &f;
  }
  return out;
}

/// Rounded up, so that what is written never promises more than was found.
double percent_up(double share) { return std::ceil(share * 1000 - 1e-6) / 10; }

std::string yarns_text(const Yarns& y, double scale, int decimals, const char* unit) {
  const auto one = [&](double v) { return fmt::format("\"{:.{}f} {}\"", v * scale, decimals, unit); };
  if (one(y.warp) == one(y.fill)) return one(y.warp);
  return fmt::format("{{ warp = {}, fill = {} }}", one(y.warp), one(y.fill));
}

/// As a person writes a stage: in whole degF where it is one, else so that it is read back as it was.
std::string temperature_text(double kelvin) {
  const double f = to_degF(kelvin), c = to_degC(kelvin);
  const auto near = [](double v) { return std::abs(v - std::round(v)) < 1e-5; };
  return near(f)   ? fmt::format("\"{:.0f} degF\"", f)
         : near(c) ? fmt::format("\"{:.0f} degC\"", c)
                   : fmt::format("\"{} degF\"", print_number(f, 7));
}

std::string row_note(const CouponRow& row, bool stated, bool shrink) {
  const double like = shrink ? row.shrink_like : row.pull_like;
  if (like == 0) return stated ? "as it was" : "usual, not measured";
  if (shrink ? row.shrink_measured : row.pull_measured) return "measured";
  const std::string what = stated ? "as it was" : "usual";
  if (shrink) return fmt::format("not measured: {}, scaled as at {}", what, viz::degrees_f(like));
  return fmt::format("not measured: {}, times {:.2f} as at {}", what, row.pull_ratio, viz::degrees_f(like));
}

std::string curve_text(const CouponJob& job, const CouponCurve& curve) {
  std::string out;
  for (const CouponRow& row : curve.rows) {
    const bool onset = &row == &curve.rows.front();
    out += std::string(out.empty() ? "" : "\n") + "[[cloth.curve]]\n";
    out += fmt::format("temperature = {}\n", temperature_text(row.point.temperature));
    const auto note = [&](bool shrink) {
      return onset ? std::string() : "  # " + row_note(row, job.curve_stated, shrink);
    };
    out += fmt::format("free_shrink = {}{}\n", yarns_text(row.point.free_shrink, 100, onset ? 0 : 2, "%"), note(true));
    out += fmt::format("pull = {}{}\n", yarns_text(row.point.pull, 1, 0, "N/m"), note(false));
    if (row.point.pull_common)
      out += fmt::format("pull_common = \"{:.1f} %\"  # one sigma, of a stage that was not measured\n",
                         percent_up(*row.point.pull_common));
  }
  return out;
}

std::vector<CaseEdit> spread_edits(const CouponJob& job, const CouponSpread& spread) {
  const auto set = [](const char* key, double share, const char* note) {
    return CaseEdit{CaseEdit::Kind::set_key, "spread", key, fmt::format("\"{:.1f} %\"", percent_up(share)), note};
  };
  std::vector<CaseEdit> out;
  if (job.spread_stated_whole) out.push_back({CaseEdit::Kind::remove_key, "spread", "pull", "", ""});
  out.push_back(set("pull_common", spread.common, "one sigma, by the coupon, of stages measured"));
  out.push_back(set("pull_of_stage", spread.of_stage, "readings of each stage"));
  out.push_back(set("pull_of_yarn", spread.of_yarn, "warp and fill, not measured apart"));
  return out;
}

std::vector<CaseEdit> edits_of(const CouponJob& job, const CouponCurve& curve) {
  std::vector<CaseEdit> out{{CaseEdit::Kind::replace_tables, "cloth.curve", "", curve_text(job, curve), ""}};
  if (curve.spread) {
    const auto spread = spread_edits(job, *curve.spread);
    out.insert(out.end(), spread.begin(), spread.end());
  }
  return out;
}

std::vector<std::string> notes_of(const CouponJob& job, const std::vector<FoundStage>& found,
                                  const CouponCurve& curve) {
  std::vector<std::string> out;
  const auto assumed = viz::sizes_assumed_words(job.sizes, job.inside_assumed, job.disc_assumed, job.boards_assumed);
  if (!assumed.empty()) out.push_back(assumed);
  bool pulls = false, shrinks = false;
  for (const FoundStage& f : found) {
    pulls = pulls || f.stage.pull, shrinks = shrinks || f.stage.free_shrink;
    if (!f.stage.pull) continue;
    if (f.read.added_by_sag > 0.02 * f.read.pull)
      out.push_back(viz::sagging_words(f.stage.temperature, f.read.added_by_sag, f.heaviest));
  }
  if (pulls) {
    const CostOfBoards boards = cost_of(job);
    out.push_back(viz::boards_words(job.sizes, boards.expected, boards.expected > boards_may_cost));
    out.push_back(viz::mean_of_yarns_words());
  }
  if (curve.spread) {
    std::vector<double> others;
    for (std::size_t i = 1; i < curve.rows.size(); ++i)
      if (!curve.rows[i].pull_measured) others.push_back(curve.rows[i].point.temperature);
    out.push_back(others.empty() ? viz::left_words(curve.spread->sum(), Spreads{}.pull())
                                 : viz::left_by_stage_words(curve.spread->sum(), curve.spread->sum_carried(), others));
  }
  if (shrinks) out.push_back(viz::spread_of_shrink_words());
  if (shrinks && !pulls) out.push_back(viz::shrink_says_nothing_words());
  return out;
}

std::string usual_sag(const CouponJob& job) {
  const double force = (job.units == viz::CouponUnits::inch ? 0.45359237 : 0.5) * gravity_here;
  const double k = pull_by_sagging(job.square(), job.stiffness);
  const auto sag = [&](const ShrinkPoint& p, double times) {
    const double pull = times * std::sqrt(p.pull.warp * p.pull.fill);
    return sag_of_square(job.square(), force, std::clamp(pull, least_coupon_pull, most_coupon_pull), k);
  };
  return viz::usual_sag_words(sag(job.curve.back(), usual_high), sag(job.curve[1], usual_low), job.units);
}

CouponSlip slip_of(const CouponJob& job, const std::vector<FoundStage>& found) {
  CouponSlip slip;
  slip.title = job.title;
  slip.sizes = job.sizes;
  slip.units = job.units;
  for (const FoundStage& f : found) {
    CouponSlip::Stage s;
    s.stage = viz::degrees_f(f.stage.temperature);
    if (f.stage.pull) s.pull = viz::pull_both(*f.stage.pull), s.range = viz::pull_range_words(f.low(), f.high());
    if (f.stage.free_shrink) s.shrink = viz::shrink_words(f.stage.free_shrink->warp, f.stage.free_shrink->fill);
    slip.stages.push_back(std::move(s));
  }
  for (std::size_t i = 1; i < job.curve.size(); ++i)
    slip.to_fill_in.push_back(viz::degrees_f(job.curve[i].temperature));
  return slip;
}

Json json_of_coupon(const CouponJob& job, const std::vector<FoundStage>& found, const CouponSlip& slip,
                    const std::string& lines, const CouponCurve* curve, const std::string& earlier) {
  auto stages = Json::array();
  const auto number = [](const std::optional<double>& v, const char* name) {
    return v ? json_number(*v, name) : Json(nullptr);
  };
  for (const FoundStage& f : found) {
    std::optional<double> warp, fill, low, high, sigma, added;
    if (f.stage.free_shrink) warp = f.stage.free_shrink->warp, fill = f.stage.free_shrink->fill;
    if (f.stage.pull) low = f.low(), high = f.high(), sigma = f.stage.sigma, added = f.read.added_by_sag;
    stages.push_back({{"stage_degF", json_number(to_degF(f.stage.temperature), "stage")},
                      {"pull_N_per_m", number(f.stage.pull, "pull")},
                      {"low_N_per_m", number(low, "low")},
                      {"high_N_per_m", number(high, "high")},
                      {"sigma", number(sigma, "sigma")},
                      {"added_by_sag_N_per_m", number(added, "added_by_sag")},
                      {"free_shrink_warp", number(warp, "warp")},
                      {"free_shrink_fill", number(fill, "fill")}});
  }
  const CostOfBoards boards = cost_of(job);
  Json j;
  j["format"] = 1;
  j["program"] = std::string("evenpull ") + version();
  j["title"] = job.title;
  j["inside_mm"] = json_number(job.sizes.inside * 1e3, "inside");
  j["disc_mm"] = json_number(job.sizes.disc * 1e3, "disc");
  j["board_height_mm"] = json_number(job.sizes.board_height * 1e3, "board_height");
  j["board_width_mm"] = json_number(job.sizes.board_width * 1e3, "board_width");
  j["boards_cost"] = json_number(boards.expected, "boards_cost");
  j["stages"] = stages;
  j["spread"] = nullptr;
  if (curve && curve->spread)
    j["spread"] = {{"pull_common", json_number(curve->spread->common, "common")},
                   {"pull_of_stage", json_number(curve->spread->of_stage, "of_stage")},
                   {"pull_of_yarn", json_number(curve->spread->of_yarn, "of_yarn")},
                   {"pull_common_not_measured", json_number(curve->spread->common_carried, "common_carried")},
                   {"all_stages_measured", curve->spread->all_measured}};
  j["lines_for_the_case"] = lines.empty() ? Json(nullptr) : Json(lines);
  j["earlier_case"] = earlier.empty() ? Json(nullptr) : Json(earlier);
  j["warnings"] = slip.warnings;
  j["notes"] = slip.notes;
  return j;
}

std::string words_of_coupon(const CouponSlip& slip, const std::string& lines, const std::string& into,
                            const std::string& earlier, const std::string& folder) {
  std::string text = "Coupon: " + on_one_line(slip.title) + "\n\n";
  if (slip.stages.empty()) {
    int n = 0;
    for (const auto& step : slip.steps) text += fmt::format("  {}. ", ++n) + wrap_text(step, 5) + "\n";
    text += "\n";
  }
  for (const auto& s : slip.stages)
    text += fmt::format("    {:<8}  {:<24}{}{}\n", s.stage, s.pull.empty() ? "not read" : s.pull,
                        s.range.empty() ? "" : "19 times in 20 within " + s.range,
                        s.shrink.empty() ? "" : "\n              free shrink " + s.shrink);
  if (!slip.stages.empty()) text += "\n";
  for (const auto& w : slip.warnings) text += "  WARNING: " + wrap_text(w, 11) + "\n";
  for (const auto& n : slip.notes) text += "  - " + wrap_text(n, 4) + "\n";
  if (!into.empty()) {
    text += fmt::format("\n  Put into {}; the case as it was is kept as {}\n", shown_file(into), shown_file(earlier));
  } else if (!lines.empty()) {
    text +=
        "\nFor your case, in place of its [[cloth.curve]] and of these keys of [spread] (or let --into do it):\n\n" +
        lines;
  }
  return text + "\n  Sheet to print: " + folder + "/coupon.pdf\n";
}

}  // namespace

void run_coupon(const Request& request, std::ostream& out) {
  Request r = request;
  if (!r.coupon.into.empty() && !r.case_file.empty()) refuse_coupon("--into", "names the case already; leave out CASE");
  if (!r.coupon.into.empty() && r.coupon.readings.empty() && r.coupon.marks.empty())
    refuse_coupon("--into", "has nothing to put in; give --reading or --marks");
  if (!r.coupon.into.empty()) r.case_file = r.coupon.into;
  CouponJob job;
  take_cloth(job, r.case_file);
  take_sizes(job, r);
  const std::vector<FoundStage> found = all_found(job, r.coupon);
  CouponSlip slip = slip_of(job, found);
  CouponCurve curve;
  std::string lines;
  std::optional<ChangedCase> changed;
  if (found.empty()) {
    slip.steps = viz::coupon_steps(job.sizes, job.units);
    slip.notes = {usual_sag(job), viz::no_strip_words()};
    if (const double cost = cost_of(job).expected; cost > boards_may_cost)
      slip.warnings.push_back(viz::boards_will_cost_words(cost));
  } else {
    std::vector<CouponStage> stages;
    for (const FoundStage& f : found) stages.push_back(f.stage);
    const double of_yarn = job.the_case && !job.spread_stated_whole ? job.the_case->spreads.pull_of_yarn
                                                                    : pull_of_yarn_alone;
    curve = curve_of_coupon(job.curve, stages, of_yarn);
    slip.warnings = falls_of(found);
    slip.notes = notes_of(job, found, curve);
    const auto edits = edits_of(job, curve);
    lines = edited_case("", edits);
    if (!r.coupon.into.empty()) {
      if (!slip.warnings.empty()) refuse_coupon("--into", slip.warnings.front() + "; nothing was put in");
      changed = changed_case(r.coupon.into, edits, "the curve of the coupon");
    }
  }
  ResultFolder folder(result_folder_of(r), say_on_errors);
  const auto aside = folder.open();
  CouponSlip drawn = slip;
  if (found.empty()) drawn.steps = viz::coupon_sheet_steps(job.units), drawn.notes = {usual_sag(job)};
  folder.draw([&] { write_coupon_slip(drawn, r.paper, version_and_commit(), (aside / "coupon.pdf").string()); });
  const auto document = [&](const std::string& earlier) {
    return json_text(json_of_coupon(job, found, slip, lines, found.empty() ? nullptr : &curve, earlier));
  };
  folder.write("coupon.json", document(""));
  folder.publish();
  // The results are there already: where the case cannot be written, nothing that was read is lost.
  const std::string earlier = changed ? put_case_in_place(*changed, "coupon").string() : "";
  say(r, out, document(earlier),
      [&] { return words_of_coupon(slip, lines, r.coupon.into, earlier, shown_result_folder(r)); });
}

}  // namespace evenpull
