// What was asked for on the command line.
#pragma once

#include "app/command/blanket_request.hpp"
#include "app/command/clock_request.hpp"
#include "app/command/coupon_request.hpp"
#include "app/command/draft_request.hpp"
#include "app/command/log_request.hpp"
#include "app/command/old_request.hpp"
#include "app/command/push_request.hpp"
#include "app/command/sign_off_request.hpp"
#include "app/command/stiffen_request.hpp"
#include "app/command/tap_request.hpp"
#include "app/command/weigh_request.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "viz/sheet/sheet.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

struct Request {
  enum class Job {
    plan,
    survey,
    replay,
    contrast,
    iron,
    log,
    coupon,
    tap,
    old,
    push,
    stiffen,
    glue,
    weigh,
    clock,
    signoff,
    draft,
    attach,
    blanket,
    print_template
  };
  Job job = Job::plan;
  std::string case_file;              ///< "-": standard input
  std::string order_file;             ///< replay: the order to run; plan: what was worked already, or empty
  std::optional<int> turn_overs;      ///< plan only: most in a pass
  std::vector<std::string> readings;  ///< iron only: "3 = 255 degF, 268 degF"
  std::string swing;                  ///< iron only: "25 degF"
  std::string folder;                 ///< as given with --out; empty: named after the case file
  Paper paper = Paper::letter;
  Accuracy accuracy = Accuracy::normal;
  // contrast only; unset: as the case says
  std::optional<double> looseness;  ///< share, each way
  std::optional<double> friction;   ///< at the trailing edge and on caps
  std::optional<double> stiffness;  ///< of the frame, times what the case says
  std::optional<int> threads;       ///< unset: as many as the machine has processors
  bool resume = false;              ///< plan only: go on from what an interrupted run kept
  bool json = false;
  bool quiet = false;
  LogRequest log;
  CouponRequest coupon;
  OldRequest old;
  BlanketRequest blanket;
  PushRequest push;
  StiffenRequest stiffen;
  WeighRequest weigh;
  ClockRequest clock;
  SignOffRequest sign_off;
  DraftRequest draft;
  TapRequest tap;  ///< tap only
};

/// The request, or the exit code when there is nothing more to do (help and version are printed, a mistake is
/// explained).
struct ParsedCommand {
  std::optional<Request> request;
  int exit_code = 0;
};
ParsedCommand parse_command_line(int argc, const char* const* argv);

}  // namespace evenpull
