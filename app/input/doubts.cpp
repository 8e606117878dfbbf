// What is possible but unusual, and so more often a slip than a wish.
#include "app/input/case_parts.hpp"
#include "app/input/usual.hpp"
#include "sequencer/replay/full_passes.hpp"
#include "solver/cloth/shrink.hpp"
#include "solver/heat/pass_heat.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace evenpull {
namespace {

// Yarn directions in which all stages together shrink the cloth by less than it lies loose, in words; empty if none. A
// frame that gives and a curved tip leave it looser still: this is only what can be foreseen at once. Full passes meet the
// top of the swing, as a plan counts them (docs/model.md, section 4).
std::string loose_to_the_end(const Case& c) {
  const Cloth& cloth = c.cloth;
  const Eigen::Matrix3d stiff = compliance(cloth.stiffness.warp, cloth.stiffness.fill, cloth.poisson, cloth.shear);
  const double loose[] = {looseness_strain(cloth.looseness.warp), looseness_strain(cloth.looseness.fill)};
  bool tight[2] = {false, false};
  for (int d = 0; d < 2; ++d) {
    double shrunk = 0;
    for (const Stage& s : c.stages)
      for (size_t pass = 1; pass <= s.doses.size(); ++pass) {
        const double warmer = c.iron.swing * top_of_swing_met(full_passes_of(s.doses, static_cast<int>(pass)));
        const double hot = std::min(s.temperature + warmer, cloth.curve.back().temperature);
        shrunk = std::max(shrunk, shrunk + s.doses[pass - 1] * (shrink_at(cloth, stiff, hot).free_shrink[d] - shrunk));
      }
    tight[d] = shrunk > loose[d];
  }
  if (tight[0] && tight[1]) return "";
  return tight[0] ? "fill" : tight[1] ? "warp" : "warp and the fill";
}

}  // namespace

void find_doubts(Case& c) {
  const auto doubt = [&](std::string sentence) { c.doubts.push_back(std::move(sentence)); };
  for (size_t i = 1; i < c.ribs.size(); ++i)
    if (c.ribs[i].station - c.ribs[i - 1].station > usual::widest_bay)
      doubt(fmt::format("Ribs {} and {} stand {} apart, more than is usual.", i, i + 1,
                        print_length(c.ribs[i].station - c.ribs[i - 1].station)));
  double thickest = 0;
  for (const auto& p : c.profile) thickest = std::max(thickest, p.top + p.bottom);
  if (thickest > usual::thickest || thickest < usual::thinnest)
    doubt(fmt::format("The panel is {:.1f} % of its chord thick, which is unusual; heights are half thicknesses.",
                      thickest * 100));
  if ((c.cloth_goes_on_inboard || c.cloth_goes_on_outboard) && c.ribs.size() == 2)
    doubt(
        "One bay of a wing that goes on: its ribs are held in their planes by the mirror, so how they buckle along the "
        "span "
        "cannot be seen. State two bays or more, so that a rib like them stands within.");
  find_depth_doubts(c);
  find_section_doubts(c);
  for (std::string& sentence : viz::attachment_doubts(c)) doubt(std::move(sentence));
  if (std::max(c.cloth.looseness.warp, c.cloth.looseness.fill) > usual::loosest)
    doubt("The cloth is laid on looser than the usual 0 to 3 %.");
  if (const auto still = loose_to_the_end(c); !still.empty())  // before all others
    c.doubts.insert(
        c.doubts.begin(),
        "LOOSE CLOTH: by the last stage and its passes the cloth shrinks no more along the " + still +
            " than it lies loose there: that way it cannot come tight. Check the free shrink, the looseness and "
            "the passes.");
  if (const double peak = to_degF(c.stages.back().temperature) + c.iron.swing * 1.8; peak > polyester_refuse_degF)
    doubt(fmt::format("With its swing the iron reaches {:.0f} °F at times: let it settle before it touches cloth.",
                      peak));
  if (c.stages.front().doses.back() < usual::full_dose_is_at_least) doubt("The first stage ends without a full pass.");
  if (c.approved_last_stage && c.stages.back().temperature < *c.approved_last_stage - 1)
    doubt(fmt::format("The approved data ask for {}, but the last stage of the case is {}.",
                      viz::degrees_both(*c.approved_last_stage), viz::degrees_both(c.stages.back().temperature)));
}

}  // namespace evenpull
