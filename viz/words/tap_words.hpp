// What `tap` says: the pull of the cloth in each bay that was tapped or weighed. Plain numbers in, sentences out.
#pragma once

#include "solver/geometry/panel.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

/// Beside the other bays of the panel, or beside what was expected.
enum class Beside { unknown, lower, alike, higher };

/// One reading and what it says. Pulls N/m, sqrt(chordwise x spanwise).
struct TapLine {
  Side side = Side::top;
  int bay = 0;
  bool by_weight = false;
  double tone = 0;                        ///< Hz
  double tone_off = 0;                    ///< one sigma of its logarithm
  int taps = 0;                           ///< of a recording; 0: typed
  int passed_over = 0;                    ///< taps of it that did not ring clearly
  double weight = 0, sag = 0;             ///< kg, m
  std::optional<double> pull, low, high;  ///< none: no pull can be told
  std::optional<double> expected;         ///< N/m
  Beside others = Beside::unknown;        ///< by its tone, size of the bay allowed for
  std::optional<double> ratio,
      ratio_off;              ///< where no pull is told: squared tone over that of the first, size allowed for
  double chord_weight = 0.5;  ///< of the chordwise pull in the tone
  double shut_in = 0;         ///< share of the shut-in air in the stiffness
  double air_over_cloth = 0;
  double doubt_air = 0;  ///< share of the doubt (variance) that is the air's
  enum class Trouble { nothing, no_field, too_deep, too_small_for_disc, too_low } trouble = Trouble::nothing;
};

enum class BehindTold { either, open, skin, held };
enum class ExpectedFrom { nothing, stage, plan };

struct TapTold {
  std::string title;
  BehindTold behind = BehindTold::either;
  ExpectedFrom expected_from = ExpectedFrom::nothing;
  std::optional<double> stage;  ///< K
  double areal_mass = 0;        ///< kg/m^2
  std::vector<TapLine> lines;
  std::vector<std::string> measured;  ///< lines for an order file
};

namespace viz {

std::string tap_place(const TapLine& l);     ///< "top, bay 2"
std::string tap_read(const TapLine& l);      ///< "84.0 Hz", "3.1 mm under 1 kg"
std::string tap_pull(const TapLine& l);      ///< "2.4 lb/in", "not told"
std::string tap_range(const TapLine& l);     ///< "1.6 to 3.4 lb/in (280 to 600 N/m)"
std::string tap_expected(const TapLine& l);  ///< "3.4 lb/in, more"
/// What a reader must know before believing any of it, and what the numbers are.
std::vector<std::string> tap_warnings(const TapTold& t);
std::vector<std::string> tap_notes(const TapTold& t);
/// For the terminal.
std::string tap_text(const TapTold& t, const std::string& folder);

}  // namespace viz
}  // namespace evenpull
