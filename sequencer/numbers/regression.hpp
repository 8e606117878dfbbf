// Which of several inputs a number hangs on.
#pragma once

#include <vector>

namespace evenpull::inline sequencer {

/// Standardised linear regression of y on the columns of x, with 90 % intervals from resampling: weights largest first,
/// by index into the columns. `explained` gets R^2.
struct ColumnWeight {
  int column = 0;
  double share = 0, low = 0, high = 0, sign = 0;
};
std::vector<ColumnWeight> weigh_columns(const std::vector<std::vector<double>>& x, const std::vector<double>& y,
                                        double& explained);

}  // namespace evenpull::inline sequencer
