#include "app/command/commands.hpp"

#include "app/command/exit_codes.hpp"
#include "app/input/case_reader.hpp"
#include "app/output/interruption.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/quoted.hpp"
#include "app/text/version.hpp"
#include "viz/words/order_words.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <iostream>
#include <new>
#include <ostream>

namespace evenpull {
namespace {

/// A full disk or a closed pipe shows when the last of the words leaves us.
void see_that_it_was_printed(std::ostream& out, const std::string& else_where) {
  out.flush();  // errno tells of this, or of the words before that did not get through
  if (out.good()) return;
  throw CannotWrite(fmt::format("standard output: cannot be written{}{}",
                                errno ? fmt::format(" ({})", std::strerror(errno)) : "", else_where));
}

void run(const Request& r, std::ostream& out) {
  switch (r.job) {
    case Request::Job::print_template:
      errno = 0;
      out << template_text();
      see_that_it_was_printed(out, "");
      return;
    case Request::Job::survey: run_survey(r, out); return;
    case Request::Job::contrast: run_contrast(r, out); return;
    case Request::Job::iron: run_iron(r, out); return;
    case Request::Job::log: run_log(r, out); return;
    case Request::Job::old: run_old(r, out); return;
    case Request::Job::blanket: run_blanket(r, out); return;
    case Request::Job::coupon: run_coupon(r, out); return;
    case Request::Job::tap: run_tap(r, out); return;
    case Request::Job::push: run_push(r, out); return;
    case Request::Job::stiffen: run_stiffen(r, out); return;
    case Request::Job::glue: run_glue(r, out); return;
    case Request::Job::weigh: run_weigh(r, out); return;
    case Request::Job::clock: run_clock(r, out); return;
    case Request::Job::signoff: run_signoff(r, out); return;
    case Request::Job::draft: run_draft(r, out); return;
    case Request::Job::attach: run_attach(r, out); return;
    case Request::Job::plan:
    case Request::Job::replay: run_plan(r, out); return;
  }
}

const char* ending_of(Request::Job job) {
  switch (job) {
    case Request::Job::survey:
    case Request::Job::draft: return "-survey";
    case Request::Job::replay: return "-replay";
    case Request::Job::contrast: return "-contrast";
    case Request::Job::iron: return "-iron";
    case Request::Job::log: return "-log";
    case Request::Job::old: return "-old";
    case Request::Job::blanket: return "-blanket";
    case Request::Job::coupon: return "-coupon";
    case Request::Job::tap: return "-tap";
    case Request::Job::push: return "-push";
    case Request::Job::attach: return "-attach";
    case Request::Job::stiffen: return "-stiffen";
    case Request::Job::glue: return "-glue";
    case Request::Job::weigh: return "-weigh";
    case Request::Job::clock: return "-clock";
    case Request::Job::signoff: return "-signoff";
    case Request::Job::plan:
    case Request::Job::print_template: break;
  }
  return "-plan";
}

}  // namespace

std::string not_converged_text(const Request& r, const NotConverged& e) {
  const auto unit = e.missed.unit.empty() ? "" : " " + e.missed.unit;
  return fmt::format(
      "{}: {}, so there is no plan\n  where: {}; {} iterations; {} {:.3g}{}, allowed {:.3g}{}\n  what to try: {}",
      shown_file(r.case_file), e.what(), viz::solve_text(e.where), e.iterations, e.missed.what, e.missed.value, unit,
      e.missed.allowed, unit,
      e.advice.empty()
          ? "look at the case with `evenpull survey`; a very soft frame or an absurd value is the usual cause"
          : e.advice);
}

void say_on_errors(const std::string& sentence) { std::cerr << on_one_line(sentence) << std::endl; }

int after_printing(int exit_code, std::ostream& out, std::ostream& err) {
  try {
    see_that_it_was_printed(out, "");
    return exit_code;
  } catch (const CannotWrite& e) {
    err << e.what() << std::endl;
    return static_cast<int>(ExitCode::cannot_write);
  }
}

void say(const Request& r, std::ostream& out, const std::string& document, const std::function<std::string()>& words) {
  errno = 0;
  if (r.json) out << document;
  else if (!r.quiet) out << words();
  see_that_it_was_printed(out, "; the results are whole in " + result_folder_of(r));
}

std::string result_folder_of(const Request& r) {
  if (!r.folder.empty()) return r.folder;
  if (r.case_file.empty()) return r.job == Request::Job::coupon ? "coupon" : "iron-check";
  const auto stem = r.case_file == "-" ? "standard-input" : std::filesystem::path(r.case_file).stem().string();
  return stem + ending_of(r.job);
}

std::string shown_result_folder(const Request& r) { return on_one_line(result_folder_of(r)); }

int run_request(const Request& r, std::ostream& out, std::ostream& err) {
  const auto fail = [&](ExitCode code, const std::string& message) {
    const Uninterrupted whole;
    err << message << std::endl;
    return static_cast<int>(code);
  };
  try {
    run(r, out);
    return static_cast<int>(ExitCode::done);
  } catch (const CaseFileError& e) {
    return fail(ExitCode::bad_case, e.what());
  } catch (const NotConverged& e) {
    return fail(ExitCode::not_converged, not_converged_text(r, e));
  } catch (const CannotWrite& e) {
    return fail(ExitCode::cannot_write, on_one_line(e.what()));
  } catch (const FolderBusy& e) {
    return fail(ExitCode::folder_busy, on_one_line(e.what()));
  } catch (const std::bad_alloc&) {
    return fail(ExitCode::our_mistake,
                "evenpull: not enough memory; close other programs, use --quick, or lower mesh.nodes in the case");
  } catch (const std::exception& e) {
    return fail(
        ExitCode::our_mistake,
        fmt::format("evenpull: a mistake of ours, please report it with the case file: {}", on_one_line(e.what())));
  }
}

}  // namespace evenpull
