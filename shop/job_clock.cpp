#include "shop/job_clock.hpp"

#include "shop/glue_lines.hpp"

#include <algorithm>

namespace evenpull {
namespace {

class ClockList {
 public:
  ClockItem& add(JobPart part, const std::optional<double>& seconds) {
    ClockItem item;
    item.part = part, item.seconds = seconds;
    item.begins = begins_, item.known = known_;
    begins_ += seconds.value_or(0);
    known_ = known_ && seconds.has_value();
    items_.push_back(item);
    return items_.back();
  }
  std::vector<ClockItem> take() { return std::move(items_); }

 private:
  std::vector<ClockItem> items_;
  double begins_ = 0;
  bool known_ = true;
};

// What a coat of all lines takes, and how much there is to coat.
struct CoatWork {
  double seconds = 0, area = 0;
};

CoatWork coat_work(const Case& c, const Panel& p, const Adhesive& a, const Finish& f) {
  CoatWork out;
  for (const GlueLine& l : glue_lines(c, p, a)) out.seconds += f.times.gluing * l.length, out.area += l.area();
  return out;
}

void add_coats(ClockList& list, JobPart part, int coats, const CoatWork& work, const Adhesive& a, bool last_of_all) {
  for (int k = 1; k <= coats; ++k) {
    ClockItem& item = list.add(part, work.seconds);
    item.count = k, item.amount = work.area;
    if (last_of_all && k == coats) list.add(JobPart::wait_before_iron, a.waiting);
    else list.add(JobPart::wait_between, a.between);
  }
}

// The case's own schedule of fastening, entry by entry.
class Fastening {
 public:
  Fastening(const Case& c, const Finish& f, ClockList& list)
      : c_(c), each_(f.times.attaching), list_(list), done_(c.attachments.size(), 0) {}
  // What comes before a stage of this temperature [K].
  void due_before(double temperature) {
    for (std::size_t i = 0; i < done_.size(); ++i)
      if (c_.attachments[i].after < temperature - same_stage) add(i);
  }
  void rest() {
    for (std::size_t i = 0; i < done_.size(); ++i) add(i);
  }

 private:
  static constexpr double same_stage = 0.5;  // K, as the solver has it
  void add(std::size_t i) {
    const Attachment& a = c_.attachments[i];
    if (done_[i] || a.how == AttachHow::left) return;
    done_[i] = 1;
    ClockItem& item = list_.add(JobPart::attach_scheduled, static_cast<double>(a.ribs.size()) * each_);
    item.count = static_cast<int>(a.ribs.size()), item.attachment = static_cast<int>(i);
  }

  const Case& c_;
  double each_;
  ClockList& list_;
  std::vector<char> done_;
};

void add_ironing(ClockList& list, Fastening& fasten, const std::optional<PlannedIroning>& ironing) {
  if (!ironing || !ironing->allowed) {
    list.add(ironing ? JobPart::ironing_not_allowed : JobPart::ironing_not_planned, {});
    return;
  }
  for (std::size_t k = 0; k < ironing->stages.size(); ++k) {
    const StageHours& s = ironing->stages[k];
    list.add(JobPart::iron, s.ironing).stage = s.temperature;
    if (s.turn_overs > 0) {
      ClockItem& turn = list.add(JobPart::turn_over, s.turning);
      turn.stage = s.temperature, turn.count = s.turn_overs;
    }
    list.add(JobPart::cool_and_check, s.waiting).stage = s.temperature;
    if (k + 1 < ironing->stages.size()) fasten.due_before(ironing->stages[k + 1].temperature);
  }
}

bool is_scheduled(const Case& c, int rib) {
  return std::any_of(c.attachments.begin(), c.attachments.end(), [rib](const Attachment& a) {
    return std::find(a.ribs.begin(), a.ribs.end(), rib) != a.ribs.end();
  });
}

int ribs_to_attach(const Case& c) {
  if (c.blanket.inner_ribs == RibTie::glued) return 0;
  int n = 0;
  for (std::size_t i = 1; i + 1 < c.ribs.size(); ++i)
    n += c.ribs[i].touches_cloth && !is_scheduled(c, static_cast<int>(i));
  return n;
}

double first_stage(const Case& c, const std::optional<PlannedIroning>& ironing) {
  return ironing && !ironing->stages.empty() ? ironing->stages.front().temperature : c.stages.front().temperature;
}

double metres_of_tape(const Case& c, const Panel& p, const Tapes& t) {
  double sum = 0;
  for (const ClothLine& l : edge_and_rib_lines(c, p)) sum += tape_width(t, l.at) > 0 ? l.length : 0;
  return sum;
}

}  // namespace

std::vector<ClockItem> job_clock(const Case& c, const Panel& p, const Adhesive& a, const Finish& f,
                                 const std::optional<PlannedIroning>& ironing) {
  ClockList list;
  const CoatWork coat = coat_work(c, p, a, f);
  list.add(JobPart::frame_check, f.times.frame_check);
  list.add(JobPart::cut, f.times.cutting);
  add_coats(list, JobPart::pre_coat, a.pre_coats, coat, a, false);
  add_coats(list, JobPart::lay_in, a.lay_in_coats, coat, a, a.brush_through_coats == 0);
  add_coats(list, JobPart::brush_through, a.brush_through_coats, coat, a, true);
  Fastening fasten(c, f, list);
  fasten.due_before(first_stage(c, ironing));
  add_ironing(list, fasten, ironing);
  fasten.rest();
  if (const int ribs = ribs_to_attach(c); ribs > 0)
    list.add(JobPart::attach_ribs, ribs * f.times.attaching).count = ribs;
  if (f.tapes) {
    const double metres = metres_of_tape(c, p, *f.tapes);
    list.add(JobPart::tapes, metres * f.times.taping).amount = metres;
  }
  list.add(JobPart::inspection, f.times.inspection);
  list.add(JobPart::sign_off, 0.0);
  return list.take();
}

double known_seconds(const std::vector<ClockItem>& items) {
  double sum = 0;
  for (const ClockItem& i : items) sum += i.seconds.value_or(0);
  return sum;
}

}  // namespace evenpull
