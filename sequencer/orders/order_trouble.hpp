// What is wrong with an order that somebody gave, as values. The sentence is made in viz/words/order_words.hpp.
#pragma once

#include "solver/statement/errors.hpp"

namespace evenpull::inline sequencer {

struct OrderTrouble {
  enum class Kind {
    no_such_stage,  ///< `temperature`
    no_such_bay,    ///< `number`, of `most`
    no_such_strip,  ///< `number`, of `most`
    pass_below_one,
    dose_out_of_range,
    stage_left_out,  ///< the one at `temperature`
    temperature_falls,
    no_steps,
    nothing_left,    ///< every pass of every stage is done
    pass_not_stated  ///< pass `number` at `temperature`, which has `most`
  };
  Kind kind = Kind::no_steps;
  int step = 0;            ///< from 1; 0: of the whole order
  double temperature = 0;  ///< K
  int number = 0, most = 0;
};

/// Key "order".
struct OrderError : CaseError {
  OrderTrouble trouble;
  explicit OrderError(const OrderTrouble& t) : CaseError("order", "the order cannot be worked as given"), trouble(t) {}
};

}  // namespace evenpull::inline sequencer
