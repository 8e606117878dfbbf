#include "viz/page/page_data.hpp"

#include "viz/page/packed.hpp"
#include "viz/pictures/pull_picture.hpp"
#include "viz/words/heat_words.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/window_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

using Json = nlohmann::ordered_json;

// A page shows fewer bands than a printed picture: it is looked at on a small screen, and any number can be asked for.
constexpr int wanted_bands = 12;
// Movements are kept to this share of the largest one: far below what an eye sees at any exaggeration.
constexpr int steps_of_movement = 8000;
constexpr double step_of_pull = 0.5;   // N/m, a three-hundredth of a pound per inch
constexpr double step_of_use = 0.001;  // a thousandth of the limit

Json scale(const Bands& bands, bool open_end) {
  Json j{{"bounds", bands.bounds}, {"open_end", open_end}};
  for (int i = 0; i < bands.count(); ++i) j["colours"].push_back(hex(bands.colour(i)));
  return j;
}

Json pull_scale(const Plan& plan) {
  const PullScale s = common_scale(plan);
  const Bands bands = round_bands(s.strongest_pull, wanted_bands);
  return scale(bands, s.open_end);
}

/// Differences round zero, one colour family a sign.
Json difference_scale(const Plan& plan) {
  const Panel& p = plan.panel;
  const std::size_t half = p.quads.size() / 2;
  std::vector<double> all;
  for (const auto& now : plan.snapshots)
    for (std::size_t q = 0; q < half; ++q)
      all.push_back(std::abs(static_cast<double>(now.pull_chord[q]) - now.pull_chord[half + q]));
  // The strongest few sit at corners (see pull_picture.cpp).
  constexpr double share_on_scale = 0.98;
  double most = 1;
  if (!all.empty()) {
    const auto at = all.begin() + static_cast<std::ptrdiff_t>(share_on_scale * static_cast<double>(all.size() - 1));
    std::nth_element(all.begin(), at, all.end());
    most = std::max(*at, 1.0);
  }
  const Bands half_scale = round_bands(most, 5);
  Json j{{"open_end", true}};
  const int n = half_scale.count();
  for (int i = n; i > 0; --i) j["bounds"].push_back(-half_scale.bounds[i]);
  // No line at zero: what is nearly even on both sides is one pale band.
  for (int i = 1; i <= n; ++i) j["bounds"].push_back(half_scale.bounds[i]);
  for (int i = 0; i < 2 * n - 1; ++i)
    j["colours"].push_back(hex(difference_colour(n > 1 ? static_cast<double>(i - (n - 1)) / (n - 1) : 0)));
  return j;
}

Json use_scale() {
  Bands bands;
  for (int i = 0; i <= 6; ++i) bands.bounds.push_back(0.2 * i);
  return scale(bands, true);
}

/// Steps, and the words for their doses, each once.
void add_steps(Json& j, const Plan& plan) {
  Json list = Json::array(), doses = Json::array();
  for (const auto& s : plan.steps) {
    const Json words = pass_words(plan, s.stage, s.pass, s.dose);
    auto at = std::find(doses.begin(), doses.end(), words);
    if (at == doses.end()) doses.push_back(words), at = doses.end() - 1;
    list.push_back({{"zone", s.zone}, {"stage", s.stage}, {"pass", s.pass}, {"dose", at - doses.begin()}});
  }
  j["done"] = Json::array();
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    if (plan.steps[i].done) j["done"].push_back(i);
  j["steps"] = std::move(list);
  j["doses"] = std::move(doses);
}

Json zones(const Panel& panel) {
  Json list = Json::array();
  for (const auto& z : panel.zones)
    list.push_back(
        {{"label", z.label},
         {"side", static_cast<int>(z.side)},
         {"bay", z.bay},
         {"strip", z.strip},
         {"area", z.area},
         {"nose", std::any_of(z.quads.begin(), z.quads.end(), [&](int q) {
            return panel.nodes[static_cast<std::size_t>(panel.quads[static_cast<std::size_t>(q)].nodes[1])].on_nose;
          })}});
  return list;
}

