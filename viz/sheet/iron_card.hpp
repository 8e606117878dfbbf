// The half-page card of an iron check: which mark of the dial gives which true temperature. Plain words and numbers in,
// one page out.
#pragma once

#include "viz/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct IronCardStage {
  double temperature = 0;  ///< wanted, true [K]
  std::string mark;        ///< "3.4"; "not read" if none
  std::string band;        ///< "284 to 316 °F"
  std::string hold;        ///< "3.4 s"; empty without a case
  bool warn = false;
};

struct IronCard {
  std::string title;
  std::vector<IronCardStage> stages;
  std::vector<std::string> warnings, notes;
  struct Dot {
    double dial = 0, temperature = 0;
  };
  struct CurvePoint {
    double dial = 0, temperature = 0, plus_minus = 0;
  };
  std::vector<Dot> readings;
  std::vector<CurvePoint> curve;  ///< dial rising
};

/// Half a sheet of letter or A4. Throws CannotWriteFile that names the file when it cannot be written.
void write_iron_card(const IronCard& card, Paper paper, const std::string& version, const std::string& path);

}  // namespace evenpull
