// Two kinds of trouble a run can meet. A broken invariant of our own is neither: it asserts.
#pragma once

#include <stdexcept>
#include <string>

namespace evenpull::inline solver {

/// The case cannot be computed as stated (a mechanism, shrink data that contradict each other). `key` is the place in
/// the case, e.g. "supports.while_ironed", so that the reader of the file can add its line.
struct CaseError : std::runtime_error {
  std::string key;
  CaseError(std::string key_path, const std::string& message) : std::runtime_error(message), key(std::move(key_path)) {}
};

/// What a solve was asked to meet and did not, with its own number, what is allowed and their unit.
struct Missed {
  std::string what;  ///< "largest force out of balance", "bound on the error of the pull", ...
  double value = 0;
  double allowed = 0;
  std::string unit;  ///< "N", "N/m"; empty: a share
};

/// Which solve it was. Temperature and pass are those of a step; 0 where it is none.
struct SolveName {
  enum class Part { itself, settling, released };
  std::string what;        ///< the zone worked ("T7"), or what was solved
  double temperature = 0;  ///< K
  int pass = 0;
  Part part = Part::itself;

  SolveName() = default;
  SolveName(std::string what_) : what(std::move(what_)) {}  // NOLINT: a plain name is one
  SolveName(const char* what_) : what(what_) {}             // NOLINT
  SolveName(std::string zone, double temperature_, int pass_)
      : what(std::move(zone)), temperature(temperature_), pass(pass_) {}
  SolveName of(Part p) const {
    SolveName out = *this;
    out.part = p;
    return out;
  }
};

/// An equilibrium was not found to tolerance. Nothing computed from it may be printed but what was missed.
struct NotConverged : std::runtime_error {
  SolveName where;
  int iterations = 0;
  Missed missed;
  std::string advice;
  NotConverged(const std::string& message, SolveName where_, int iterations_, Missed missed_, std::string advice_)
      : std::runtime_error(message),
        where(std::move(where_)),
        iterations(iterations_),
        missed(std::move(missed_)),
        advice(std::move(advice_)) {}
};

}  // namespace evenpull::inline solver
