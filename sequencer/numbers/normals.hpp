// Normal draws, the same every time for one seed.
#pragma once

#include "sequencer/numbers/sobol.hpp"

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_01.hpp>

#include <algorithm>
#include <cstddef>
#include <vector>

namespace evenpull::inline sequencer {

class Normals {
 public:
  explicit Normals(unsigned seed) : random_(seed) {}
  double operator()() {
    constexpr double least_chance = 1e-12;  // the quantile of 0 is none
    return normal_quantile(std::clamp(unit_(random_), least_chance, 1 - least_chance));
  }
  std::vector<double> row(int columns) {
    std::vector<double> x(static_cast<std::size_t>(columns));
    for (double& v : x) v = (*this)();
    return x;
  }
  double uniform() { return unit_(random_); }
  std::size_t below(std::size_t n) {
    return std::min(n - 1, static_cast<std::size_t>(unit_(random_) * static_cast<double>(n)));
  }

 private:
  boost::random::mt19937 random_;
  boost::random::uniform_01<double> unit_;
};

}  // namespace evenpull::inline sequencer
