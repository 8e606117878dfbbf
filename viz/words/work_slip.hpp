// A slip of the bench as plain values: what is printed on paper and what the terminal says are one and the same.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct SlipColumn {
  std::string head;
  double share = 1;         ///< of the width of the page
  bool emphasised = false;  ///< read at arm's length
};

/// A box to tick with a pencil, the clock, what is to be done and how long it takes.
struct SlipCheck {
  std::string clock, what, length;
};

/// One of these at a time, under its heading.
struct SlipPart {
  std::string heading{};
  std::vector<SlipColumn> columns{};
  std::vector<std::vector<std::string>> rows{};
  std::vector<std::string> warnings{};  ///< bold
  std::vector<std::string> steps{};     ///< numbered
  std::vector<std::string> notes{};     ///< with dashes
  std::vector<SlipCheck> checks{};
  std::vector<std::string> to_write{};  ///< before a line to be written on by hand: on paper alone
};

struct WorkSlip {
  std::string name;        ///< of the work: "Glue"
  std::string title;       ///< of the case
  std::string headline;    ///< what is read first
  std::string to_fill_in;  ///< at the foot
  std::vector<SlipPart> parts;
};

/// For the terminal; `file`: of the slip to print.
std::string work_slip_text(const WorkSlip& slip, const std::string& file);

}  // namespace evenpull
