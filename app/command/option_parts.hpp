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
/// Of a command of the bench, which prints a slip of half a sheet: --paper and what add_common adds.
void add_slip(CLI::App& command, Request& r);
/// An option that is given once for each of several things.
void add_each(CLI::App& command, const std::string& name, std::vector<std::string>& into, const std::string& help,
              const std::string& type = "TEXT");
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
void describe_stiffen(CLI::App& app, Request& r);
void describe_glue(CLI::App& app, Request& r);
void describe_weigh(CLI::App& app, Request& r);
void describe_clock(CLI::App& app, Request& r);
void describe_signoff(CLI::App& app, Request& r);
void describe_draft(CLI::App& app, Request& r);
void describe_attach(CLI::App& app, Request& r);

}  // namespace evenpull
