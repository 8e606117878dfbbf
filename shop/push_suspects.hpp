// Where readings of weights on the bare frame contradict the case: which one size, stated otherwise, or which
// support, giving way, would explain them. Hints and no findings: what is tried is what is mistyped most, one thing
// at a time.
#pragma once

#include "shop/push_readings.hpp"

#include <vector>

namespace evenpull {

/// Who has a section: members and ribs that are stated alike count as one.
struct SectionOwner {
  enum class What { span_member, ribs, tip_bow, brace };
  What what = What::span_member;
  int which = 0;            ///< of Case::span_members or Case::braces
  std::vector<int> ribs{};  ///< of Case::ribs
};

struct PushSuspect {
  bool support = false;
  SectionOwner owner;
  enum class Size { diameter, wall, width, height };
  Size size = Size::wall;
  double stated = 0, instead = 0;  ///< m
  int which_support = 0;           ///< of the set that holds
  double give = 0;                 ///< m/N
  double misfit = 0;               ///< chi-square that is left
};

/// Those that bring the readings within what errors allow, best first, at most so many.
std::vector<PushSuspect> push_suspects(const Case& c, const PushFrame& frame, const std::vector<FramePlace>& places,
                                       const std::vector<PushFactor>& factors, const PushSurface& surface,
                                       const std::vector<PushTest>& tests, const PushErrors& errors,
                                       const PushAnswer& answer, std::size_t most);

/// The member to whose stiffness the readings answer most: index into Panel::members.
int most_telling_member(const Case& c, const PushFrame& frame, const std::vector<PushFactor>& factors,
                        const std::vector<PushTest>& tests, const PushErrors& errors);

}  // namespace evenpull
