// What a case leaves to be computed: done here, once all of it is read, and nowhere else.
#include "app/input/case_parts.hpp"
#include "solver/heat/pass_heat.hpp"
#include "solver/heat/thermal.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

// Middle of what cloth goes through between a hot sole and the onset of shrink.
double usual_cooling_time(const Cloth& cloth) {
  return cooling_time(cloth.areal_mass, 0.5 * (cloth.curve.front().temperature + cloth.curve.back().temperature));
}

// Light passes are only offered where this iron and this hand give them alike enough.
bool light_can_be_had(const Case& c, double full_dose) {
  return c.light_dose < full_dose && can_be_had(pass_heat(c, c.stages.front().temperature, c.light_dose));
}

void find_stated_doses(Case& c, double full_dose) {
  for (Stage& s : c.stages)
    for (std::size_t i = 0; i < s.dwells.size(); ++i)
      if (s.dwells[i] > 0)
        s.doses[i] = std::clamp(pass_heat(c, s.temperature, full_dose, s.dwells[i]).open.dose, least_dose, 1.0);
}

// The usual passes of a stage, and how they are printed.
const char* take_usual_passes(const Case& c, double full_dose, bool light, Stage& s) {
  s.doses = {full_dose, full_dose};
  if (light) s.doses = {c.light_dose, c.light_dose, full_dose};
  return light ? "light, light, full" : "full, full";
}

}  // namespace

void complete_case(CaseContext& context, Case& c) {
  const LeftOpen& open = context.left_open;
  const auto fill = [&](std::size_t place, const std::string& value, const std::string& why) {
    context.defaults_used[place].value = value;
    context.defaults_used[place].why = why;
  };
  if (open.cooling_time) {
    const double cooling = usual_cooling_time(c.cloth);
    c.iron.cooling_time = round_12(cooling);
    fill(*open.cooling_time, fmt::format("{:.1f} s", cooling), "cloth of this weight in still air; computed");
  }
  find_stated_doses(c, open.full_dose);
  if (!open.first_passes && !open.all_stages) return;
  const bool light = light_can_be_had(c, open.full_dose);
  if (open.first_passes) {
    const char* printed = take_usual_passes(c, open.full_dose, light, c.stages.front());
    fill(*open.first_passes, printed,
         light ? "light passes first even the pull; estimate; a plan tries others"
               : "two passes: common practice, no source; light ones come out too unlike with this iron; a plan tries "
                 "others");
    return;
  }
  std::string printed;
  for (Stage& s : c.stages) {
    const char* passes = take_usual_passes(c, open.full_dose, light && printed.empty(), s);
    printed += fmt::format("{}{:.0f} °F {}", printed.empty() ? "" : "; ", to_degF(s.temperature), passes);
  }
  fill(*open.all_stages, printed, fmt::format("{}; a plan tries other passes", default_from_practice));
}

}  // namespace evenpull
