// Two kinds of trouble a run can meet. A broken invariant of our own is neither: it asserts.
#pragma once

#include <stdexcept>
#include <string>

namespace evenpull {

/// The case cannot be computed as stated (a mechanism, shrink data that contradict each other). `key` is the place in
/// the case, e.g. "supports.while_ironed", so that the reader of the file can add its line.
struct CaseError : std::runtime_error {
  std::string key;
  CaseError(std::string key_path, const std::string& message) : std::runtime_error(message), key(std::move(key_path)) {}
};

/// An equilibrium was not found to tolerance. Nothing computed from it may be printed but these numbers.
struct NotConverged : std::runtime_error {
  std::string where;      ///< "250 F, pass 1, T7"
  int iterations = 0;
  double residual = 0;    ///< N
  double tolerance = 0;   ///< N
  std::string advice;
  NotConverged(const std::string& message, std::string where_, int iterations_, double residual_, double tolerance_,
               std::string advice_)
      : std::runtime_error(message), where(std::move(where_)), iterations(iterations_), residual(residual_),
        tolerance(tolerance_), advice(std::move(advice_)) {}
};

}  // namespace evenpull
