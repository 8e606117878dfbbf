#include "app/input/work_file.hpp"

#include "app/input/document.hpp"
#include "app/input/raw_file.hpp"
#include "solver/geometry/panel.hpp"
#include "viz/words/log_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {

OrderFile order_of_log(const LogRead& read, const std::string& path, Case& c) {
  const Panel panel = build_panel(c, {c.target_nodes});
  check_log_is_of(read.log, panel_mark(c, panel.bays, panel.strips), path);
  const FilePlace last{1 + static_cast<int>(read.log.entries.size()), 0};
  if (read.damaged_line > 0 && !read.cut_at_end)
    throw CaseFileError(path, {read.damaged_line, 0}, "",
                        viz::damaged_log_text(read.damaged_line, read.lines_left_out));
  const WorkSoFar work = work_so_far(read.log, c);
  for (const LogStop stop : work.stops) throw CaseFileError(path, last, "", viz::log_stop_text(stop));
  if (work.steps.empty())
    throw CaseFileError(path, last, "",
                        "has no zone worked so far, so there is nothing to go on from: plan without --from");
  c = case_as_worked(c, work);
  OrderFile out;
  out.steps = work.steps;
  out.done.assign(out.steps.size(), true);
  const std::vector<bool> whole = stages_whole(c, work, static_cast<int>(panel.zones.size()));
  for (const Measured& m : readings_for(c, work))
    if (whole[static_cast<std::size_t>(m.stage)]) out.measured.push_back(m);
  out.places.end = last;
  return out;
}

OrderFile read_work_file(const std::string& path, Case& c) {
  std::string bytes = read_raw(path);
  if (!looks_like_a_log(bytes)) return order_file_of(std::move(bytes), path, c);
  OrderFile out = order_of_log(read_log_text(bytes, path), path, c);
  out.text = std::move(bytes);
  return out;
}

}  // namespace evenpull