/// Of each bay: its cloth ends at the trailing edge, not at a pocket.
Json edge_bays(const Panel& panel) {
  Json list = Json::array();
  for (int b = 0; b < panel.bays; ++b) list.push_back(panel.pocket_in(b) < 0);
  return list;
}

Json stages(const Plan& plan) {
  Json list = Json::array();
  for (std::size_t i = 0; i < plan.the_case.stages.size(); ++i) {
    Json s{{"words", degrees_both(plan.the_case.stages[i].temperature)},
           {"safe", static_cast<int>(i) <= plan.ceiling.value_or(-1)}};
    if (i < plan.stage_end_snapshot.size()) s["end"] = plan.stage_end_snapshot[i];
    s["passes"] = Json::array();
    if (i < plan.heat.size())
      for (const auto& pass : plan.heat[i].passes)
        s["passes"].push_back(
            {{"words", hold_words(pass, plan.the_case.iron)},
             {"seconds", pass.way == PassWay::touch ? Json(nullptr) : Json(pass.open.contact)},
             {"nose_seconds", pass.way == PassWay::touch || !pass.nose ? Json(nullptr) : Json(pass.nose->contact)}});
    list.push_back(std::move(s));
  }
  return list;
}

Json windows(const Plan& plan) {
  Json list = Json::array();
  for (const StageWindow& w : plan.windows) {
    if (!w.opens()) continue;
    Json bays = Json::array();
    for (const BayWindow& b : w.bays)
      bays.push_back({{"least", b.least},
                      {"most", b.most},
                      {"expected", b.expected},
                      {"side", b.side == Side::top ? "top" : "bottom"},
                      {"bay", b.bay + 1}});
    list.push_back({{"stage", w.stage},
                    {"next", w.next},
                    {"needed", w.needed},
                    {"after_degF", to_degF(plan.the_case.stages[static_cast<std::size_t>(w.stage)].temperature)},
                    {"weight_g", std::round(w.weight * 1e9) / 1e6},
                    {"inside", window_said(plan, w, WindowSays::inside)},
                    {"less", window_said(plan, w, WindowSays::less)},
                    {"more", window_said(plan, w, WindowSays::more)},
                    {"again", window_said(plan, w, WindowSays::not_believed)},
                    {"bays", bays}});
  }
  return list;
}

Json members(const Panel& panel) {
  Json list = Json::array();
  for (const auto& m : panel.members) list.push_back(m.name);
  return list;
}

struct FramesOf {
  const Plan& plan;
  std::vector<const std::vector<float>*> operator()(std::vector<float> Snapshot::*what) const {
    std::vector<const std::vector<float>*> out;
    for (const auto& s : plan.snapshots) out.push_back(&(s.*what));
    return out;
  }
};

