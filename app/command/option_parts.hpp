// Options that several commands share. Only these files and those that describe a command know the command-line
// library.
#pragma once

#include "app/command/request.hpp"
#include "app/text/units.hpp"

#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace evenpull {

void add_case(CLI::App& command, Request& r);
/// --out, --json, --quiet.
void add_common(CLI::App& command, Request& r);
void add_paper(CLI::App& command, Request& r, const char* what);
void add_threads(CLI::App& command, Request& r);
void add_accuracy(CLI::App& command, Request& r, const char* quick);
/// Paper and accuracy of a plan.
void add_run(CLI::App& command, Request& r);
/// An option that takes a quantity of a kind between two bounds, SI.
void add_number(CLI::App& command, const std::string& name, std::optional<double>& into, Quantity kind, double least,
                double most, const std::string& help);
/// The words that an option understands; empty where it takes others too.
std::vector<std::string> choices_of(const std::string& option);

/// Commands of the bench, each with its options; app/command/describe_<command>.cpp.
void describe_iron(CLI::App& app, Request& r);
void describe_log(CLI::App& app, Request& r);
void describe_blanket(CLI::App& app, Request& r);
void describe_old(CLI::App& app, Request& r);
void describe_coupon(CLI::App& app, Request& r);
void describe_tap(CLI::App& app, Request& r);
void describe_push(CLI::App& app, Request& r);
void describe_draft(CLI::App& app, Request& r);

}  // namespace evenpull
