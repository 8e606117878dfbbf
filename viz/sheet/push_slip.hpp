// The half page of weights on the bare frame: the frame from above with numbered places, and a table. Before the
// readings it says what to hang where and has room to write; after them, what they say.
#pragma once

#include "viz/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct PushSlipMember {
  std::vector<std::pair<double, double>> line;  ///< chord, span [m]
  bool rib = false;
};

struct PushSlipMark {
  double chord = 0, span = 0;  ///< m
  std::string text;            ///< "1"; "1b" where only read
  bool weight = false;
};

struct PushSlip {
  std::string title;
  std::string headline;               ///< what the page is
  std::vector<std::string> warnings;  ///< bold, first
  std::vector<PushSlipMember> members;
  std::vector<std::pair<double, double>> supports;
  std::vector<PushSlipMark> marks;
  std::vector<std::string> heads;  ///< of the table
  std::vector<double> shares;
  int emphasised = -1;  ///< column
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> factor_heads;
  std::vector<std::vector<std::string>> factors;  ///< what, before, now; none before the readings
  std::vector<std::string> notes;
};

/// Half a sheet of letter or A4. Throws CannotWriteFile that names the file when it cannot be written.
void write_push_slip(const PushSlip& slip, Paper paper, const std::string& version, const std::string& path);

}  // namespace evenpull
