#include "sequencer/plan/temperature_text.hpp"

#include <cmath>

namespace evenpull {

std::string temperature_text(double kelvin) {
  return std::to_string(std::lround(kelvin * 1.8 - 459.67)) + " \xC2\xB0""F (" +
         std::to_string(std::lround(kelvin - 273.15)) + " \xC2\xB0""C)";
}

}  // namespace evenpull
