// tap: from tones and sags to the pull of each bay, on the screen and on half a page.
#include "app/command/commands.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/case_table.hpp"
#include "app/input/expected_pull.hpp"
#include "app/input/tap_readings.hpp"
#include "app/output/json_number.hpp"
#include "app/output/result_folder.hpp"
#include "app/output/tap_json.hpp"
#include "app/sound/recording.hpp"
#include "app/sound/taps_heard.hpp"
#include "app/text/most.hpp"
#include "app/text/quoted.hpp"
#include "app/text/version.hpp"
#include "sequencer/plan/bench_check.hpp"
#include "shop/tap.hpp"
#include "solver/sound/tight_panel.hpp"
#include "viz/sheet/tap_slip.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <ostream>

namespace evenpull {
namespace {

// More than that a tone does not need; all of a panel's bays on it take seconds.
constexpr int nodes_of_a_tap = 1200;
// Twice the edge: what both meshes point to is told (solver/sound/bay_tone.hpp).
constexpr int half_fineness = 1;
// Tones further from the middle one than tapping is off by (twice 5 %: reading and size of the bay) are marked.
constexpr double marked_beyond = 0.10;

using BayPlace = std::pair<Side, int>;

[[noreturn]] void refuse_option(const std::string& option, const std::string& sentence) {
  throw CaseFileError(option, {}, "", sentence);
}

struct Heard {
  ToneReading reading;
  int taps = 0, passed_over = 0;
};

Behind behind_of(const std::string& word) {
  if (word.empty()) return Behind::either;
  for (const auto& [known, b] :
       {std::pair("open", Behind::open), std::pair("skin", Behind::skin), std::pair("held", Behind::held)})
    if (plain_word(word) == known) return b;
  refuse_option("--behind", in_quotes(word) +
                                " is not known; say open (nothing behind), skin (the other skin, free) or held (the "
                                "other skin lies on something)");
}

Heard hear(const std::string& file, const BayPlace& bay) {
  const TapsHeard h = listen(read_recording(file));
  const auto trouble = [&](const std::string& sentence) { throw CaseFileError(file, {}, "--wav", sentence); };
  switch (h.trouble) {
    case Unheard::silent: trouble("is silent; see that the microphone was on, and record nearer to the cloth"); break;
    case Unheard::clipped:
      trouble(
          "is too loud: the sound is cut off at full scale, which makes tones that are not there; record from further "
          "off or "
          "with less gain");
      break;
    case Unheard::too_short:
      trouble("is too short: a tap has to ring for a fifth of a second or so; do not cut it off");
      break;
    case Unheard::no_tone:
      trouble(fmt::format(
          "holds no clear tone between {:.0f} and {:.0f} Hz; tap with a soft finger amid the bay, in a quiet place, "
          "the microphone a hand's breadth from the cloth",
          lowest_tone, highest_tone));
      break;
    case Unheard::nothing: break;
  }
  const double single = tone_off(h.tone);
  return {{bay.first, bay.second, h.tone, std::hypot(single, h.scatter / std::sqrt(h.taps))}, h.taps, h.passed_over};
}

std::vector<Heard> tones_of(const TapRequest& r, const Panel& panel) {
  if (r.recordings.size() != r.bays.size())
    refuse_option(
        "--wav",
        fmt::format("is given {} times and --bay {} times; each recording is of one bay: --wav taps.wav --bay \"top, "
                    "bay 2\"",
                    r.recordings.size(), r.bays.size()));
  std::vector<Heard> out;
  for (const std::string& text : r.tones) out.push_back({read_tone(text, panel), 0, 0});
  std::vector<BayPlace> places;
  for (const std::string& bay : r.bays) places.push_back(read_bay(bay, panel));
  for (std::size_t i = 0; i < places.size(); ++i) out.push_back(hear(r.recordings[i], places[i]));
  return out;
}

/// Bays of the readings and what lies behind them, each once, with its tone.
class Bays {
 public:
  Bays(const Case& c, int stage, const Model& fine, const std::vector<BayPlace>& read) {
    std::vector<BayPlace> wanted;
    for (const BayPlace& p : read)
      for (const Side side : {p.first, p.first == Side::top ? Side::bottom : Side::top})
        if (std::find(wanted.begin(), wanted.end(), BayPlace{side, p.second}) == wanted.end())
          wanted.emplace_back(side, p.second);
    const double temperature = c.stages[static_cast<std::size_t>(stage)].temperature;
    const Model coarse(c, {fine_nodes(c), half_fineness});
    const auto a = found_on(coarse, temperature, wanted), b = found_on(fine, temperature, wanted);
    for (std::size_t i = 0; i < wanted.size(); ++i)
      if (b[i]) tones_.emplace(wanted[i], a[i] ? between_meshes(*a[i], *b[i]) : *b[i]);
  }
  static int fine_nodes(const Case& c) { return std::min(c.target_nodes, nodes_of_a_tap); }
  /// What its cloth was made to pull over what it pulls after the stage.
  double pull_times() const { return pull_times_; }
  const BayTone* at(Side side, int bay) const {
    const auto found = tones_.find({side, bay});
    return found == tones_.end() ? nullptr : &found->second;
  }
  const BayTone* behind(Side side, int bay) const { return at(side == Side::top ? Side::bottom : Side::top, bay); }

