// What would buy a stage, in words.
#pragma once

#include "shop/stiffen/ranking.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// A round of trials: the panel, the stage wanted, what stops it, what was tried.
struct Stiffening {
  Case the_case;
  Panel panel;               ///< of the first look
  std::optional<int> stage;  ///< the one wanted; none: the hottest is borne already
  Standing before;
  StageBar bar;
  std::vector<Trial> ranked;
  std::optional<double> setting{};  ///< K: hottest setting between stages that a first look bears
  bool chosen = false;              ///< somebody named the stage
};

/// "To bear 300 °F (149 °C)", or that there is nothing to stiffen.
std::string stiffen_headline(const Stiffening& s);
/// What stops the stage now.
std::string stiffen_because(const Stiffening& s);
/// What must be known before anything is built.
std::vector<std::string> stiffen_warnings(const Stiffening& s);
/// What all this rests on and what to do next. `case_file` as it was given.
std::vector<std::string> stiffen_notes(const Stiffening& s, const std::string& case_file);

/// "battens clamped along the outside of rib 1 and rib 7".
std::string candidate_text(const Case& c, const Candidate& k);
/// "bar, 3/4 in (19.1 mm) wide, 1 1/2 in (38.1 mm) high, Sitka spruce"; empty where nothing is added.
std::string candidate_size(const Case& c, const Candidate& k);
/// "comes off before use"; "stays in: 0.19 lb (85 g), 4.7 in (120 mm) behind the hinge line".
std::string candidate_stay(const Candidate& k, const AddedMass& m);
/// What it brings: "use 1.34 -> 0.82, bears 350 °F".
std::string trial_text(const Stiffening& s, const Trial& t);
/// What comes nearer to its limit by it; empty: nothing.
std::string worse_text(const Trial& t);

}  // namespace evenpull::viz
