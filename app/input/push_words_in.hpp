// What a person types of a weight on the bare frame and what moved.
#pragma once

#include "shop/push_frame.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct TypedReading {
  FramePlace place;
  double down = 0;  ///< m
};

struct TypedPush {
  std::string text;
  FramePlace place;
  double newtons = 0;
  std::vector<TypedReading> readings;  ///< the first is usually at the weight itself
};

/// "2 kg at rib 4, trailing edge: 3.2 mm; rib 1, trailing edge: 0.4 mm up". Throws CaseFileError, which names `option`.
TypedPush push_of_words(const std::string& text, const std::string& option, const Case& c, const PushFrame& frame);

}  // namespace evenpull
