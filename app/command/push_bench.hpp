// What both halves of `push` work with: the bare frame, what is not known of it, the places that came up; and what a
// half hands back to be put out.
#pragma once

#include "app/command/request.hpp"
#include "app/input/case_reader.hpp"
#include "app/output/json_number.hpp"
#include "shop/push_readings.hpp"
#include "viz/sheet/push_slip.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

struct PushBench {
  CaseFile file;
  Held held = Held::while_ironed;
  std::optional<PushFrame> frame;
  PushErrors errors;
  std::vector<PushFactor> factors;
  std::vector<FramePlace> places;
  const Case& the_case() const { return file.value; }
};

PushBench push_bench_of(const Request& r);

/// Members and supports as seen from above.
void add_frame_view(const PushBench& b, PushSlip& slip);

/// Marks of places in the order in which they come: weights by number, what is only read by letter.
class PushMarks {
 public:
  PushMarks(const PushBench& b, PushSlip& slip) : b_(b), slip_(slip) {}
  void weight(const FramePlace& p);
  std::string read(const FramePlace& p);

 private:
  std::string known_as(const FramePlace& p) const;
  void add(const FramePlace& p, const std::string& text, bool weight);

  const PushBench& b_;
  PushSlip& slip_;
  int weights_ = 0, letters_ = 0;
};

/// What every push.json begins with.
Json push_head_json(const PushBench& b);

struct PushResult {
  PushSlip slip;
  Json json;
  std::string after;  ///< words behind the slip's
};
/// Which weights to hang where. Throws CaseFileError where no place bears one.
PushResult propose_pushes(const Request& r, PushBench& b);
/// What the readings say; puts it into the case where that was asked for and they agree with it.
PushResult answer_pushes(const Request& r, PushBench& b);

}  // namespace evenpull
