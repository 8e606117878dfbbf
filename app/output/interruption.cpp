#include "app/output/interruption.hpp"

#include "app/text/quoted.hpp"

#include <fcntl.h>
#include <limits.h>
#include <poll.h>
#include <signal.h>
#include <unistd.h>

#include <algorithm>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace evenpull {
namespace {

constexpr int code_beyond_signal = 128;

struct Signal {
  int number;
  const char* name;
};
constexpr Signal signals[] = {{SIGINT, "SIGINT"}, {SIGTERM, "SIGTERM"}, {SIGHUP, "SIGHUP"}};

std::recursive_mutex& one_at_a_time() {
  static auto* const mutex = new std::recursive_mutex;  // outlives everything that ends with the program
  return *mutex;
}

std::function<std::string()>& on_interruption() {
  static auto* const work = new std::function<std::string()>;
  return *work;
}

/// A pipe that nobody empties must not keep us: all signals are blocked, so nothing but KILL would end the wait.
void say_if_anybody_reads(const std::string& line) {
  constexpr int patience = 1000;                  // ms for each piece
  constexpr std::size_t piece = _POSIX_PIPE_BUF;  // where a pipe has room at all, so much never waits
  for (std::size_t at = 0; at < line.size();) {
    pollfd there{STDERR_FILENO, POLLOUT, 0};
    if (poll(&there, 1, patience) <= 0 || !(there.revents & POLLOUT)) return;
    const auto n = write(STDERR_FILENO, line.data() + at, std::min(piece, line.size() - at));
    if (n <= 0) return;
    at += static_cast<std::size_t>(n);
  }
}

[[noreturn]] void end_by(int number) {
  one_at_a_time().lock();  // never let go: nobody gets on
  const char* name = "";
  for (const Signal& s : signals)
    if (s.number == number) name = s.name;
  std::string line = std::string("evenpull: interrupted (") + name + ")";
  try {
    if (on_interruption()) line += "; " + on_one_line(on_interruption()());
  } catch (const std::exception& e) {
    line += "; could not be tidied up: " + on_one_line(e.what());
  }
  line += "\n";
  if (isatty(STDERR_FILENO)) line = "\n" + line;  // not behind a bar half drawn
  say_if_anybody_reads(line);
  _exit(code_beyond_signal + number);
}

}  // namespace

void begin_process() {
  // A closed stream would give its number to the first file that is opened, and what is printed would land in it. Opened the
  // wrong way round it stays as unusable as it was.
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    if (fcntl(stream, F_GETFD) < 0 && open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY) < 0) break;
  signal(SIGXFSZ, SIG_IGN);  // the write that fails says so itself
  await_interruption();
}

void await_interruption() {
  sigset_t wanted, before;
  sigemptyset(&wanted);
  for (const Signal& s : signals) {
    struct sigaction now {};
    if (sigaction(s.number, nullptr, &now) == 0 && now.sa_handler != SIG_IGN) sigaddset(&wanted, s.number);
  }
  pthread_sigmask(SIG_BLOCK, &wanted, &before);
  one_at_a_time(), on_interruption();  // made while there is one thread
  try {
    std::thread([wanted] {
      int number = 0;
      while (sigwait(&wanted, &number) != 0) {
      }
      end_by(number);
    }).detach();
  } catch (const std::system_error&) {
    pthread_sigmask(SIG_SETMASK, &before, nullptr);  // no thread to be had: the signals end us as they would have
  }
}

Uninterrupted::Uninterrupted() : hold_(one_at_a_time()) {}

OnInterruption::OnInterruption(std::function<std::string()> work) {
  const Uninterrupted whole;
  on_interruption() = std::move(work);
}

OnInterruption::~OnInterruption() {
  const Uninterrupted whole;
  on_interruption() = nullptr;
}

int past_interruption(int exit_code) {
  one_at_a_time().lock();
  return exit_code;
}

}  // namespace evenpull
