// The jobs behind the command line. Each writes its folder whole or not at all, and throws on trouble.
#pragma once

#include "app/command/request.hpp"
#include "solver/statement/errors.hpp"

#include <functional>
#include <iosfwd>
#include <string>

namespace evenpull {

/// Does the job and turns every error into one message on `err` and an exit code.
int run_request(const Request& request, std::ostream& out, std::ostream& err);

void run_plan(const Request& request, std::ostream& out);  ///< also replay
void run_contrast(const Request& request, std::ostream& out);
void run_survey(const Request& request, std::ostream& out);
void run_iron(const Request& request, std::ostream& out);
void run_draft(const Request& request, std::ostream& out);
void run_log(const Request& request, std::ostream& out);
void run_push(const Request& request, std::ostream& out);
void run_stiffen(const Request& request, std::ostream& out);
void run_glue(const Request& request, std::ostream& out);
void run_weigh(const Request& request, std::ostream& out);
void run_clock(const Request& request, std::ostream& out);
void run_signoff(const Request& request, std::ostream& out);
void run_blanket(const Request& request, std::ostream& out);
void run_old(const Request& request, std::ostream& out);
void run_coupon(const Request& request, std::ostream& out);
void run_attach(const Request& request, std::ostream& out);
void run_tap(const Request& request, std::ostream& out);

/// What is said where no equilibrium was found: the test that was missed, with its numbers in its unit, and what to
/// try.
std::string not_converged_text(const Request& request, const NotConverged& e);

/// Prints what was asked for: the document, the words, or nothing.
void say(const Request& request, std::ostream& out, const std::string& document,
         const std::function<std::string()>& words);

/// Says on standard error what a person should know besides the result.
void say_on_errors(const std::string& sentence);

/// Help or version was printed: the exit code, unless it could not be written.
int after_printing(int exit_code, std::ostream& out, std::ostream& err);

/// Where the results go: --out, or `<stem of the case file>-plan` (-survey, -replay, -contrast) in the current folder.
std::string result_folder_of(const Request& request);
/// The same as a message may show it.
std::string shown_result_folder(const Request& request);

}  // namespace evenpull
