// Defaults that a value tells by itself: what hangs on them is no plan, and a plan's list of defaults stays as short as it is.
#pragma once

#include "app/input/case_table.hpp"

#include <string>
#include <vector>

namespace evenpull {

class OwnDefaults {
 public:
  OwnDefaults(const CaseTable& t, std::vector<DefaultUsed>& taken) : t_(t), taken_(taken) {}
  double quantity(const char* key, Quantity kind, const Range& range, const Default& usual) const {
    if (const auto stated = t_.quantity_if(key, kind, range)) return *stated;
    taken_.push_back({t_.path(key), usual.printed, usual.why});
    return usual.value;
  }
  int count(const char* key, const Range& range, int usual, const char* why) const {
    if (t_.has(key)) return t_.whole_number(key, range);
    taken_.push_back({t_.path(key), std::to_string(usual), why});
    return usual;
  }

 private:
  const CaseTable& t_;
  std::vector<DefaultUsed>& taken_;
};

}  // namespace evenpull
