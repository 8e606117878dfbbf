// An order of ironing as a file that a person can write, edit and replay: which zone, in which pass of which stage,
// with which dose, done or still to do. It knows bays and strips but no mesh, so it outlives changes of the program.
#pragma once

#include "app/input/document.hpp"
#include "sequencer/orders/order_steps.hpp"
#include "sequencer/plan/window.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

constexpr int order_format = 1;

struct OrderFile {
  std::vector<OrderStep> steps;
  std::vector<bool> done;            ///< one for each step: worked already; a replay computes it all the same
  std::vector<std::string> doubts;   ///< sentences
  std::vector<Measured> measured{};  ///< what was read after stages that are done
  Places places{};                   ///< where each key stands, for what is found later
  std::string text{};                ///< as read
};

/// Reads an order for this case. Throws CaseFileError: unknown stage, stages or passes that go back, dose outside 0..1.
OrderFile read_order_file(const std::string& path, const Case& c);
/// The same of bytes that were read from it.
OrderFile order_file_of(std::string bytes, const std::string& path, const Case& c);

/// Sentences about zones that a pass leaves out or works twice; `panel` says which zones there are.
/// Throws CaseFileError for a zone that the panel does not have.
std::vector<std::string> check_order(const OrderFile& order, const std::string& path, const Case& c,
                                     const Panel& panel);

/// Stages whose passes the case leaves open take those of the order; where all its steps of a stage are done, passes that the
/// case has beyond them still follow. Throws CaseFileError for a pass beyond those that the
/// case states.
void take_passes(Case& c, const OrderFile& order, const std::string& path);

/// The text of an order file; byte for byte the same for the same steps. Steps hotter than `hottest_safe` [K] come
/// under a warning: they were computed, and are never to be ironed; those of `by_reading` [K] under their condition.
/// `measured`: lines of readings.
std::string order_text(const std::vector<OrderStep>& steps, const std::vector<bool>& done, const std::string& heading,
                       double hottest_safe, std::optional<double> by_reading = {},
                       const std::vector<std::string>& measured = {});

/// The steps marked done, in the order of the file. Throws CaseFileError if none is.
std::vector<OrderStep> steps_done(const OrderFile& order, const std::string& path);

/// Which steps of a plan were done before it was made.
std::vector<bool> done_of(const Plan& plan);

/// Steps of a plan in the terms of an order file.
std::vector<OrderStep> order_of(const Plan& plan);

}  // namespace evenpull
