#include "sequencer/plan/chances.hpp"

#include <boost/math/distributions/binomial.hpp>

namespace evenpull::inline sequencer {
namespace {

constexpr double tail = 0.025;  // on each side of a 95 % interval

}  // namespace

Chance chance_of(int hits, int of) {
  Chance c{hits, of, 0, 1};
  if (of <= 0) return c;
  using boost::math::binomial_distribution;
  c.low = hits == 0 ? 0 : binomial_distribution<>::find_lower_bound_on_p(of, hits, tail);
  c.high = hits == of ? 1 : binomial_distribution<>::find_upper_bound_on_p(of, hits, tail);
  return c;
}

}  // namespace evenpull::inline sequencer
