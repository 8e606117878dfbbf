#include "app/command/push_bench.hpp"

#include "app/input/typed.hpp"
#include "app/text/version.hpp"

namespace evenpull {
namespace {

constexpr Range gauge_range{0.005e-3, 2e-3, "0.02 to 0.05 mm for a dial gauge, 0.25 mm for a ruler"};

}  // namespace

PushBench push_bench_of(const Request& r) {
  PushBench b;
  b.file = read_case_file(r.case_file, MeasuredFrame::left_out);
  b.held = r.push.in_use ? Held::in_use : Held::while_ironed;
  b.errors.reading = r.push.gauge.empty() ? PushErrors{}.reading
                                          : Typed("--gauge", r.push.gauge).quantity(Quantity::length, gauge_range);
  b.frame.emplace(b.the_case(), b.held);
  b.factors = push_factors(b.the_case(), b.frame->panel(), r.push.each_kind);
  return b;
}

void add_frame_view(const PushBench& b, PushSlip& slip) {
  const Panel& p = b.frame->panel();
  for (const FrameMember& m : p.members) {
    PushSlipMember line;
    line.rib = group_of(m.role) == MemberGroup::ribs;
    for (int j : m.joints) {
      const Eigen::Vector3d& at = p.joints[static_cast<std::size_t>(j)].position;
      line.line.push_back({at.x(), at.y()});
    }
    slip.members.push_back(std::move(line));
  }
  const Case& c = b.the_case();
  for (const Support& s : b.held == Held::while_ironed ? c.while_ironed : c.in_use) {
    const FramePlace place{false, s.member, s.station};
    if (s.whole_length || !b.frame->has(place)) continue;
    const Eigen::Vector3d at = b.frame->position(place);
    slip.supports.push_back({at.x(), at.y()});
  }
}

void PushMarks::weight(const FramePlace& p) {
  if (known_as(p).empty()) add(p, std::to_string(++weights_), true);
}

std::string PushMarks::read(const FramePlace& p) {
  const std::string known = known_as(p);
  if (!known.empty()) return known;
  add(p, std::string(1, static_cast<char>('a' + letters_ % 26)), false);
  ++letters_;
  return slip_.marks.back().text;
}

std::string PushMarks::known_as(const FramePlace& p) const {
  const Eigen::Vector3d at = b_.frame->position(p);
  for (const PushSlipMark& m : slip_.marks)
    if (m.chord == at.x() && m.span == at.y()) return m.text;
  return "";
}

void PushMarks::add(const FramePlace& p, const std::string& text, bool weight) {
  const Eigen::Vector3d at = b_.frame->position(p);
  slip_.marks.push_back({at.x(), at.y(), text, weight});
}

Json push_head_json(const PushBench& b) {
  Json j;
  j["format"] = 1;
  j["program"] = std::string("evenpull ") + version();
  j["title"] = b.the_case().title;
  j["held"] = b.held == Held::while_ironed ? "ironed" : "use";
  j["reading_off_m"] = json_number(b.errors.reading, "reading_off");
  return j;
}

}  // namespace evenpull
