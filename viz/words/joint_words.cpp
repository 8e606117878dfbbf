#include "viz/words/joint_words.hpp"

#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace evenpull::viz {
namespace {

std::string alpha_words(double alpha) { return std::isinf(alpha) ? "rigid" : print_number(alpha, 3); }

std::string range_words(const TurnRange& r) {
  if (r.low == r.high) return alpha_words(r.usual);
  return fmt::format("{} ({} to {})", alpha_words(r.usual), alpha_words(r.low), alpha_words(r.high));
}

struct RibsAlike {
  int first = 0, last = 0;  // ribs, from 0
  bool front = true;
};

std::string ribs_alike_text(const RibsAlike& at) {
  return fmt::format("{}, {} edge",
                     at.first == at.last ? fmt::format("rib {}", at.first + 1)
                                         : fmt::format("ribs {} to {}", at.first + 1, at.last + 1),
                     at.front ? "leading" : "trailing");
}

}  // namespace

const char* joint_word(JointKind k) {
  switch (k) {
    case JointKind::unstated: return "not stated";
    case JointKind::rigid: return "rigid";
    case JointKind::pinned: return "pinned";
    case JointKind::welded: return "welded";
    case JointKind::welded_thin: return "welded to a wide tube";
    case JointKind::gusset: return "riveted gusset";
    case JointKind::single: return "one rivet or bolt";
    case JointKind::glued_gusset: return "glued gusset";
    case JointKind::glued_block: return "glued block";
    case JointKind::tied: return "tied";
    case JointKind::slid_in: return "slid in and riveted";
  }
  return "";
}

std::string joint_text(const JointMake& j) {
  std::string text = joint_word(j.kind);
  if (j.kind == JointKind::gusset) text += fmt::format(", {} rivet{} a side", j.fasteners, j.fasteners == 1 ? "" : "s");
  if (j.fastener_diameter > 0)
    text += fmt::format(" of {}, {} from first to last", print_length(j.fastener_diameter),
                        print_length(j.fastener_spacing));
  if (j.upright) text += *j.upright ? ", upright" : ", flat";
  return text;
}

std::string turn_text(const JointMake& j, const JoinedMember& m) {
  if (!has_range(j.kind)) return "";
  const JointTurn t = turn_of(j, m);
  const std::string up = range_words(t.up), flat = range_words(t.flat);
  return up == flat ? up : fmt::format("up and down {}, flat {}", up, flat);
}

std::vector<JointLine> joint_lines(const Case& c, const Panel& p) {
  std::vector<JointLine> list;
  const int ribs = static_cast<int>(c.ribs.size()) - (c.tip_bow ? 1 : 0);
  for (const bool front : {true, false}) {
    RibsAlike at{0, -1, front};
    for (int r = 0; r < ribs; ++r) {
      const Rib& rib = c.ribs[static_cast<std::size_t>(r)];
      const JointMake& j = front ? rib.front_joint : rib.rear_joint;
      JointLine line{"", joint_text(j), turn_text(j, joined_rib(c, p, r, front))};
      const bool goes_on = at.last >= 0 && list.back().made == line.made && list.back().turns == line.turns;
      at = {goes_on ? at.first : r, r, front};
      line.where = ribs_alike_text(at);
      if (goes_on) list.back() = line;
      else list.push_back(line);
    }
  }
  for (std::size_t b = 0; b < c.braces.size(); ++b) {
    if (c.braces[b].wire) continue;  // turns freely
    list.push_back({c.braces[b].name, joint_text(c.braces[b].from_joint),
                    turn_text(c.braces[b].from_joint, joined_brace(c, p, static_cast<int>(b), true))});
  }
  return list;
}

}  // namespace evenpull::viz