void pack(const Plan& plan, PageFields which, Packer& packer) {
  const Panel& p = plan.panel;
  std::vector<float> placed, joints;
  for (const auto& n : p.nodes)
    for (int k = 0; k < 3; ++k) placed.push_back(static_cast<float>(n.placed[k]));
  for (const auto& j : p.joints)
    for (int k = 0; k < 3; ++k) joints.push_back(static_cast<float>(j.position[k]));
  std::vector<std::uint16_t> zone, row, column, beams;
  std::vector<float> area;
  for (const auto& q : p.quads) {
    zone.push_back(static_cast<std::uint16_t>(q.zone));
    row.push_back(static_cast<std::uint16_t>(q.row));
    column.push_back(static_cast<std::uint16_t>(q.column));
    area.push_back(static_cast<float>(q.area));
  }
  for (const auto& b : p.beams)
    for (int i : {b.from, b.to, b.member}) beams.push_back(static_cast<std::uint16_t>(i));
  packer.floats("placed", placed);
  packer.floats("joints", joints);
  packer.floats("area", area);
  packer.shorts("zone", zone);
  packer.shorts("row", row);
  packer.shorts("column", column);
  packer.shorts("beams", beams);

  const FramesOf frames{plan};
  const auto slip = frames(&Snapshot::edge_slip);
  std::vector<const std::vector<unsigned char>*> state;
  for (const auto& s : plan.snapshots) state.push_back(&s.state);
  if (which == PageFields::flat_skins) {
    packer.series("slip", slip, step_for(slip, steps_of_movement));
    packer.series("larger", frames(&Snapshot::pull_major), step_of_pull);
    packer.bytes("state", state);
    return;
  }
  const auto moved = frames(&Snapshot::displacement), turned = frames(&Snapshot::joint_displacement);
  packer.series("moved", moved, step_for(moved, steps_of_movement));
  // Translations and turns together: both are small numbers (m, rad) of like size.
  packer.series("joint_moved", turned, step_for(turned, steps_of_movement));
  packer.series("slip", slip, step_for(slip, steps_of_movement));
  packer.series("larger", frames(&Snapshot::pull_major), step_of_pull);
  packer.series("chord", frames(&Snapshot::pull_chord), step_of_pull);
  packer.series("span", frames(&Snapshot::pull_span), step_of_pull);
  packer.series("use", frames(&Snapshot::beam_use), step_of_use);
  packer.bytes("state", state);
}

Json part_list(const Packer& packer) {
  Json list = Json::object();
  for (const auto& p : packer.parts())
    list[p.name] = {{"kind", p.kind}, {"at", p.at}, {"count", p.count}, {"frames", p.frames}, {"step", p.step}};
  return list;
}

}  // namespace

// Nothing inside may look like the element's end.
std::string for_script(std::string json) {
  for (std::size_t at = 0; (at = json.find('<', at)) != std::string::npos;) json.replace(at, 1, "\\u003c");
  return json;
}

std::string pull_scale_json(const Bands& bands, bool open_end) { return scale(bands, open_end).dump(); }

PageData page_data(const Plan& plan, const std::string& more, PageFields which) {
  Packer packer;
  pack(plan, which, packer);
  const Panel& p = plan.panel;
  int last = 0;        // steps that may be worked
  int by_reading = 0;  // steps that readings may open
  for (const auto& s : plan.steps) {
    last += s.stage <= plan.ceiling.value_or(-1) ? 1 : 0;
    by_reading += s.stage == opened_by_reading(plan) ? 1 : 0;
  }
  Json j{{"title", plan.the_case.title},
         {"rows", p.rows},
         {"columns", p.columns},
         {"bays", p.bays},
         {"strips", p.strips},
         {"rib_columns", p.rib_columns},
         {"edge_bays", edge_bays(p)},
         {"wrapped", plan.the_case.blanket.kind == BlanketKind::full_wrap},
         {"both_sides", plan.the_case.both_sides_reachable},
         {"zones", zones(p)},
         {"stages", stages(plan)},
         {"steps_to_work", last},
         {"steps_by_reading", by_reading},
         {"windows", windows(plan)},
         {"members", members(p)},
         {"pull_scale", pull_scale(plan)},
         {"difference_scale", difference_scale(plan)},
         {"use_scale", use_scale()},
         {"parts", part_list(packer)}};
  add_steps(j, plan);
  for (const auto& s : plan.snapshots) j["labels"].push_back(snapshot_words(plan, s));
  if (!more.empty()) j["more"] = Json::parse(more);
  return {for_script(j.dump(-1, ' ', false, Json::error_handler_t::replace)), packer.text()};
}

std::string hex(const Colour& c) {
  const auto byte = [](double v) { return static_cast<int>(std::lround(255 * std::clamp(v, 0.0, 1.0))); };
  return fmt::format("#{:02x}{:02x}{:02x}", byte(c.red), byte(c.green), byte(c.blue));
}

}  // namespace evenpull::viz