 private:
  std::vector<std::optional<BayTone>> found_on(const Model& m, double temperature,
                                               const std::vector<BayPlace>& wanted) {
    Ironing ironing(m);
    const TightPanel tight = tight_panel(ironing, temperature);
    pull_times_ = tight.pull_times;  // of the finer mesh in the end
    Equilibrium e(m, ironing.options());
    return bay_tones(e, tight.state, wanted);
  }
  double pull_times_ = 1;
  std::map<BayPlace, BayTone> tones_;
};

TapData data_of(const Case& c) {
  TapData d;
  d.areal_mass = c.cloth.areal_mass;
  d.stiffness = std::max(c.cloth.stiffness.warp, c.cloth.stiffness.fill);
  d.disc = check_disc;
  d.sag_off = c.wanted.sag_reading;
  return d;
}

void take_range(TapLine& l, const std::optional<PullRange>& pull) {
  if (pull) l.pull = pull->middle, l.low = pull->low, l.high = pull->high;
}

TapLine line_of(const ToneRead& r, const Heard& h) {
  TapLine l;
  l.side = h.reading.side, l.bay = h.reading.bay;
  l.tone = h.reading.tone, l.tone_off = h.reading.off;
  l.taps = h.taps, l.passed_over = h.passed_over;
  take_range(l, r.pull);
  if (r.bay) l.chord_weight = r.bay->chord_weight;
  l.shut_in = r.shut_in;
  l.air_over_cloth = r.air_over_cloth, l.doubt_air = r.doubt.air;
  return l;
}

// Beside the middle one of the panel: what all share, the air above all, drops out.
void set_beside_each_other(std::vector<TapLine>& lines, const std::vector<double>& relative) {
  std::vector<double> known;
  for (const double x : relative)
    if (x > 0) known.push_back(x);
  if (known.size() < 3) return;
  std::sort(known.begin(), known.end());
  const double middle = 0.5 * (known[(known.size() - 1) / 2] + known[known.size() / 2]);
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (relative[i] > 0)
      lines[i].others = relative[i] > middle * (1 + marked_beyond)   ? Beside::higher
                        : relative[i] < middle / (1 + marked_beyond) ? Beside::lower
                                                                     : Beside::alike;
}

std::vector<TapLine> read_tones(const std::vector<Heard>& heard, const Bays& bays, const TapData& d, Behind behind) {
  std::vector<TapLine> lines;
  std::vector<double> relative;
  std::vector<ToneRead> compared;
  std::vector<std::size_t> line_of_compared;
  for (const Heard& h : heard) {
    ToneRead r;
    const BayTone* bay = bays.at(h.reading.side, h.reading.bay);
    if (bay) r = pull_from_tone(*bay, bays.behind(h.reading.side, h.reading.bay), h.reading, d, behind);
    lines.push_back(line_of(r, h));
    relative.push_back(!bay ? 0
                            : pull_of(*bay, h.reading.tone, d.areal_mass, d.air_density * bay->wall_air * 2) *
                                  std::sqrt(bay->pull_chord * bay->pull_span));
    if (!bay) lines.back().trouble = TapLine::Trouble::no_field;
    else if (r.pull) continue;
    else if (r.shut_in > most_shut_in) compared.push_back(r), line_of_compared.push_back(lines.size() - 1);
    else lines.back().trouble = TapLine::Trouble::too_low;
  }
  compare_tones(compared, d);
  for (std::size_t i = 0; i < compared.size(); ++i) {
    const PullRange& range = *compared[i].against_first;
    lines[line_of_compared[i]].ratio = range.middle;
    lines[line_of_compared[i]].ratio_off = std::log(range.high / range.middle) / 1.959963985;
  }
  set_beside_each_other(lines, relative);
  return lines;
}

TapLine read_weight(const SagReading& s, const Bays& bays, const TapData& d) {
  TapLine l;
  l.side = s.side, l.bay = s.bay;
  l.by_weight = true;
  l.weight = s.weight, l.sag = s.sag;
  const BayTone* bay = bays.at(s.side, s.bay);
  if (!bay) {
    l.trouble = TapLine::Trouble::no_field;
    return l;
  }
  const SagRead read = pull_from_sag(*bay, s, d);
  take_range(l, read.pull);
  l.chord_weight = bay->chord_weight;
  if (read.trouble == SagRead::Trouble::too_deep) l.trouble = TapLine::Trouble::too_deep;
  if (read.trouble == SagRead::Trouble::too_small_for_disc) l.trouble = TapLine::Trouble::too_small_for_disc;
  return l;
}

// As app/input/order_file.cpp reads them.
std::string measured_line(const SagReading& s, double stage) {
  return fmt::format(
      "{{ stage = \"{:.9g} degF\", side = \"{}\", bay = {}, weight = \"{:.6g} g\", sag = \"{:.6g} mm\" }}",
      to_degF(stage), s.side == Side::top ? "top" : "bottom", s.bay + 1, s.weight * 1e3, s.sag * 1e3);
}

BehindTold told_of(Behind b) {
  switch (b) {
    case Behind::open: return BehindTold::open;
    case Behind::skin: return BehindTold::skin;
    case Behind::held: return BehindTold::held;
    case Behind::either: break;
  }
  return BehindTold::either;
}

}  // namespace

void run_tap(const Request& r, std::ostream& out) {
  const auto file = read_case_file(r.case_file);
  const Case& c = file.value;
  const Behind behind = behind_of(r.tap.behind);
  if (r.tap.tones.empty() && r.tap.recordings.empty() && r.tap.sags.empty())
    refuse_option("evenpull tap",
                  "nothing was read; give --tone \"top, bay 2 = 84 Hz\", --wav taps.wav --bay \"top, bay 2\", or --sag "
                  "\"top, bay 2: 1 kg = 3.1 mm\"");
  const std::optional<int> stage = expected_stage(r.tap.stage, c);
  if (!r.tap.plan.empty() && !stage)
    refuse_option("--plan", "says what to expect after a stage; say after which with --stage");
  const auto planned = r.tap.plan.empty() ? std::nullopt : std::optional(planned_pulls(r.tap.plan, c, *stage));
  for (const auto* list : {&r.tap.tones, &r.tap.recordings, &r.tap.sags})
    if (list->size() > most::tap_readings)
      refuse_option("evenpull tap", fmt::format("{} readings of one kind are more than the {} that are read at once",
                                                list->size(), most::tap_readings));
  TapTold told;
  std::string document;
  std::optional<Model> model;
  try {
    model.emplace(c, MeshOptions{Bays::fine_nodes(c)});
  } catch (const CaseError& e) {
    throw CaseFileError(r.case_file, file.place_of(e.key), e.key, e.what());
  }
  const Panel& panel = model->panel;
  const std::vector<Heard> heard = tones_of(r.tap, panel);
  std::vector<SagReading> sags;
  for (const std::string& text : r.tap.sags) sags.push_back(read_sag(text, panel));
  std::vector<BayPlace> places;
  for (const Heard& h : heard) places.emplace_back(h.reading.side, h.reading.bay);
  for (const SagReading& s : sags) places.emplace_back(s.side, s.bay);

  ResultFolder folder(result_folder_of(r), say_on_errors);
  const int as_after = stage.value_or(0);
  std::optional<Bays> bays;
  try {
    bays.emplace(c, as_after, *model, places);
  } catch (const CaseError& e) {
    throw CaseFileError(r.case_file, file.place_of(e.key), e.key, e.what());
  }
  const TapData d = data_of(c);
  told.title = c.title;
  told.behind = told_of(behind);
  told.areal_mass = d.areal_mass;
  told.lines = read_tones(heard, *bays, d, behind);
  for (const SagReading& s : sags) told.lines.push_back(read_weight(s, *bays, d));
  if (stage) {
    told.stage = c.stages[static_cast<std::size_t>(*stage)].temperature;
    told.expected_from = planned ? ExpectedFrom::plan : ExpectedFrom::stage;
    for (TapLine& l : told.lines) {
      const BayTone* bay = bays->at(l.side, l.bay);
      if (planned) l.expected = (*planned)[static_cast<std::size_t>(l.side)];
      else if (bay) l.expected = std::sqrt(bay->pull_chord * bay->pull_span) / bays->pull_times();
    }
    for (const SagReading& s : sags) told.measured.push_back(measured_line(s, *told.stage));
  }
  document = tap_document(told, version());
  const auto aside = folder.open();
  folder.write("tap.json", document);
  folder.draw([&] { write_tap_slip(told, panel, r.paper, version_and_commit(), (aside / "tap.pdf").string()); });
  folder.publish();
  say(r, out, document, [&] { return viz::tap_text(told, shown_result_folder(r)); });
}

}  // namespace evenpull
