#include "viz/words/time_words.hpp"

#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <cmath>

namespace evenpull::viz {

std::string duration_text(double seconds) {
  constexpr long minute = 60, hour = 60;
  if (seconds < minute) return fmt::format("{} s", std::lround(seconds));
  const long minutes = std::lround(seconds / minute);
  if (minutes < hour) return fmt::format("{} min", minutes);
  return minutes % hour == 0 ? fmt::format("{} h", minutes / hour)
                             : fmt::format("{} h {} min", minutes / hour, minutes % hour);
}

std::string time_sentence(const Plan& plan) {
  if (!plan.ceiling || plan.times.empty()) return "";
  StageTime all;
  std::string stages;
  for (const StageTime& t : plan.times) {
    all.ironing += t.ironing, all.turning += t.turning, all.waiting += t.waiting, all.turn_overs += t.turn_overs;
    stages += fmt::format("{}{} {}", stages.empty() ? "" : ", ",
                          degrees_f(plan.the_case.stages[static_cast<std::size_t>(t.stage)].temperature),
                          duration_text(t.all()));
  }
  return fmt::format("Time: about {}: ironing {}, {} turn-over{} {}, cooling and checks {}. {}.",
                     duration_text(all.all()), duration_text(all.ironing), all.turn_overs,
                     all.turn_overs == 1 ? "" : "s", duration_text(all.turning), duration_text(all.waiting), stages);
}

}  // namespace evenpull::viz
